using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// The curve C + U cos t + V sin t: a circle or ellipse in any skewed pair of half axes, which is what a circle becomes
/// when a block is scaled unevenly or seen at a slant.
/// </summary>
/// <param name="Centre">C, mm.</param>
/// <param name="U">Half axis at t = 0, mm.</param>
/// <param name="V">Half axis at t = 90 degrees, mm; need not stand square on U.</param>
/// <param name="Start">t at the start, radians.</param>
/// <param name="Sweep">t's way from start to end, radians, 0 &lt; sweep &lt;= 2 pi.</param>
internal readonly record struct EllipseArcs(Point2 Centre, Point2 U, Point2 V, double Start, double Sweep)
{
    /// <summary>True when the half axes are square and equal to 1e-9 of their length.</summary>
    public bool IsCircular
    {
        get
        {
            double u = U.Length;
            double v = V.Length;
            return Math.Abs(u - v) <= 1e-9 * Math.Max(u, v) && Math.Abs(U.Dot(V)) <= 1e-9 * u * v;
        }
    }

    public bool IsFull => Sweep >= (2 * Math.PI) - 1e-9;

    public Point2 PointAt(double t) => Centre + (Math.Cos(t) * U) + (Math.Sin(t) * V);

    /// <summary>Exact arcs where the curve is circular, else tangent arcs within <paramref name="chord"/> mm; a full turn ends bit for bit where it began.</summary>
    public List<Segment> Segments(double chord)
    {
        List<Segment> segments = IsCircular ? Circle() : Fitted(chord);
        if (IsFull && segments.Count > 0)
        {
            segments[^1] = segments[^1] with { End = segments[0].Start };
        }
        return segments;
    }

    private List<Segment> Circle()
    {
        bool ccw = U.Cross(V) > 0;
        int pieces = IsFull ? 2 : 1;
        var segments = new List<Segment>(pieces);
        for (int i = 0; i < pieces; i++)
        {
            Point2 from = i == 0 ? PointAt(Start) : segments[^1].End;
            segments.Add(Segment.Arc(from, PointAt(Start + (Sweep * (i + 1) / pieces)), Centre, ccw));
        }
        return segments;
    }

    private List<Segment> Fitted(double chord)
    {
        EllipseArcs self = this;
        int pieces = Math.Max(1, (int)Math.Ceiling(Sweep / (Math.PI / 4)));
        double first = Start;
        double step = Sweep / pieces;
        return Biarcs.Fit(
            Enumerable
                .Range(0, pieces)
                .Select(i => new CurveSpan(
                    first + (i * step),
                    first + ((i + 1) * step),
                    t => (self.PointAt(t), (-Math.Sin(t) * self.U) + (Math.Cos(t) * self.V))
                )),
            chord
        );
    }
}
