using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>Where two segments meet, exact for lines and arcs; mm.</summary>
public static class Intersections
{
    /// <summary>
    /// At most four points that lie on both segments, ends included within <paramref name="near"/> mm, in no order; empty
    /// where they do not meet. For segments that run on the same line or circle within <paramref name="near"/>, the ends of
    /// the stretch they share, where one that belongs to both comes twice.
    /// </summary>
    public static ImmutableArray<Point2> Find(Segment a, Segment b, double near)
    {
        Span<Point2> found = stackalloc Point2[Crossings.Most];
        int count = Crossings.Find(Curve.From(a), Curve.From(b), near, found);
        return [.. found[..count]];
    }
}
