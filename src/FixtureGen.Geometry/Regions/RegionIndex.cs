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

    private readonly Curve[] _curves;
    private readonly CurveIndex _boundary = new();
    private readonly List<int> _touched = [];
    private readonly List<(double At, Point2 Point)> _cuts = [];
    private readonly List<Segment> _pieces = [];

    public RegionIndex(IEnumerable<Region> regions)
    {
        _curves = [.. regions.SelectMany(r => r.Contours).SelectMany(c => c.Segments).Select(s => Curve.From(s))];
        _boundary.Build(_curves, _curves.Length, Near);
    }

    /// <summary>True inside and on the boundary.</summary>
    public bool Contains(Point2 p) => _boundary.Winding(p) > 0 || _boundary.AnyNearer(p, 2 * Near);

    /// <summary>Whether any curve of the boundary may run through a box.</summary>
    public bool Touches(Box2 box)
    {
        _touched.Clear();
        _boundary.Touching(box, _touched);
        return _touched.Count > 0;
    }

    /// <summary>The nearest point of the boundary; there must be one.</summary>
    public Point2 Closest(Point2 p)
    {
        _boundary.Nearest(p, double.PositiveInfinity, out int nearest);
        return _curves[nearest].Closest(p);
    }

    /// <summary>The pieces of the straight line from a to b that lie inside, in order.</summary>
    public ImmutableArray<OpenPath> Line(Point2 a, Point2 b) =>
        a == b ? [] : Pieces(new OpenPath([Segment.Line(a, b)]));

    /// <summary>Of the pieces of the straight line from a to b that lie inside, those that come within a distance of p, in order.</summary>
    public ImmutableArray<OpenPath> LineAt(Point2 a, Point2 b, Point2 p, double distance)
    {
        Cut(Curve.From(Segment.Line(a, b)));
        var found = ImmutableArray.CreateBuilder<OpenPath>();
        int end = 0;
        for (int i = 0; i < _pieces.Count; i++)
        {
            if (i < end || Measure.Distance(p, _pieces[i]) > distance || !Holds(_pieces[i]))
            {
                continue;
            }
            int first = i;
            while (first > end && Holds(_pieces[first - 1]))
            {
                first--;
            }
            end = i + 1;
            while (end < _pieces.Count && Holds(_pieces[end]))
            {
                end++;
            }
            found.Add(new OpenPath([.. _pieces[first..end]]));
        }
        return found.ToImmutable();
    }

    private bool Holds(Segment piece) => Contains(Curve.From(piece).Middle);

    /// <summary>The pieces of a path that lie inside, in order; a piece along a boundary counts as inside.</summary>
    public ImmutableArray<OpenPath> Pieces(OpenPath path)
    {
        var found = ImmutableArray.CreateBuilder<OpenPath>();
        List<Segment> open = [];
        foreach (Segment s in path.Segments)
        {
            Cut(Curve.From(s));
            foreach (Segment piece in _pieces)
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

    /// <summary>Fills <see cref="_pieces"/> with the curve cut wherever it meets the boundary, in order.</summary>
    private void Cut(Curve c)
    {
        _touched.Clear();
        _cuts.Clear();
        _pieces.Clear();
        if (c.IsArc)
        {
            _boundary.Touching(c.Box(), _touched);
        }
        else
        {
            _boundary.TouchingLine(c.A, c.B, 10 * Near, _touched);
        }
        Span<Point2> common = stackalloc Point2[Crossings.Most];
        foreach (int i in _touched)
        {
            int count = Crossings.Find(c, _curves[i], Near, common);
            for (int k = 0; k < count; k++)
            {
                _cuts.Add((c.Parameter(common[k]), common[k]));
            }
        }
        _cuts.Sort(static (x, y) => x.At.CompareTo(y.At));
        foreach ((_, Point2 q) in _cuts)
        {
            if (q.DistanceTo(c.A) >= 10 * Near && q.DistanceTo(c.B) >= 10 * Near)
            {
                _pieces.Add((c with { B = q }).ToSegment());
                c.A = q;
            }
        }
        _pieces.Add(c.ToSegment());
    }
}
