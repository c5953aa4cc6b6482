using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// The boundary of regions made ready for many questions of one thread: what is inside, what is nearest, where a path is
/// cut. mm.
/// </summary>
internal sealed class RegionIndex
{
    private static readonly double Near = Slack.House.Near;

    private readonly Curve[] curves;
    private readonly CurveIndex boundary = new();
    private readonly List<int> touched = [];
    private readonly List<(double At, Point2 Point)> cuts = [];
    private readonly List<Segment> pieces = [];

    public RegionIndex(IEnumerable<Region> regions)
    {
        curves = [.. regions.SelectMany(r => r.Contours).SelectMany(c => c.Segments).Select(s => Curve.Of(s))];
        boundary.Build(curves, curves.Length, Near);
    }

    /// <summary>True inside and on the boundary.</summary>
    public bool Contains(Point2 p) => boundary.Winding(p) > 0 || boundary.AnyNearer(p, 2 * Near);

    /// <summary>Whether any curve of the boundary may run through a box.</summary>
    public bool Touches(Box2 box)
    {
        touched.Clear();
        boundary.Touching(box, touched);
        return touched.Count > 0;
    }

    /// <summary>The nearest point of the boundary; there must be one.</summary>
    public Point2 Closest(Point2 p)
    {
        boundary.Nearest(p, double.PositiveInfinity, out int nearest);
        return curves[nearest].Closest(p);
    }

    /// <summary>The pieces of the straight line from a to b that lie inside, in order.</summary>
    public ImmutableArray<OpenPath> Line(Point2 a, Point2 b) =>
        a == b ? [] : Pieces(new OpenPath([Segment.Line(a, b)]));

    /// <summary>Of the pieces of the straight line from a to b that lie inside, those that come within a distance of p, in order.</summary>
    public ImmutableArray<OpenPath> LineAt(Point2 a, Point2 b, Point2 p, double distance)
    {
        Cut(Curve.Of(Segment.Line(a, b)));
        var found = ImmutableArray.CreateBuilder<OpenPath>();
        int end = 0;
        for (int i = 0; i < pieces.Count; i++)
        {
            if (i < end || Measure.Distance(p, pieces[i]) > distance || !Holds(pieces[i]))
            {
                continue;
            }
            int first = i;
            while (first > end && Holds(pieces[first - 1]))
            {
                first--;
            }
            end = i + 1;
            while (end < pieces.Count && Holds(pieces[end]))
            {
                end++;
            }
            found.Add(new OpenPath([.. pieces[first..end]]));
        }
        return found.ToImmutable();
    }

    private bool Holds(Segment piece) => Contains(Curve.Of(piece).Middle);

    /// <summary>The pieces of a path that lie inside, in order; a piece along a boundary counts as inside.</summary>
    public ImmutableArray<OpenPath> Pieces(OpenPath path)
    {
        var found = ImmutableArray.CreateBuilder<OpenPath>();
        List<Segment> open = [];
        foreach (Segment s in path.Segments)
        {
            Cut(Curve.Of(s));
            foreach (Segment piece in pieces)
            {
                if (Holds(piece))
                {
                    open.Add(piece);
                    continue;
                }
                Flush(open, found);
            }
        }
        Flush(open, found);
        return found.ToImmutable();
    }

    private static void Flush(List<Segment> open, ImmutableArray<OpenPath>.Builder found)
    {
        if (open.Count > 0)
        {
            found.Add(new([.. open]));
            open.Clear();
        }
    }

    /// <summary>Fills <see cref="pieces"/> with the curve cut wherever it meets the boundary, in order.</summary>
    private void Cut(Curve c)
    {
        touched.Clear();
        cuts.Clear();
        pieces.Clear();
        if (c.IsArc)
        {
            boundary.Touching(c.Box(), touched);
        }
        else
        {
            boundary.TouchingLine(c.A, c.B, 10 * Near, touched);
        }
        Span<Point2> common = stackalloc Point2[Crossings.Most];
        foreach (int i in touched)
        {
            int count = Crossings.Find(c, curves[i], Near, common);
            for (int k = 0; k < count; k++)
            {
                cuts.Add((c.Parameter(common[k]), common[k]));
            }
        }
        cuts.Sort(static (x, y) => x.At.CompareTo(y.At));
        foreach ((_, Point2 q) in cuts)
        {
            if (q.DistanceTo(c.A) >= 10 * Near && q.DistanceTo(c.B) >= 10 * Near)
            {
                pieces.Add((c with { B = q }).ToSegment());
                c.A = q;
            }
        }
        pieces.Add(c.ToSegment());
    }
}
