using FixtureGen.Model;

namespace FixtureGen.Tests.Toolpaths;

/// <summary>
/// A height map cut by stamping the tool's disc every tenth of a millimetre: slow, plain, and sharing nothing with the
/// planner. Cells are addressed by their centres.
/// </summary>
internal sealed class CarveOracle(Box2 box, double cell, double top)
{
    private readonly int _columns = (int)Math.Round(box.Width / cell);
    private readonly float[] _z = Filled(box, cell, top);

    /// <summary>Every rapid that goes through ground, or down to less than the gap above it.</summary>
    public List<string> BadRapids { get; } = [];

    public IEnumerable<(Point2 At, double Z)> Cells()
    {
        for (int i = 0; i < _z.Length; i++)
        {
            yield return (Centre(i % _columns, i / _columns), _z[i]);
        }
    }

    public void Cut(Operation operation)
    {
        Point3 at = operation.Moves[0].To;
        double radius = operation.Tool.Kind == ToolKind.Engraver ? 0.05 : operation.Tool.Radius;
        foreach (Move move in operation.Moves)
        {
            if (move is DrillMove d)
            {
                Stamp(d.To with { Z = d.BottomZ + operation.Tool.ConeHeight }, radius);
            }
            foreach (Point3 p in Points(at, move))
            {
                if (move is RapidMove && Highest(p.Xy, radius) > p.Z)
                {
                    BadRapids.Add(FormattableString.Invariant($"{operation.Name} {p} in ground"));
                }
                Stamp(p, radius);
            }
            at = move.To;
        }
    }

    private static IEnumerable<Point3> Points(Point3 from, Move move)
    {
        const double step = 0.1;
        double dz = move.To.Z - from.Z;
        if (move is ArcMove arc)
        {
            Point2 a = from.Xy - arc.Centre;
            Point2 b = arc.To.Xy - arc.Centre;
            double sweep = Math.Atan2(a.Cross(b), a.Dot(b));
            sweep = arc.Ccw
                ? (sweep <= 1e-9 ? sweep + (2 * Math.PI) : sweep)
                : (sweep >= -1e-9 ? sweep - (2 * Math.PI) : sweep);
            int n = (int)Math.Ceiling(Math.Abs(sweep) * a.Length / step) + 1;
            double start = Math.Atan2(a.Y, a.X);
            for (int k = 1; k <= n; k++)
            {
                double t = start + (sweep * k / n);
                yield return new Point3(
                    arc.Centre.X + (a.Length * Math.Cos(t)),
                    arc.Centre.Y + (a.Length * Math.Sin(t)),
                    from.Z + (dz * k / n)
                );
            }
            yield break;
        }
        int steps = (int)Math.Ceiling(Math.Max(from.Xy.DistanceTo(move.To.Xy), Math.Abs(dz)) / step) + 1;
        for (int k = 1; k <= steps; k++)
        {
            double t = (double)k / steps;
            yield return new Point3(
                from.X + ((move.To.X - from.X) * t),
                from.Y + ((move.To.Y - from.Y) * t),
                from.Z + (dz * t)
            );
        }
    }

    private void Stamp(Point3 p, double radius)
    {
        (int y0, int y1) = Rows(p.Y, radius);
        for (int y = y0; y <= y1; y++)
        {
            (int from, int to) = Span(p.Xy, radius, y);
            for (int i = from; i <= to; i++)
            {
                _z[i] = Math.Min(_z[i], (float)p.Z);
            }
        }
    }

    private double Highest(Point2 p, double radius)
    {
        double z = double.NegativeInfinity;
        (int y0, int y1) = Rows(p.Y, radius);
        for (int y = y0; y <= y1; y++)
        {
            (int from, int to) = Span(p, radius, y);
            for (int i = from; i <= to; i++)
            {
                z = Math.Max(z, _z[i]);
            }
        }
        return z;
    }

    private (int From, int To) Rows(double y, double radius) =>
        (
            Math.Max(0, (int)Math.Ceiling(((y - radius - box.MinY) / cell) - 0.5)),
            Math.Min((_z.Length / _columns) - 1, (int)Math.Floor(((y + radius - box.MinY) / cell) - 0.5))
        );

    private (int From, int To) Span(Point2 p, double radius, int row)
    {
        double dy = box.MinY + ((row + 0.5) * cell) - p.Y;
        double half = Math.Sqrt(Math.Max(0, (radius * radius) - (dy * dy)));
        int x0 = Math.Max(0, (int)Math.Ceiling(((p.X - half - box.MinX) / cell) - 0.5));
        int x1 = Math.Min(_columns - 1, (int)Math.Floor(((p.X + half - box.MinX) / cell) - 0.5));
        return ((row * _columns) + x0, (row * _columns) + x1);
    }

    private Point2 Centre(int x, int y) => new(box.MinX + ((x + 0.5) * cell), box.MinY + ((y + 0.5) * cell));

    private static float[] Filled(Box2 box, double cell, double z)
    {
        float[] a = new float[(int)Math.Round(box.Width / cell) * (int)Math.Round(box.Height / cell)];
        Array.Fill(a, (float)z);
        return a;
    }
}
