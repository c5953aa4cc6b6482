using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design;

/// <summary>
/// A pocket for each magnet, wide enough to glue it in (never pressed, it would shatter), with a side notch to the top by
/// which air and spare glue leave; never through the floor.
/// </summary>
internal static class MagnetPockets
{
    private const int Directions = 16;

    public static double Diameter(Job job) =>
        job.Magnet.Diameter + job.Magnet.DiameterTolerance + job.Rules.MagnetPocketClearance;

    public static double Depth(Job job) => job.Rules.MagnetRecess + job.Magnet.Thickness + job.Rules.MagnetGlue;

    public static Stage<ImmutableArray<Feature>> Cut(
        ImmutableArray<MagnetPlace> magnets,
        ImmutableArray<SealedZone> zones,
        ImmutableArray<Feature> standing,
        Levels levels,
        Job job,
        Kernel kernel
    )
    {
        if (magnets.Length == 0)
        {
            return Stage.Of(ImmutableArray<Feature>.Empty);
        }
        double floor = levels.Face - Depth(job);
        if (NotchTool(job) is not { } notch)
        {
            return Stage.Failed<ImmutableArray<Feature>>(NetFindings.NoNotchTool(Depth(job)));
        }
        List<Finding> findings = [];
        if (floor < job.Rules.LeastFloor)
        {
            findings.Add(BlockFindings.FloorThin("magnet pocket", magnets[0].At, floor, job.Rules.LeastFloor));
        }
        MagnetWalls walls = new(magnets, zones, standing, Diameter(job) / 2, job);
        List<Feature> features = [];
        for (int i = 0; i < magnets.Length; i++)
        {
            findings.AddRange(walls.Check(i));
            features.Add(Pocket(i, magnets[i].At, levels, floor, job));
            features.Add(Notch(i, magnets[i].At, walls, notch, levels, floor, job, kernel));
        }
        return Stage.Of(features.ToImmutableArray(), findings);
    }

    private static PocketFeature Pocket(int i, Point2 at, Levels levels, double floor, Job job)
    {
        string name = Names.Numbered("magnet", i + 1);
        ImmutableArray<Region> area = [Region.Of(Contours.Circle(at, Diameter(job) / 2))];
        return new(
            name,
            FeatureKind.MagnetPocket,
            Setup.Top,
            area,
            levels.Face,
            floor,
            [new(Setup.Top, FeatureKind.MagnetPocket, name, area, levels.Face, floor)]
        );
    }

    /// <summary>A groove from the pocket's middle to its rim; the cutter's half that passes the rim is the notch.</summary>
    private static GrooveFeature Notch(
        int i,
        Point2 at,
        MagnetWalls walls,
        Tool cutter,
        Levels levels,
        double floor,
        Job job,
        Kernel kernel
    )
    {
        string name = Names.Numbered("magnet notch", i + 1);
        double radius = Diameter(job) / 2;
        Point2 rim = Enumerable
            .Range(0, Directions)
            .Select(k => at + (Direction(k) * radius))
            .MaxBy(p => Math.Round(walls.Room(i, p), 3));
        OpenPath run = new([Segment.Line(at, rim)]);
        ImmutableArray<Region> area = kernel.Stroke(run, cutter.Diameter);
        return new(
            name,
            FeatureKind.MagnetNotch,
            Setup.Top,
            [],
            [run],
            cutter.Diameter,
            levels.Face,
            floor,
            [new(Setup.Top, FeatureKind.MagnetNotch, name, area, levels.Face, floor)]
        );
    }

    private static Point2 Direction(int k) =>
        new(Math.Cos(2 * Math.PI * k / Directions), Math.Sin(2 * Math.PI * k / Directions));

    private static Tool? NotchTool(Job job) =>
        job
            .Tools.Where(t => t.Kind == ToolKind.EndMill && t.FluteLength >= Depth(job) && t.Diameter < Diameter(job))
            .MinBy(t => t.Diameter);
}
