using System.Collections.Immutable;
using FixtureGen.Design.Block;
using FixtureGen.Design.Forms;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Vacuum;

/// <summary>
/// A straight channel in the block's underside from a plate port to under a zone. It stays inside the plate's own seal,
/// or it would draw from the room, and clear of bolts and pins by a wall.
/// </summary>
internal static class Channels
{
    /// <summary>Step of the places tried for the hole, mm.</summary>
    private const double Step = 4;

    /// <summary>At least an eighth of an inch square (common practice, no source); the usual is a quarter.</summary>
    public const double LeastWidth = 3.175;

    private const double MostWidth = 6.35;

    public sealed record Found(PlateOpening Port, Point2 Hole, double Width);

    public static Found? Route(
        Region boundary,
        IReadOnlyList<Obstacle> obstacles,
        IReadOnlyList<Point2> keptForMagnets,
        Job job,
        Kernel kernel
    )
    {
        if (Width(job) is not { } width)
        {
            return null;
        }
        IReadOnlyList<Region> inner = PlateSeal.Inner(job.Plate, job.Rules.Land, width / 2, kernel);
        ImmutableArray<Region> room = kernel.Intersect(Ports.HoleRoom(boundary, width / 2, job, kernel), inner);
        ImmutableArray<Region> clear = kernel.Intersect(
            Ports.ClearRoom(boundary, width / 2, keptForMagnets, job, kernel),
            inner
        );
        IEnumerable<Found> ways =
            from hole in Candidates(clear.Length > 0 ? clear : room, job.Plate)
            from port in job.Plate.Ports
            where obstacles.All(o => FarEnough(o, port.At, hole, (width / 2) + job.Rules.Wall))
            orderby Math.Round(port.At.DistanceTo(hole), 3), port.Name, hole.X, hole.Y
            select new Found(port, hole, width);
        return ways.FirstOrDefault();
    }

    private static bool FarEnough(Obstacle o, Point2 port, Point2 hole, double clearance) =>
        Measure.Distance(o.At, Segment.Line(port, hole)) >= o.Radius + clearance;

    /// <summary>The nearest place of the room to each port, and a grid over the room.</summary>
    private static IEnumerable<Point2> Candidates(ImmutableArray<Region> room, Plate plate)
    {
        foreach (Region region in room)
        {
            foreach (PlateOpening port in plate.Ports)
            {
                yield return Measure.Closest(port.At, region.Outer);
            }
            Box2 box = Measure.Bounds(region.Outer);
            for (double y = box.MinY; y <= box.MaxY; y += Step)
            {
                for (double x = box.MinX; x <= box.MaxX; x += Step)
                {
                    if (Inside.Contains(region, new Point2(x, y)))
                    {
                        yield return new(x, y);
                    }
                }
            }
        }
    }

    /// <summary>The largest end mill that is neither under nor over the usual widths; null where the shop has none.</summary>
    public static double? Width(Job job) =>
        job
            .Tools.Where(t => t.Kind == ToolKind.EndMill && t.Diameter is >= LeastWidth and <= MostWidth)
            .OrderByDescending(t => t.Diameter)
            .Select(t => (double?)t.Diameter)
            .FirstOrDefault();

    public static GrooveFeature Cut(string name, Found route, Levels levels, Job job, Kernel kernel)
    {
        double ceiling = Math.Min(route.Width, Ceiling(levels, job));
        OpenPath run = new([Segment.Line(route.Port.At, route.Hole)]);
        return new()
        {
            Name = name,
            Kind = FeatureKind.Channel,
            Setup = Setup.Underside,
            Loops = [],
            Runs = [run],
            Width = route.Width,
            TopZ = ceiling,
            FloorZ = 0,
            Removals = [new(Setup.Underside, FeatureKind.Channel, name, kernel.Stroke(run, route.Width), ceiling, 0)],
        };
    }

    /// <summary>As high as the deepest thing above it lets it be and the least floor stays between.</summary>
    private static double Ceiling(Levels levels, Job job)
    {
        double magnet = levels.Face - MagnetPockets.Depth(job);
        double gasket = levels.Face - job.Gasket.GrooveDepth;
        return Math.Min(Math.Min(magnet, gasket), levels.Face - job.Rules.NetDepth) - job.Rules.LeastFloor;
    }
}
