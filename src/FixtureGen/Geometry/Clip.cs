using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>Cuts paths by regions.</summary>
public static class Clip
{
    private const double Near = 1e-7;

    /// <summary>The pieces of the straight line from a to b that lie inside the regions, in order.</summary>
    public static ImmutableArray<OpenPath> Line(Point2 a, Point2 b, IEnumerable<Region> regions) =>
        a == b ? [] : Path(new OpenPath([Segment.Line(a, b)]), regions);

    /// <summary>The pieces of a path that lie inside the regions, in order; a piece along a boundary counts as inside.</summary>
    public static ImmutableArray<OpenPath> Path(OpenPath path, IEnumerable<Region> regions) =>
        Pieces(path, regions, true);

    /// <summary>The pieces of a path that lie outside all the regions, in order.</summary>
    public static ImmutableArray<OpenPath> PathOutside(OpenPath path, IEnumerable<Region> regions) =>
        Pieces(path, regions, false);

    private static ImmutableArray<OpenPath> Pieces(OpenPath path, IEnumerable<Region> regions, bool inside)
    {
        var boundary = new CurveIndex();
        Curve[] curves = [.. regions.SelectMany(r => r.Contours).SelectMany(c => c.Segments).Select(s => Curve.Of(s))];
        boundary.Build(curves, curves.Length, Near);
        var pieces = ImmutableArray.CreateBuilder<OpenPath>();
        List<Segment> open = [];
        foreach (Segment s in path.Segments)
        {
            foreach (Segment piece in Cut(Curve.Of(s), curves, boundary))
            {
                if (IsInside(Curve.Of(piece).Middle, boundary) == inside)
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

    private static bool IsInside(Point2 p, CurveIndex boundary) =>
        boundary.Winding(p) > 0 || boundary.AnyNearer(p, 2 * Near);

    private static void Flush(List<Segment> open, ImmutableArray<OpenPath>.Builder pieces)
    {
        if (open.Count > 0)
        {
            pieces.Add(new([.. open]));
            open.Clear();
        }
    }

    private static List<Segment> Cut(Curve c, Curve[] curves, CurveIndex boundary)
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
