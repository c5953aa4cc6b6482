using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.App.Page.Play;

/// <summary>
/// The shell on its block while the trim cuts it, as a picture: the height of its upper face in square cells, lowered to the tip
/// of every motion that the judge read, gone where a cutter has reached its underside. It judges nothing. Plate frame, mm.
/// </summary>
internal sealed class ShellSheet
{
    /// <summary>Height of a cell without shell.</summary>
    public const float Gone = -1000;

    /// <summary>Chords of arcs stay so near to them.</summary>
    private const double Chord = 0.1;

    private readonly BlockGrid _like;
    private readonly float[] _under;
    private readonly double _thickness;

    /// <summary>An untrimmed sheet with the part's forms, in the cells of a block.</summary>
    public ShellSheet(FixtureDesign design, Job job, BlockGrid like)
    {
        _like = like;
        _thickness = job.Shell.Thickness;
        _under = new float[like.Columns * like.Rows];
        Array.Fill(_under, (float)design.FixtureHeight);
        foreach (FormRegion form in design.Part.Forms)
        {
            Raise(form);
        }
    }

    /// <summary>The upper face of every cell, row by row from the lower left, after these motions.</summary>
    /// <param name="motions">In the order of the program.</param>
    /// <param name="diameter">Of a tool's cutter by its number; 0 for none.</param>
    public float[] Cut(IEnumerable<Motion> motions, Func<int, double> diameter)
    {
        float[] top = [.. _under.Select(u => u + (float)_thickness)];
        double highest = top.Max();
        foreach (Motion m in motions)
        {
            double radius = diameter(m.Tool) / 2;
            if (radius > 0 && Math.Min(m.From.Z, m.To.Z) < highest)
            {
                Sweep(top, m, radius);
            }
        }
        for (int i = 0; i < top.Length; i++)
        {
            top[i] = top[i] <= _under[i] ? Gone : top[i];
        }
        return top;
    }

    private void Sweep(float[] top, Motion m, double radius)
    {
        Point3 last = m.From;
        foreach (Point3 next in Points(m))
        {
            Box2 box = new(
                Math.Min(last.X, next.X) - radius,
                Math.Min(last.Y, next.Y) - radius,
                Math.Max(last.X, next.X) + radius,
                Math.Max(last.Y, next.Y) + radius
            );
            Point2 way = next.Xy - last.Xy;
            double length2 = way.Dot(way);
            foreach ((int cell, Point2 p) in Cells(box))
            {
                double share = length2 > 0 ? Math.Clamp((p - last.Xy).Dot(way) / length2, 0, 1) : 1;
                if ((last.Xy + (way * share)).DistanceTo(p) <= radius)
                {
                    double z = length2 > 0 ? last.Z + (share * (next.Z - last.Z)) : Math.Min(last.Z, next.Z);
                    top[cell] = Math.Min(top[cell], (float)z);
                }
            }
            last = next;
        }
    }

    private static IEnumerable<Point3> Points(Motion m)
    {
        double radius = m.From.Xy.DistanceTo(m.Centre);
        if (m.Kind is not (MotionKind.ArcCcw or MotionKind.ArcCw) || radius <= Chord)
        {
            return [m.To];
        }
        double from = Math.Atan2(m.From.Y - m.Centre.Y, m.From.X - m.Centre.X);
        double sweep = Math.Atan2(m.To.Y - m.Centre.Y, m.To.X - m.Centre.X) - from;
        sweep += m.Kind == MotionKind.ArcCcw && sweep <= 1e-9 ? 2 * Math.PI : 0;
        sweep -= m.Kind == MotionKind.ArcCw && sweep >= -1e-9 ? 2 * Math.PI : 0;
        int n = Math.Max(2, (int)Math.Ceiling(Math.Abs(sweep) / (2 * Math.Acos(1 - (Chord / radius)))));
        return Enumerable
            .Range(1, n)
            .Select(i =>
            {
                (double sin, double cos) = Math.SinCos(from + (sweep * i / n));
                return new Point3(
                    m.Centre.X + (radius * cos),
                    m.Centre.Y + (radius * sin),
                    m.From.Z + ((m.To.Z - m.From.Z) * i / n)
                );
            });
    }

    /// <summary>The wall at its draft inside the edge, up to a flat top or over a cap.</summary>
    private void Raise(FormRegion form)
    {
        (int Cell, double Inside)[] cells =
        [
            .. Cells(Measure.Bounds(form.Edge))
                .Where(c => Inside.Contains(form.Edge, c.At))
                .Select(c => (c.Cell, Measure.Distance(c.At, form.Edge))),
        ];
        double widest = cells.Select(c => c.Inside).DefaultIfEmpty(0).Max();
        double lean = Math.Tan(form.DraftDeg * Math.PI / 180);
        double ball = ((widest * widest) + (form.Height * form.Height)) / (2 * form.Height);
        double sign = form.Direction == FormDirection.Up ? 1 : -1;
        foreach ((int cell, double inside) in cells)
        {
            double across = widest - inside;
            double rise =
                form.Top == FormTop.Cap
                    ? Math.Sqrt(Math.Max(0, (ball * ball) - (across * across))) - ball + form.Height
                    : Math.Min(form.Height, lean > 0 ? inside / lean : form.Height);
            _under[cell] += (float)(sign * rise);
        }
    }

    private IEnumerable<(int Cell, Point2 At)> Cells(Box2 box)
    {
        (double x, double y, double cell) = (_like.Box.MinX, _like.Box.MinY, _like.Cell);
        int left = Math.Max(0, (int)((box.MinX - x) / cell));
        int right = Math.Min(_like.Columns - 1, (int)((box.MaxX - x) / cell));
        int top = Math.Min(_like.Rows - 1, (int)((box.MaxY - y) / cell));
        for (int r = Math.Max(0, (int)((box.MinY - y) / cell)); r <= top; r++)
        {
            for (int c = left; c <= right; c++)
            {
                yield return ((r * _like.Columns) + c, new Point2(x + ((c + 0.5) * cell), y + ((r + 0.5) * cell)));
            }
        }
    }
}
