using FixtureGen.Model;

namespace FixtureGen.Verify.Facts;

/// <summary>What does not fit the shop: what, where, by how much, and what would mend it.</summary>
internal static class FactFindings
{
    public static void Missing(FactRun facts, string what, Point2 at, Setup setup) =>
        facts.Run.Log.Error(
            "feature-missing",
            facts.Line(at, setup),
            $"{what} at X {at.X:0.##} Y {at.Y:0.##} is not cut",
            "Cut it: plate, drawing or job ask for it",
            at
        );

    public static void Unasked(FactRun facts, string what, Point2 at, Setup setup) =>
        facts.Run.Log.Error(
            "feature-unasked",
            facts.Line(at, setup),
            $"{what} at X {at.X:0.##} Y {at.Y:0.##} is cut, and nothing in plate, drawing or job asks for it",
            "Leave it out, or state what it is for",
            at
        );

    public static void OffPlace(FactRun facts, string what, Point2 at, double off, double allowed, Setup setup) =>
        facts.Run.Log.Error(
            "hole-off-place",
            facts.Line(at, setup),
            $"{what} is cut {off:0.###} mm off its place at X {at.X:0.###} Y {at.Y:0.###}, {allowed:0.###} mm is allowed",
            "Cut it where the shop's files say",
            at
        );

    public static void Fit(FactRun facts, ExpectedHole hole, double diameter, int line) =>
        facts.Run.Log.Error(
            "fit-off",
            line,
            $"{hole.Name} measures {diameter:0.000} mm where the shop's files ask for {hole.Diameter:0.000} mm, {hole.Diameter - diameter:+0.000;-0.000} mm too small; its fit allows -{hole.Under:0.000} +{hole.Over:0.000}",
            "Cut it to the size of what goes into it",
            hole.At
        );

    public static void Wall(FactRun facts, string what, Point2 at, double off, double allowed, Setup setup) =>
        facts.Run.Log.Error(
            "wall-off",
            facts.Line(at, setup),
            $"a wall of {what} stands {Math.Abs(off):0.###} mm too {(off > 0 ? "far out" : "far in")} at X {at.X:0.##} Y {at.Y:0.##}, {allowed:0.###} mm is allowed",
            "Cut it to the drawing and to the shop's clearances",
            at
        );

    public static void Floor(FactRun facts, string what, Point2 at, double off, double allowed, Setup setup) =>
        facts.Run.Log.Error(
            "floor-off",
            facts.Line(at, setup),
            $"{what} is {Math.Abs(off):0.###} mm too {(off > 0 ? "high" : "deep")}, {allowed:0.###} mm is allowed",
            "Cut it as deep as the shop's files ask",
            at
        );

    public static void Job(FactRun facts, string what, double design, double job, string unit) =>
        facts.Run.Log.Error(
            "design-off-job",
            0,
            $"{what} is {design:0.####} {unit} in the design and {job:0.####} {unit} by the job",
            "Make the design again from the job and the shop's files"
        );

    public static void Named(FactRun facts, string what, string design, string job) =>
        facts.Run.Log.Error(
            "design-off-job",
            0,
            $"{what} is '{design}' in the design and '{job}' by the job",
            "Make the design again from the job and the shop's files"
        );

    public static void Drawing(FactRun facts, string what, double off, Point2 at) =>
        facts.Run.Log.Error(
            "design-off-drawing",
            0,
            $"{what} lies {off:0.####} mm off the drawing in its placement at X {at.X:0.##} Y {at.Y:0.##}",
            "Make the design again from the drawing",
            at
        );

    public static void DrawingCount(FactRun facts, string what, int design, int drawn) =>
        facts.Run.Log.Error(
            "design-off-drawing",
            0,
            $"the design has {design} {what}, the drawing {drawn}",
            "Make the design again from the drawing"
        );

    public static void Bend(FactRun facts, double radius, double least, Point2 at) =>
        facts.Run.Log.Error(
            "cord-bend",
            facts.Line(at, Setup.Top),
            $"the cord's groove bends round {radius:0.##} mm on its inner wall at X {at.X:0.##} Y {at.Y:0.##}, {least - radius:0.##} mm less than the {least:0.##} mm that the cord bears",
            "Lead the groove round a wider bend",
            at
        );

