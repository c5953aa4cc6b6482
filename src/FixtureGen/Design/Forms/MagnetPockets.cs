using System.Collections.Immutable;
using FixtureGen.Design.Block;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Forms;

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
            return Stage.Answer(ImmutableArray<Feature>.Empty);
        }
        double floor = levels.Face - Depth(job);
        if (NotchTool(job) is not { } notch)
        {
            return Stage.Failed<ImmutableArray<Feature>>(PocketFindings.NoNotchTool(Depth(job)));
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
        return Stage.Answer(features.ToImmutableArray(), findings);
    }

    /// <summary>What each magnet takes of the face, pocket and notch.</summary>
    /// <param name="cut">As <see cref="Cut"/> answers.</param>
    public static ImmutableArray<ImmutableArray<Region>> Areas(ImmutableArray<Feature> cut) =>
        [.. cut.Chunk(2).Select(c => c.SelectMany(f => f.Removals).SelectMany(r => r.Area).ToImmutableArray())];

    private static PocketFeature Pocket(int i, Point2 at, Levels levels, double floor, Job job)
    {
        string name = Names.Numbered("magnet", i + 1);
        ImmutableArray<Region> area = [Region.From(Contours.Circle(at, Diameter(job) / 2))];
        return new()
        {
            Name = name,
            Kind = FeatureKind.MagnetPocket,
            Setup = Setup.Top,
            Area = area,
            TopZ = levels.Face,
            FloorZ = floor,
            Removals = [new(Setup.Top, FeatureKind.MagnetPocket, name, area, levels.Face, floor)],
        };
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
        OpenPath run = new([Segment.Line(at, Rim(i, at, walls, job))]);
        ImmutableArray<Region> area = kernel.Stroke(run, cutter.Diameter);
        return new()
        {
            Name = name,
            Kind = FeatureKind.MagnetNotch,
            Setup = Setup.Top,
            Loops = [],
            Runs = [run],
            Width = cutter.Diameter,
            TopZ = levels.Face,
            FloorZ = floor,
            Removals = [new(Setup.Top, FeatureKind.MagnetNotch, name, area, levels.Face, floor)],
        };
    }

    /// <summary>Where the notch leaves the pocket: the point of the rim with most room.</summary>
    private static Point2 Rim(int i, Point2 at, MagnetWalls walls, Job job) =>
        Enumerable
            .Range(0, Directions)
            .Select(k => at + (Direction(k) * (Diameter(job) / 2)))
            .MaxBy(p => Math.Round(walls.Room(i, p), 3));

    /// <summary>The pockets and notches of magnets, each outset by a distance, mm; without notches where no end mill cuts one.</summary>
    public static IEnumerable<Region> Outset(
        ImmutableArray<MagnetPlace> magnets,
        FixtureDesign begun,
        double by,
        Job job
    )
    {
        MagnetWalls walls = new(magnets, begun.Zones, begun.Features, Diameter(job) / 2, job);
        double notch = NotchTool(job)?.Radius ?? 0;
        for (int i = 0; i < magnets.Length; i++)
        {
            Point2 at = magnets[i].At;
            yield return Region.From(Contours.Circle(at, (Diameter(job) / 2) + by));
            if (notch > 0)
            {
                yield return Region.From(Contours.Slot(at, Rim(i, at, walls, job), notch + by));
            }
        }
    }

    private static Point2 Direction(int k) =>
        new(Math.Cos(2 * Math.PI * k / Directions), Math.Sin(2 * Math.PI * k / Directions));

    private static Tool? NotchTool(Job job) =>
        job
            .Tools.Where(t => t.Kind == ToolKind.EndMill && t.FluteLength >= Depth(job) && t.Diameter < Diameter(job))
            .MinBy(t => t.Diameter);
}
