using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Toolpaths.Methods;
using FixtureGen.Toolpaths.Routes;

namespace FixtureGen.Tests.Toolpaths;

/// <summary>
/// The least way of an operation's rapids, mm: the shortest path over what the design removes in separate places, bounded from
/// below by spanning trees (<see cref="SpanningTree"/>), the way up from every place, and down and up between clearance and hop
/// once. Between two places counts the nearest that the tool's middle can come from one to the other.
/// </summary>
internal static class RapidBound
{
    private const double Chord = 0.02;

    /// <summary>Strokes that go on where another ended are one place.</summary>
    private const double Same = 1e-3;

    /// <summary>
    /// Where the tool's middle may be: at one point, on a wall or, Inside mm farther in, along it. Floor is the height it comes
    /// up from.
    /// </summary>
    private sealed record Place(
        ImmutableArray<Point2> Points,
        ImmutableArray<Contour> Walls,
        double Inside,
        double Floor
    );

    public static double Least(Work work, double hop, double clearance, Setup setup)
    {
        double tree;
        double up;
        if (work.Cutting.Kind == OperationKind.Engrave)
        {
            (Point2 Start, Point2 End)[] chains = [.. work.Features.OfType<EngravingFeature>().SelectMany(Chains)];
            Point2[] ends = [.. chains.SelectMany(c => new[] { c.Start, c.End })];
            tree = SpanningTree.LeastPath(ends.Length, (a, b) => ends[a].DistanceTo(ends[b]), paired: true);
            up = work.Features.OfType<EngravingFeature>().Sum(e => Chains(e).Count() * (hop - e.TopZ + e.Depth));
        }
        else
        {
            Place[] places = [.. work.Features.SelectMany(f => Places(f, work.Cutting.Tool, setup))];
            tree = SpanningTree.LeastPath(places.Length, (a, b) => Between(places[a], places[b]), paired: false);
            up = work.Cutting.Kind == OperationKind.Drill ? 0 : places.Sum(p => hop - p.Floor);
        }
        return tree + up + (2 * (clearance - hop));
    }

    private static double Between(Place a, Place b) =>
        Math.Min(a.Points.Min(p => From(p, b)), b.Points.Min(p => From(p, a))) + a.Inside + b.Inside;

    private static double From(Point2 p, Place place) =>
        place.Walls.IsEmpty ? place.Points.Min(p.DistanceTo) : place.Walls.Min(w => Measure.Distance(p, w));

    private static IEnumerable<Place> Places(Feature feature, Tool tool, Setup setup) =>
        feature is HoleFeature hole && tool.Kind == ToolKind.Drill
            ? [new Place([hole.At], [], 0, hole.FloorZ)]
            : Fit.RemovalsIn(feature, setup)
                .GroupBy(r => r.Feature)
                .SelectMany(g => g.Last().Area.Select(a => Of(a, tool, g.Last().FloorZ)));

    private static Place Of(Region area, Tool tool, double floor)
    {
        if (RoundMethods.Circle(area) is not { } circle)
        {
            return new Place(
                [.. area.Contours.SelectMany(c => Flatten.Points(c, Chord))],
                [.. area.Contours],
                tool.Radius,
                floor
            );
        }
        double reach = (circle.Diameter / 2) - tool.Radius;
        if (reach < Chord)
        {
            return new Place([circle.Centre], [], 0, floor);
        }
        Contour way = Contours.Circle(circle.Centre, reach);
        return new Place([.. Flatten.Points(way, Chord / 10)], [way], 0, floor);
    }

    private static IEnumerable<(Point2 Start, Point2 End)> Chains(EngravingFeature text)
    {
        List<(Point2 Start, Point2 End)> chains = [];
        foreach (OpenPath stroke in text.Strokes)
        {
            if (chains.Count > 0 && chains[^1].End.DistanceTo(stroke.Start) < Same)
            {
                chains[^1] = (chains[^1].Start, stroke.End);
            }
            else
            {
                chains.Add((stroke.Start, stroke.End));
            }
        }
        return chains;
    }
}
