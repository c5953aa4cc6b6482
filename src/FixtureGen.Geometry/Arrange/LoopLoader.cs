using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>Puts closed loops into a cutter, arcs of more than half a turn in two parts that have the first one's number.</summary>
internal sealed class LoopLoader(Cutter cutter)
{
    // Turn times the cross product of the ends' rays, over the squared radius, below which an arc is halved.
    private const double MoreThanHalf = -0.03;

    private readonly List<Box2> spans = [];
    private EdgeSource edge;
    private double greatest;
    private double x0;
    private double y0;
    private double x1;
    private double y1;

    /// <summary>Where each curve comes from is noted here, where anybody wants to know.</summary>
    public List<EdgeSource>? Edges { get; set; }

    public int LoopCount => spans.Count;

    /// <summary>For each loop a box that its corners and its arcs' middles reach on all sides, though arcs may leave it.</summary>
    public IReadOnlyList<Box2> Spans => spans;

    /// <summary>The least distance that coordinates as large as these can tell, mm.</summary>
    public double Least => RoundingOf(greatest);

    /// <summary>The least distance that coordinates up to a greatest one can tell, mm.</summary>
    public static double RoundingOf(double greatest) => greatest * Rounding.OfCoordinates;

    public void Begin()
    {
        greatest = 0;
        spans.Clear();
    }

    /// <summary>Adds all contours of regions.</summary>
    /// <param name="set">Which set they are, for <see cref="Edges"/>.</param>
    public void AddAll(IReadOnlyList<Region> regions, int set)
    {
        for (int i = 0; i < regions.Count; i++)
        {
            edge = new(set, i, 0, 0);
            Add(regions[i].Outer.Segments.AsSpan());
            foreach (Contour hole in regions[i].Holes)
            {
                edge = edge with { Contour = edge.Contour + 1 };
                Add(hole.Segments.AsSpan());
            }
        }
    }

    public void Add(ReadOnlySpan<Segment> segments)
    {
        int last = segments.Length - 1;
        while (last >= 0 && segments[last].Start == segments[last].End)
        {
            last--;
        }
        if (last < 1)
        {
            return;
        }
        (x0, y0, x1, y1) = (double.MaxValue, double.MaxValue, double.MinValue, double.MinValue);
        int first = -1;
        int at = -1;
        for (int i = 0; i <= last; i++)
        {
            Curve c = Curve.Of(segments[i]);
            if (c.A == c.B)
            {
                continue;
            }
            if (first < 0)
            {
                first = at = cutter.Vertices.Add(c.A);
            }
            int end = i == last ? first : cutter.Vertices.Add(c.B);
            c.A = cutter.Vertices[at];
            c.B = cutter.Vertices[end];
            edge = edge with { Segment = i };
            Put(c, at, end);
            greatest = Math.Max(greatest, Greatest(c));
            Reach(c.A);
            if (c.Turn != 0 && !c.StaysInOneQuadrant())
            {
                Reach(c.Middle);
            }
            at = end;
        }
        spans.Add(new(x0, y0, x1, y1));
    }

    private void Reach(Point2 p)
    {
        x0 = Math.Min(x0, p.X);
        y0 = Math.Min(y0, p.Y);
        x1 = Math.Max(x1, p.X);
        y1 = Math.Max(y1, p.Y);
    }

    /// <summary>Adds one curve between two points of the cutter.</summary>
    public void Put(in Curve c, int start, int end)
    {
        CurveTable input = cutter.Input;
        int number = input.Count;
        if (c.Turn == 0 || !IsMoreThanHalf(c))
        {
            input.Add(c, start, end, number, number);
            Edges?.Add(edge);
            return;
        }
        int middle = cutter.Vertices.Add(c.Middle);
        Curve half = c;
        half.B = cutter.Vertices[middle];
        input.Add(half, start, middle, number, number);
        half.A = half.B;
        half.B = c.B;
        input.Add(half, middle, end, number, number);
        Edges?.AddRange([edge, edge]);
    }

    /// <summary>Clearly more than half a turn; nearly a whole one has ends as near to each other as hardly any.</summary>
    private static bool IsMoreThanHalf(in Curve c)
    {
        Point2 a = c.A - c.C;
        Point2 b = c.B - c.C;
        double turned = c.Turn * a.Cross(b);
        return turned < 0 && (turned < MoreThanHalf * c.R * c.R || a.Dot(b) > 0);
    }

    /// <summary>The greatest coordinate or radius that the arithmetic of a curve meets, mm.</summary>
    public static double Greatest(in Curve c)
    {
        double corner = Math.Max(Math.Abs(c.A.X), Math.Abs(c.A.Y));
        return c.Turn == 0 ? corner : Math.Max(corner, Math.Max(Math.Abs(c.C.X), Math.Abs(c.C.Y)) + c.R);
    }
}
