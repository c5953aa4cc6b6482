using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Chaining;

/// <summary>Tells open chains that are no edge by what they are: centre lines and stubs. All else may be an edge that does not close.</summary>
internal static class Strays
{
    /// <summary>A centre line's middle lies on the middle of its curve to this part of its length.</summary>
    private const double OffMiddle = 0.05;

    /// <summary>A stub is this short beside the curve that it hangs on: a line drawn over the corner.</summary>
    private const double OfPerimeter = 0.02;

    /// <summary>Most loops asked; a drawing of more has no centre lines that matter.</summary>
    private const int MostLoops = 2000;

    /// <summary>The middle of the circle, or of the outline of two equal halves, that the straight chain runs through; null where there is none.</summary>
    public static Point2? Middle(OpenChain chain, ImmutableArray<DrawnLoop> loops)
    {
        if (!chain.Path.Segments.All(s => !s.IsArc) || !Straight(chain))
        {
            return null;
        }
        Point2 middle = (chain.Path.Start + chain.Path.End) * 0.5;
        double near = OffMiddle * chain.LengthMm;
        foreach (DrawnLoop loop in loops.Take(MostLoops))
        {
            Point2 centre = loop.Bounds.Middle;
            bool square = chain.Path.Start.X == chain.Path.End.X || chain.Path.Start.Y == chain.Path.End.Y;
            if (centre.DistanceTo(middle) <= near && (IsCircle(loop) || (square && Reaches(chain, loop))))
            {
                return centre;
            }
        }
        return null;
    }

    /// <summary>Where a short chain with one free end hangs on a loop; null where it does not.</summary>
    public static Point2? Stub(
        OpenChain chain,
        ImmutableArray<DrawnLoop> loops,
        ImmutableArray<OpenChain> open,
        ChainLimits limits
    )
    {
        foreach (
            (Point2 foot, Point2 free) in ((Point2, Point2)[])
                [(chain.Path.Start, chain.Path.End), (chain.Path.End, chain.Path.Start)]
        )
        {
            bool hangs = loops
                .Take(MostLoops)
                .Any(l =>
                    chain.LengthMm <= OfPerimeter * l.PerimeterMm
                    && LoopMath.Near(l.Bounds, new Box2(foot.X, foot.Y, foot.X, foot.Y), limits.Join)
                    && Measure.Distance(foot, l.Contour) <= limits.Join
                );
            double reach = Math.Max(limits.Join, chain.LengthMm);
            if (hangs && !open.Take(MostLoops).Any(o => !ReferenceEquals(o, chain) && Ends(o, free, reach)))
            {
                return foot;
            }
        }
        return null;
    }

    private static bool Ends(OpenChain chain, Point2 at, double reach) =>
        chain.Path.Start.DistanceTo(at) <= reach || chain.Path.End.DistanceTo(at) <= reach;

    private static bool Straight(OpenChain chain) =>
        chain.LengthMm <= chain.Path.Start.DistanceTo(chain.Path.End) * (1 + 1e-9);

    private static bool IsCircle(DrawnLoop loop)
    {
        Segment first = loop.Contour.Segments[0];
        return loop.Contour.Segments.All(s =>
            s.IsArc
            && s.Centre.DistanceTo(first.Centre) <= 1e-6 * first.Radius
            && Math.Abs(s.Radius - first.Radius) <= 1e-6 * first.Radius
        );
    }

    // through the whole of it, from beyond one side to beyond the other
    private static bool Reaches(OpenChain chain, DrawnLoop loop)
    {
        Box2 box = loop.Bounds;
        return chain.Path.Start.X == chain.Path.End.X ? chain.LengthMm > box.Height : chain.LengthMm > box.Width;
    }
}
