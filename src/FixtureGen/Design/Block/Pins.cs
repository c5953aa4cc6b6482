using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Design.Block;

/// <summary>
/// One round hole and one slot over the plate's pins. The slot lies along the pin line and is longer than wide by the
/// thermal growth of the span, both ways: growth = expansion x span x temperature swing (0.27 mm for 180 mm of HDPE at
/// 1.5e-4 /K and 10 K). In plastics the round hole takes a pressed bush.
/// </summary>
internal static class Pins
{
    /// <summary>Air over a pin in a blind hole, mm (common practice, no source).</summary>
    private const double Air = 1;

    public static IEnumerable<PlateOpening> Openings(Plate plate) =>
        plate.Openings.Where(o => o.Kind is OpeningKind.PinRound or OpeningKind.PinSlot);

    public static double BoreDiameter(Job job) =>
        job.BlockMaterial.IsPlastic && job.Pin.BushDiameter > 0 ? job.Pin.BushDiameter : job.Pin.SlipHole;

    /// <summary>Thermal growth of the block between the pins, mm, one way.</summary>
    public static double Growth(Job job) =>
        job.BlockMaterial.ExpansionPerK
        * job.Plate.PinRound.At.DistanceTo(job.Plate.PinSlot.At)
        * job.Rules.TemperatureSwingK;

    public static double HalfSlot(Job job, PlateOpening opening) =>
        opening.Kind == OpeningKind.PinSlot ? Growth(job) : 0;

    public static Stage<ImmutableArray<Feature>> Bore(Job job, Box2 block, Levels levels)
    {
        List<Finding> findings = [];
        List<Feature> features = [];
        foreach (PlateOpening pin in Openings(job.Plate))
        {
            double diameter = pin.Kind == OpeningKind.PinRound ? BoreDiameter(job) : job.Pin.SlipHole;
            double reach = (diameter / 2) + HalfSlot(job, pin);
            if (!block.Outset(-(reach + job.Rules.Wall + job.Plate.PlacingTolerance)).Contains(pin.At))
            {
                findings.Add(
                    BlockFindings.HoleOverEdge(pin.Name, pin.At, reach + job.Rules.Wall + job.Plate.PlacingTolerance)
                );
            }
            findings.AddRange(PlateSeal.Check(job.Plate, pin.Name, pin.At, reach));
            findings.AddRange(BreakThrough.Check(pin, diameter, 2 * HalfSlot(job, pin)));
            HoleFeature hole = Hole(job, pin, diameter, levels);
            features.Add(hole);
            if (levels.Face - hole.TopZ is > 0 and var floor && floor < job.Rules.LeastFloor)
            {
                findings.Add(BlockFindings.FloorThin(hole.Name, pin.At, floor, job.Rules.LeastFloor));
            }
        }
        if (OneWayOnly.OtherWay(job.Plate, block) is { } other)
        {
            findings.Add(BlockFindings.GoesOnTwoWays(other));
        }
        return Stage.Answer(features.ToImmutableArray(), findings);
    }

    private static HoleFeature Hole(Job job, PlateOpening pin, double diameter, Levels levels)
    {
        double length = 2 * HalfSlot(job, pin);
        Point2 line = job.Plate.PinSlot.At - job.Plate.PinRound.At;
        double angle = Math.Atan2(line.Y, line.X) * 180 / Math.PI;
        bool through = BreakThrough.Allowed(pin, diameter, length);
        double blindTop = Math.Max(job.Pin.Projection, pin.Kind == OpeningKind.PinRound ? BushLength(job) : 0) + Air;
        return RoundHole.Make(
            pin.Kind == OpeningKind.PinRound ? "pin hole" : "pin slot",
            pin.Kind == OpeningKind.PinRound ? FeatureKind.PinHole : FeatureKind.PinSlot,
            through ? Setup.Top : Setup.Underside,
            pin.At,
            diameter,
            through ? levels.Face : Math.Min(blindTop, levels.Face),
            0,
            length,
            length > 0 ? angle : 0,
            through,
            pin
        );
    }

    private static double BushLength(Job job) =>
        job.BlockMaterial.IsPlastic && job.Pin.BushDiameter > 0 ? job.Pin.BushLength : 0;
}
