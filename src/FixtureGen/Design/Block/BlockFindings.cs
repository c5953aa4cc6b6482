using FixtureGen.Model;
using static FixtureGen.Design.Block.FindingWords;

namespace FixtureGen.Design.Block;

/// <summary>What is wrong with the block itself: its thickness, how it sits on the plate, its bolts and pins, walls and floors between features; lengths in mm.</summary>
internal static class BlockFindings
{
    public static Finding SkimTooThin(double skim, double least, double raw, double face) =>
        new(
            "skim-too-thin",
            Severity.Error,
            "block",
            $"the block measures {Mm(raw)} and is skimmed to {Mm(face)}: {Mm(skim)} to skim, {Mm(least)} is the least",
            $"take a blank at least {Mm(face + least)} thick or lower the fixture height to {Mm(raw - least)}"
        );

    public static Finding SkimMissesThin(double tolerance, double raw, double face) =>
        new(
            "skim-too-thin",
            Severity.Error,
            "block",
            $"the blank is {Mm(raw)} or up to {Mm(tolerance)} less and is skimmed to {Mm(face)}: the thinnest stays raw, {Mm(face - raw + tolerance)} below the skim",
            $"measure the block and state it as [block] thickness, or lower the fixture height to {Mm(raw - tolerance)}"
        );

    public static Finding FloorThin(string what, Point2? at, double floor, double least) =>
        new(
            "floor-thin",
            Severity.Error,
            at is { } p ? $"{what} at {Place(p)}" : what,
            $"the floor under the {what} is {Mm(floor)}, {Mm(least - floor)} less than the least floor of {Mm(least)}",
            "take a thicker blank and raise the fixture height by that much, or make the feature shallower"
        )
        {
            At = at,
        };

    public static Finding StopsDoNotSeat(string plate, string axis) =>
        new(
            "stops-missing",
            Severity.Error,
            $"plate {plate}",
            $"no edge stop of the plate holds the blank in {axis}",
            $"give the plate a stop whose normal points along {axis}"
        );

    /// <param name="remedy">The blanks that were tried and cover it.</param>
    public static Finding BlankInsidePlateSeal(double shortBy, string remedy) =>
        new(
            "blank-inside-plate-seal",
            Severity.Error,
            "block",
            $"the blank falls {Mm(shortBy)} short of covering the plate's seal, so nothing would hold it while it is cut",
            remedy
        );

    /// <param name="remedy">The blanks that were tried and have bolts enough.</param>
    public static Finding TooFewBolts(string plate, int count, string remedy) =>
        new(
            "too-few-bolts",
            Severity.Error,
            $"plate {plate}",
            $"{Count(count)} bolt holes of the plate lie under the blank, at least 2 are needed",
            $"{remedy}, or add bolt holes to the plate"
        );

    public static Finding WasherPresses(Screw screw, Material block, double bears)
    {
        double torque = screw.TorqueNm * bears / screw.WasherMPa;
        double area = screw.WasherArea * screw.WasherMPa / bears;
        double wide = Math.Sqrt((area * 4 / Math.PI) + (screw.ClearanceHole * screw.ClearanceHole));
        return new(
            "washer-presses",
            Severity.Warning,
            screw.Name,
            FormattableString.Invariant(
                $"tightened to {screw.TorqueNm:0.0} N.m the washer presses {screw.WasherMPa:0.0} N/mm2 on the block, {block.Name} bears {bears:0.0} for long: the clamp goes by creep within hours"
            ),
            FormattableString.Invariant(
                $"tighten to at most {Math.Floor(torque * 10) / 10:0.0} N.m, fit washers of {Math.Ceiling(wide):0} mm or wider, or a metal sleeve through the block"
            )
        );
    }

    /// <param name="relief">The deepest of the bolt holes, mm: the thread begins below it.</param>
    public static Finding ScrewThreadShort(Plate plate, Screw screw, double relief, double shortBy) =>
        new(
            "screw-thread-short",
            Severity.Error,
            $"plate {plate.Name}",
            $"below a relief of {Mm(relief)} a plate {Mm(plate.Thickness)} thick leaves {Mm(plate.Thickness - relief - screw.Pitch)} of thread, a pitch of {Mm(screw.Pitch)} taken off: {Mm(shortBy)} less than the {Mm(screw.Body)}, one diameter, that '{screw.Name}' is to be screwed in",
            "make the relief of the bolt holes shallower, take a thinner screw, or correct thickness and relief_depth in the plate's file"
        );

    public static Finding HoleInPlateSeal(string hole, Point2 at, double shortBy) =>
        new(
            "hole-in-plate-seal",
            Severity.Error,
            $"{hole} at {Place(at)}",
            $"the hole reaches {Mm(shortBy)} too far towards the plate's seal: drilling it would let go of the block",
            "move the plate's opening outside its seal loop, or pull the seal loop in"
        )
        {
            At = at,
        };

    public static Finding HoleOverEdge(string hole, Point2 at, double needed) =>
        new(
            "hole-over-edge",
            Severity.Error,
            $"{hole} at {Place(at)}",
            $"the hole's centre must stay {Mm(needed)} inside the block's edge and does not",
            "take a larger blank or move the opening"
        )
        {
            At = at,
        };

    public static Finding GoesOnTwoWays(string other) =>
        new(
            "block-goes-on-two-ways",
            Severity.Warning,
            "plate",
            $"the finished block also goes on {other}",
            "shift one bolt hole or one pin of the plate by a few millimetres off the symmetry"
        );

    /// <summary>The hole is then bored from below, which takes an underside program.</summary>
    public static Finding OpeningWithoutRelief(PlateOpening opening, Point2 at, double diameter, double depth) =>
        new(
            "opening-without-relief",
            Severity.Warning,
            $"{opening.Name} at {Place(at)}",
            $"a hole through the block here would need a relief {Mm(diameter)} wide and {Mm(depth)} deep below the plate's face; the plate states {Mm(opening.ReliefDiameter)} by {Mm(opening.ReliefDepth)}: {Mm(Math.Max(diameter - opening.ReliefDiameter, depth - opening.ReliefDepth))} short, so the block is cut from below first and turned over",
            "widen or deepen the relief in the plate and state it, to cut the block in one setup"
        )
        {
            At = at,
        };

    public static Finding FeatureOverEdge(string feature, Point2 at) =>
        new(
            "feature-over-edge",
            Severity.Error,
            $"{feature} at {Place(at)}",
            "the feature leaves the block",
            "move the part or take a larger blank"
        )
        {
            At = at,
        };

    public static Finding FeaturesMeet(string a, string b, Point2 at) =>
        new(
            "features-meet",
            Severity.Error,
            $"{a} and {b} at {Place(at)}",
            $"{a} and {b} run into each other",
            "move the part, the magnet or the opening that the message names"
        )
        {
            At = at,
        };

    public static Finding WallThin(string a, string b, Point2 at, double wall, double least) =>
        new(
            "wall-thin",
            Severity.Error,
            $"{a} and {b} at {Place(at)}",
            $"the wall between {a} and {b} is {Mm(wall)}, {Mm(least - wall)} less than the least of {Mm(least)}",
            "move the part, the magnet or the form that the message names"
        )
        {
            At = at,
        };
}
