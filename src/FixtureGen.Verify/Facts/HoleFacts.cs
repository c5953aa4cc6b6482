using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Shape;

namespace FixtureGen.Verify.Facts;

/// <summary>
/// A hole, or with Half a slot whose end radii stand Half to both sides of At, that the shop's files ask for, plate frame, mm. Its
/// diameter may be Under less and Over more, its middle Place off.
/// </summary>
internal sealed record ExpectedHole(
    string Name,
    FeatureKind Kind,
    Point2 At,
    double Diameter,
    Point2 Half,
    double Under,
    double Over,
    double Place
)
{
    /// <summary>Its walls are everywhere half the diameter from this.</summary>
    public Piece Axis => Piece.Line(At - Half, At + Half);

    /// <summary>Its walls.</summary>
    public ImmutableArray<Piece> Walls()
    {
        double r = Diameter / 2;
        double length = Half.Length;
        Point2 along = length > 0 ? Half * (1 / length) : new Point2(1, 0);
        Point2 left = along.Left * r;
        (Point2 a, Point2 b) = (At - Half, At + Half);
        Piece[] ends = [Piece.Arc(b - left, b + left, b, Math.PI), Piece.Arc(a + left, a - left, a, Math.PI)];
        return length > 0 ? [.. ends, Piece.Line(b + left, a + left), Piece.Line(a - left, b - left)] : [.. ends];
    }
}

/// <summary>
/// Pins, bolts and locator pins: every hole that plate or job ask for is in the design, once, in its place and of the size that its
/// fit asks for, and no other is.
/// </summary>
internal static class HoleFacts
{
    public static void Check(FactRun facts)
    {
        ImmutableArray<ExpectedHole> holes = Expected(facts);
        foreach (
            FeatureKind kind in (FeatureKind[])
                [
                    FeatureKind.PinHole,
                    FeatureKind.PinSlot,
                    FeatureKind.BoltHole,
                    FeatureKind.Counterbore,
                    FeatureKind.LocatorHole,
                ]
        )
        {
            Match(facts, [.. holes.Where(h => h.Kind == kind)], [.. facts.Cuts(kind)], Heights);
        }
    }

    /// <summary>What plate and job ask for.</summary>
    public static ImmutableArray<ExpectedHole> Expected(FactRun facts)
    {
        (Job job, Box2 box) = (facts.Job, facts.Design.Placement.BlankBox);
        List<ExpectedHole> holes = [.. Pins(job)];
        Screw screw = job.Bolt;
        double head = Math.Max(screw.Counterbore, Math.Max(screw.HeadDiameter, screw.WasherDiameter));
        foreach (PlateOpening bolt in job.Plate.Bolts.Where(b => Within(box, b.At)))
        {
            double place = Fits.BoltPlace(screw);
            double wide = screw.ClearanceHole;
            holes.Add(
                new(
                    $"bolt hole {bolt.Name}",
                    FeatureKind.BoltHole,
                    bolt.At,
                    wide,
                    default,
                    Fits.Place,
                    Fits.H13(wide),
                    place
                )
            );
            holes.Add(
                new(
                    $"counterbore {bolt.Name}",
                    FeatureKind.Counterbore,
                    bolt.At,
                    head,
                    default,
                    Fits.Place,
                    2 * Fits.HeadAir,
                    place
                )
            );
        }
        IEnumerable<Point2> pins = job.Locator == LocatorKind.Pins ? job.LocatorPins : [];
        double pin = job.Rules.LocatorPinDiameter;
        foreach ((int i, Point2 at) in pins.Index())
        {
            Point2 placed = facts.Drawing.Place(at);
            string name = FormattableString.Invariant($"locator pin {i + 1}");
            holes.Add(new(name, FeatureKind.LocatorHole, placed, pin, default, Fits.Place, Fits.H7(pin), Fits.Place));
        }
        return [.. holes];
    }

    /// <summary>Each that is asked for takes the nearest that is cut; what is left on either side is missing or unasked.</summary>
    public static void Match(
        FactRun facts,
        ImmutableArray<ExpectedHole> holes,
        ImmutableArray<Removal> cuts,
        Action<FactRun, ExpectedHole, Removal> heights
    )
    {
        List<Removal> left = [.. cuts];
        foreach (ExpectedHole hole in holes)
        {
            Removal? cut = left.MinBy(c => Middle(c).DistanceTo(hole.At));
            if (cut is null)
            {
                FactFindings.Missing(facts, hole.Name, hole.At, Setup.Top);
                continue;
            }
            left.Remove(cut);
            Compare(facts, hole, cut);
            heights(facts, hole, cut);
        }
        foreach (Removal cut in left)
        {
            FactFindings.Unasked(facts, cut.Feature, Middle(cut), cut.Setup);
        }
    }

    /// <summary>The middle of what is cut.</summary>
    public static Point2 Middle(Removal cut) => new Area(FactRun.Boundary(cut)).Bounds.Middle;