    public static void Cord(FactRun facts, int number, double length, double wanted, Point2 at) =>
        facts.Run.Log.Error(
            "cord-length",
            0,
            $"cord {number} is to be cut {length:0.#} mm long, its groove and allowance ask for {wanted:0.#} mm",
            "Measure the groove's centre line and add the cord's allowance",
            at
        );

    public static void Port(FactRun facts, string what, Point2 at, double off) =>
        facts.Run.Log.Error(
            "port-off-plate",
            facts.Line(at, Setup.Top),
            $"{what} at X {at.X:0.##} Y {at.Y:0.##} opens {off:0.##} mm outside the plate's ports and grooves, and outside every channel that leads to one",
            "Bore it over a port or a groove of the plate",
            at
        );

    public static void Unfed(FactRun facts, int zone, Point2 at, double off) =>
        facts.Run.Log.Error(
            "zone-unfed",
            facts.Line(at, Setup.Top),
            $"zone {zone} at X {at.X:0.##} Y {at.Y:0.##} lies {off:0.##} mm from what leads its air away",
            "Lead the net and the zone's hole to each other and to all of the zone",
            at
        );

    public static void Unsupported(FactRun facts, Point2 at, double bears, double wanted, string why) =>
        facts.Run.Log.Error(
            "form-unsupported",
            facts.Line(at, Setup.Top),
            $"the form at X {at.X:0.##} Y {at.Y:0.##} has no plug and bears {bears:0.##} times what the pump can reach, {wanted:0.##} times are wanted: {why}",
            "Put a plug under it, or form it of thicker sheet",
            at
        );

    public static void Thin(FactRun facts, string one, string other, double wall, double least, Point2 at) =>
        facts.Run.Log.Error(
            "wall-left",
            facts.Line(at, Setup.Top),
            $"{wall:0.###} mm of wall are left between {one} and {other} at X {at.X:0.##} Y {at.Y:0.##}, {least:0.###} mm is the least",
            "Move one of them",
            at
        );

    public static void Edge(FactRun facts, int line, double bite, double allowed, Point2 at) =>
        facts.Run.Log.Error(
            "edge-cut-into",
            line,
            $"the cutter goes {bite:0.###} mm into the part as drawn at X {at.X:0.##} Y {at.Y:0.##}, {allowed:0.###} mm is allowed",
            "Correct the position, or the cutter",
            at
        );

    public static void EdgeLeft(FactRun facts, int line, double left, double allowed, Point2 at) =>
        facts.Run.Log.Error(
            "edge-left",
            line,
            $"the drawn edge at X {at.X:0.##} Y {at.Y:0.##} is {left:0.###} mm from being cut, {allowed:0.###} mm is allowed",
            "A cut is missing or in the wrong place",
            at
        );

    public static void Trim(FactRun facts, string cut, string what, Point2 at) =>
        facts.Run.Log.Error(
            "trim-off-job",
            facts.Line(at, Setup.Trim),
            $"{cut}: {what}",
            "Plan the trim again from the drawing and the job",
            at
        );

    public static void Label(FactRun facts, string what) =>
        facts.Run.Log.Error("label-off-job", 0, $"{what}", "Engrave what the job says");

    public static void MagnetCount(FactRun facts, int design, int wanted) =>
        facts.Run.Log.Error(
            "magnets-off-job",
            0,
            $"the design has {design} magnets, job and drawing ask for {wanted}",
            "Place as many as are asked for"
        );

    public static void MagnetBesideShell(FactRun facts, int number, Point2 at) =>
        facts.Run.Log.Error(
            "magnets-off-job",
            facts.Line(at, Setup.Top),
            $"magnet {number} lies at X {at.X:0.##} Y {at.Y:0.##}, beside the finished part or in a cutout: it holds nothing there",
            "Put it under the part",
            at
        );

    public static void MagnetPlace(FactRun facts, double off, Point2 at) =>
        facts.Run.Log.Error(
            "magnets-off-job",
            facts.Line(at, Setup.Top),
            $"no magnet lies within {Fits.Place:0.##} mm of the place X {at.X:0.##} Y {at.Y:0.##} that is fixed for one; the nearest is {off:0.##} mm away",
            "Put the magnet where the job or the drawing fixes it",
            at
        );
}
