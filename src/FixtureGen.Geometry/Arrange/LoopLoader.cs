using System.Runtime.Intrinsics;
using FixtureGen.Model;
using static FixtureGen.Geometry.PackedBox;

namespace FixtureGen.Geometry;

/// <summary>Puts closed loops into a cutter, arcs of more than half a turn in two parts that have the first one's number.</summary>
internal sealed class LoopLoader(Cutter cutter)
{
    // Turn times the cross product of the ends' rays, over the squared radius, below which an arc is halved.
    private const double MoreThanHalf = -0.03;

    private readonly List<Box2> _spans = [];
    private EdgeSource _edge;
    private double _greatest;
    private Vector256<double> _corners;
    private Vector256<double> _middles;

    /// <summary>Where each curve comes from is noted here, where anybody wants to know.</summary>
    public List<EdgeSource>? Edges { get; set; }

    public int LoopCount => _spans.Count;

    /// <summary>For each loop a box that its corners and its arcs' middles reach on all sides, though arcs may leave it.</summary>
    public IReadOnlyList<Box2> Spans => _spans;

    /// <summary>The least distance that coordinates as large as these can tell, mm.</summary>
    public double Least => RoundingOf(_greatest);

    /// <summary>The least distance that coordinates up to a greatest one can tell, mm.</summary>
    public static double RoundingOf(double greatest) => greatest * Rounding.OfCoordinates;

    public void Begin()
    {
        _greatest = 0;
        _spans.Clear();
    }

    /// <summary>Adds all contours of regions.</summary>
    /// <param name="set">Which set they are, for <see cref="Edges"/>.</param>
    public void AddAll(IReadOnlyList<Region> regions, int set)
    {
        for (int i = 0; i < regions.Count; i++)
        {
            _edge = new(set, i, 0, 0);
            Add(regions[i].Outer.Segments.AsSpan());
            foreach (Contour hole in regions[i].Holes)
            {
                _edge = _edge with { Contour = _edge.Contour + 1 };
                Add(hole.Segments.AsSpan());
            }
        }
    }

    public void Add(ReadOnlySpan<Segment> segments)
    {
        int last = segments.Length - 1;
        while (last >= 0 && IsNothing(segments[last]))
        {
            last--;
        }
        if (last < 1)
        {
            return;
        }
        _corners = Vector256.Create(double.PositiveInfinity);
        _middles = _corners;
        AddCurves(segments[..(last + 1)]);
        _greatest = Math.Max(_greatest, Extent(_corners));
        _spans.Add(Unpacked(Vector256.Min(_corners, _middles)));
    }

    private void AddCurves(ReadOnlySpan<Segment> segments)
    {
        Vertices vertices = cutter.Vertices;
        int first = -1;
        int at = -1;
        for (int i = 0; i < segments.Length; i++)
        {
            ref readonly Segment s = ref segments[i];
            if (IsNothing(s))
            {
                continue;
            }
            if (first < 0)
            {
                first = at = vertices.Add(s.Start);
            }
            if (Edges is null && s.Kind == SegmentKind.Line && i + 1 < segments.Length)
            {
                int lines = PutLines(segments[i..^1], at);
                at = vertices.Count - 1;
                i += lines - 1;
                continue;
            }
            int end = i == segments.Length - 1 ? first : vertices.Add(s.End);
            _corners = Vector256.Min(_corners, Packed(vertices[at]));
            _edge = _edge with { Segment = i };
            PutOne(s, at, end);
            at = end;
        }
    }

    /// <summary>Adds the lines with which a stretch begins, one at least, from a point of the cutter on; returns how many.</summary>
    private int PutLines(ReadOnlySpan<Segment> segments, int at)
    {
        Span<Point2> points = cutter.Vertices.Room(segments.Length);
        Span<Curve> lines = cutter.Input.Room(segments.Length);
        Span<byte> ways = cutter.Input.RoomForWays(segments.Length);
        Point2 from = cutter.Vertices[at];
        Vector256<double> box = _corners;
        int count = 0;
        for (; count < segments.Length; count++)
        {
            ref readonly Segment s = ref segments[count];
            if (s.Kind != SegmentKind.Line || IsNothing(s))
            {
                break;
            }
            ref Curve line = ref lines[count];
            line.A = from;
            line.B = s.End;
            line.C = default;
            line.R = 0;
            line.Turn = 0;
            ways[count] = Heading.From(from, line.B);
            box = Vector256.Min(box, Packed(from));
            from = line.B;
            points[count] = from;
        }
        _corners = box;
        cutter.Input.TakeChain(count, at, cutter.Vertices.Count);
        cutter.Vertices.Take(count);
        return count;
    }

    private static bool IsNothing(in Segment s) => s.Start.X == s.End.X && s.Start.Y == s.End.Y;

    private void PutOne(in Segment s, int start, int end)
    {
        Curve c = Curve.From(s);
        c.A = cutter.Vertices[start];
        c.B = cutter.Vertices[end];
        Put(c, start, end);
        if (c.Turn == 0)
        {
            return;
        }
        _greatest = Math.Max(_greatest, Math.Max(Math.Abs(c.C.X), Math.Abs(c.C.Y)) + c.R);
        if (!c.StaysInOneQuadrant())
        {
            _middles = Vector256.Min(_middles, Packed(c.Middle));
        }
    }

    /// <summary>The greatest coordinate of a packed box, without its sign.</summary>
    private static double Extent(Vector256<double> box)
    {
        Vector256<double> sizes = Vector256.Abs(box);
        return Math.Max(Math.Max(sizes[0], sizes[1]), Math.Max(sizes[2], sizes[3]));
    }

    /// <summary>An arc of clearly more than half a turn; nearly a whole one has ends as near to each other as hardly any.</summary>
    public static bool IsMoreThanHalf(in Curve c)
    {
        if (c.Turn == 0)
        {
            return false;
        }
        Point2 a = c.A - c.C;
        Point2 b = c.B - c.C;
        double turned = c.Turn * a.Cross(b);
        return turned < 0 && (turned < MoreThanHalf * c.R * c.R || a.Dot(b) > 0);
    }

    /// <summary>Adds one curve between two points of the cutter.</summary>
    public void Put(in Curve c, int start, int end)
    {
        CurveTable input = cutter.Input;
        int number = input.Count;
        if (!IsMoreThanHalf(c))
        {
            input.Add(c, start, end, number, number);
            Edges?.Add(_edge);
            return;
        }
        int middle = cutter.Vertices.Add(c.Middle);
        Curve half = c;
        half.B = cutter.Vertices[middle];
        input.Add(half, start, middle, number, number);
        half.A = half.B;
        half.B = c.B;
        input.Add(half, middle, end, number, number);
        Edges?.AddRange([_edge, _edge]);
    }

    /// <summary>The greatest coordinate or radius that the arithmetic of a curve meets, mm.</summary>
    public static double Greatest(in Curve c)
    {
        double corner = Math.Max(Math.Abs(c.A.X), Math.Abs(c.A.Y));
        return c.Turn == 0 ? corner : Math.Max(corner, Math.Max(Math.Abs(c.C.X), Math.Abs(c.C.Y)) + c.R);
    }
}