    private static void Compare(FactRun facts, ExpectedHole hole, Removal cut)
    {
        ImmutableArray<Piece> walls = FactRun.Boundary(cut);
        if (!new Area(walls).Contains(hole.At))
        {
            FactFindings.OffPlace(facts, hole.Name, hole.At, Middle(cut).DistanceTo(hole.At), hole.Place, cut.Setup);
            return;
        }
        PieceBins axis = new([hole.Axis], 4);
        Spread spread = Spread.Find(walls, axis, hole.Diameter * 100, 0);
        Judge(facts, hole, spread.Least, spread.Greatest, facts.Line(hole.At, cut.Setup), cut.Setup);
    }

    /// <summary>Walls that are from least to greatest off the middle: half of their difference is the place's fault, the rest the size's.</summary>
    public static void Judge(FactRun facts, ExpectedHole hole, double least, double greatest, int line, Setup setup)
    {
        double off = (greatest - least) / 2;
        double diameter = greatest + least;
        if (off > hole.Place + Fits.Rounding)
        {
            FactFindings.OffPlace(facts, hole.Name, hole.At, off, hole.Place, setup);
        }
        if (
            diameter < hole.Diameter - hole.Under - Fits.Rounding
            || diameter > hole.Diameter + hole.Over + Fits.Rounding
        )
        {
            FactFindings.Fit(facts, hole, diameter, line);
        }
    }

    private static IEnumerable<ExpectedHole> Pins(Job job)
    {
        (Plate plate, DowelPin pin) = (job.Plate, job.Pin);
        Point2 line = plate.PinSlot.At - plate.PinRound.At;
        double span = line.Length;
        bool bushed = job.BlockMaterial.IsPlastic && pin.BushDiameter > 0;
        double round = bushed ? pin.BushDiameter : pin.SlipHole;
        double growth = job.BlockMaterial.ExpansionPerK * span * job.Rules.TemperatureSwingK;
        Point2 half = span > 0 ? line * (growth / span) : default;
        double slip = Slip(pin);
        yield return new(
            "the pin hole",
            FeatureKind.PinHole,
            plate.PinRound.At,
            round,
            default,
            bushed ? 0 : slip,
            Fits.H7(round),
            Fits.Place
        );
        yield return new(
            "the pin slot",
            FeatureKind.PinSlot,
            plate.PinSlot.At,
            pin.SlipHole,
            half,
            slip,
            Fits.H7(pin.SlipHole),
            Fits.Place
        );
    }

    /// <summary>A slip hole may lose half of its play, no more.</summary>
    private static double Slip(DowelPin pin) => Math.Max(0, (pin.SlipHole - pin.Diameter) / 2);

    private static void Heights(FactRun facts, ExpectedHole hole, Removal cut)
    {
        (Job job, double face) = (facts.Job, facts.Face);
        double seat = face - job.Bolt.WasherThickness - job.Bolt.HeadHeight;
        bool through = cut.FloorZ <= Fits.Rounding;
        double high =
            hole.Kind == FeatureKind.Counterbore ? cut.FloorZ - seat
            : hole.Kind == FeatureKind.LocatorHole ? cut.FloorZ - (face - (Fits.PressedDiameters * hole.Diameter))
            : through ? 0
            : cut.FloorZ;
        double deep = hole.Kind == FeatureKind.Counterbore ? seat - Fits.HeadAir - cut.FloorZ : 0;
        if (high > Fits.FreeFloor || deep > Fits.FreeFloor)
        {
            FactFindings.Floor(
                facts,
                hole.Name,
                hole.At,
                high > Fits.FreeFloor ? high : -deep,
                Fits.FreeFloor,
                cut.Setup
            );
        }
        double wanted = Top(facts, hole, cut);
        if (wanted - cut.TopZ > Fits.Rounding)
        {
            FactFindings.Floor(facts, $"the top of {hole.Name}", hole.At, cut.TopZ - wanted, Fits.Rounding, cut.Setup);
        }
    }

    /// <summary>Where a hole begins: a bolt's at its counterbore's floor, a pin's bored from below where the pin ends, others at the face.</summary>
    private static double Top(FactRun facts, ExpectedHole hole, Removal cut) =>
        hole.Kind == FeatureKind.BoltHole
            ? facts
                .Design.Removals.Where(r =>
                    r.Kind == FeatureKind.Counterbore && Middle(r).DistanceTo(hole.At) < Fits.HeadAir
                )
                .Select(r => r.FloorZ)
                .DefaultIfEmpty(facts.Face)
                .Min()
        : hole.Kind is FeatureKind.PinHole or FeatureKind.PinSlot && cut.Setup == Setup.Underside
            ? Math.Min(PinTop(facts.Job, hole), facts.Face)
        : facts.Face;

    /// <summary>A pin, and in plastics its bush, stand so high in the block.</summary>
    private static double PinTop(Job job, ExpectedHole hole) =>
        hole.Kind == FeatureKind.PinHole && job.BlockMaterial.IsPlastic && job.Pin.BushDiameter > 0
            ? Math.Max(job.Pin.Projection, job.Pin.BushLength)
            : job.Pin.Projection;

    private static bool Within(Box2 box, Point2 p) =>
        p.X >= box.MinX && p.X <= box.MaxX && p.Y >= box.MinY && p.Y <= box.MaxY;
}
