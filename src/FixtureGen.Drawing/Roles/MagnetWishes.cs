using System.Collections.Immutable;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Roles;

/// <summary>Magnet places of a drawing: points, and centres of circles, on the magnet layer.</summary>
internal static class MagnetWishes
{
    public static ImmutableArray<Point2> Read(
        DrawingContent drawing,
        ImmutableArray<DrawnCurve> curves,
        ImmutableArray<DrawnPoint> points,
        List<Finding> findings
    )
    {
        var wishes = new List<Point2>(points.Select(p => p.At));
        foreach (DrawnCurve curve in curves)
        {
            if (Centre(curve, drawing.Tolerances.Chord) is { } centre)
            {
                wishes.Add(centre);
            }
            else
            {
                findings.Add(PartFindings.NoMagnet(drawing.File, curve));
            }
        }
        double near = drawing.Tolerances.Join;
        var distinct = ImmutableArray.CreateBuilder<Point2>();
        foreach (Point2 wish in wishes)
        {
            if (!distinct.Any(d => d.DistanceTo(wish) <= near))
            {
                distinct.Add(wish);
            }
        }
        return distinct.ToImmutable();
    }

    // a circle may have been drawn as arcs; all of one centre and closed it still is one
    private static Point2? Centre(DrawnCurve curve, double near)
    {
        ImmutableArray<Segment> segments = curve.Path.Segments;
        Segment first = segments[0];
        bool circle =
            curve.Closed
            && segments.All(s => s.IsArc && s.Centre.DistanceTo(first.Centre) <= near)
            && Math.Abs(segments.Sum(s => Math.Abs(s.Sweep)) - (2 * Math.PI)) < 1e-6;
        return circle ? first.Centre : null;
    }
}
