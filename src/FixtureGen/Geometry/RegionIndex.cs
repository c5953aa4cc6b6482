using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>The boundary of regions made ready for many questions: what is inside, what is nearest, where a path is cut. mm.</summary>
internal sealed class RegionIndex
{
    private const double Near = 1e-7;

    private readonly Curve[] curves;
    private readonly CurveIndex boundary = new();

    public RegionIndex(IEnumerable<Region> regions)
    {
        curves = [.. regions.SelectMany(r => r.Contours).SelectMany(c => c.Segments).Select(s => Curve.Of(s))];
        boundary.Build(curves, curves.Length, Near);
    }

    /// <summary>True inside and on the boundary.</summary>
    public bool Contains(Point2 p) => boundary.Winding(p) > 0 || boundary.AnyNearer(p, 2 * Near);

    /// <summary>The nearest point of the boundary; there must be one.</summary>
    public Point2 Closest(Point2 p)
    {
        boundary.Nearest(p, double.PositiveInfinity, out int nearest);
        return curves[nearest].Closest(p);
    }

    /// <summary>The pieces of the straight line from a to b that lie inside, in order.</summary>
    public ImmutableArray<OpenPath> Line(Point2 a, Point2 b) =>
        a == b ? [] : Pieces(new OpenPath([Segment.Line(a, b)]), true);

    /// <summary>The pieces of a path that lie inside, or outside, in order; a piece along a boundary counts as inside.</summary>
    public ImmutableArray<OpenPath> Pieces(OpenPath path, bool inside)
    {
        var pieces = ImmutableArray.CreateBuilder<OpenPath>();
        List<Segment> open = [];
        foreach (Segment s in path.Segments)
        {
            foreach (Segment piece in Cut(Curve.Of(s)))
            {
                if (Contains(Curve.Of(piece).Middle) == inside)
                {
                    open.Add(piece);
                    continue;
                }
                Flush(open, pieces);
            }
        }
        Flush(open, pieces);
        return pieces.ToImmutable();
    }

    private static void Flush(List<Segment> open, ImmutableArray<OpenPath>.Builder pieces)
    {
        if (open.Count > 0)
        {
            pieces.Add(new([.. open]));
            open.Clear();
        }
    }

    private List<Segment> Cut(Curve c)
    {
        List<int> touched = [];
        boundary.Touching(c.Box(), touched);
        List<(double At, Point2 Point)> cuts = [];
        Span<Point2> found = stackalloc Point2[Crossings.Most];
        foreach (int i in touched)
        {
            int count = Crossings.Find(c, curves[i], Near, found);
            for (int k = 0; k < count; k++)
            {
                cuts.Add((c.Parameter(found[k]), found[k]));
            }
        }
        cuts.Sort((x, y) => x.At.CompareTo(y.At));
        List<Segment> pieces = [];
        foreach ((_, Point2 q) in cuts)
        {
            if (q.DistanceTo(c.A) >= 10 * Near && q.DistanceTo(c.B) >= 10 * Near)
            {
                pieces.Add((c with { B = q }).ToSegment());
                c.A = q;
            }
        }
        pieces.Add(c.ToSegment());
        return pieces;
    }
}
