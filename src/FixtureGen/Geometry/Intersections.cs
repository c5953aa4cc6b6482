using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>Common points of segments.</summary>
public static class Intersections
{
    /// <summary>
    /// Points that lie on both segments, ends included within <paramref name="near"/> mm; for segments that run on the same
    /// line or circle, the ends of the stretch they share.
    /// </summary>
    public static ImmutableArray<Point2> Of(Segment a, Segment b, double near)
    {
        Span<Point2> found = stackalloc Point2[Crossings.Most];
        int count = Crossings.Find(Curve.Of(a), Curve.Of(b), near, found);
        return [.. found[..count]];
    }
}
