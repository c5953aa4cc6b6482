using FixtureGen.Model;

namespace FixtureGen.Verify.Shape;

/// <summary>Where two pieces cross or touch, as parameters of each; pieces that lie on each other give none.</summary>
internal static class Crossings
{
    private const double Slack = 1e-9;

    /// <summary>Two pieces cross at most so often.</summary>
    public const int Most = 2;

    /// <summary>Puts the crossings into found, which has room for Most, and returns how many there are.</summary>
    public static int Find(Piece a, Piece b, Span<(double S, double T)> found)
    {
        int count = 0;
        if (!a.IsArc && !b.IsArc)
        {
            Lines(a, b, found, ref count);
        }
        else if (a.IsArc && b.IsArc)
        {
            Arcs(a, b, found, ref count);
        }
        else if (b.IsArc)
        {
            LineArc(a, b, found, ref count, false);
        }
        else
        {
            LineArc(b, a, found, ref count, true);
        }
        return count;
    }

    private static void Lines(Piece a, Piece b, Span<(double S, double T)> found, ref int count)
    {
        Point2 d = a.B - a.A;
        Point2 e = b.B - b.A;
        double cross = d.Cross(e);
        if (Math.Abs(cross) <= 1e-12 * d.Length * e.Length)
        {
            return;
        }
        Point2 w = b.A - a.A;
        Keep(w.Cross(e) / cross, w.Cross(d) / cross, found, ref count);
    }

    private static void LineArc(Piece line, Piece arc, Span<(double S, double T)> found, ref int count, bool swap)
    {
        Point2 d = line.B - line.A;
        double l2 = d.Dot(d);
        if (l2 <= 0)
        {
            return;
        }
        Point2 w = line.A - arc.C;
        double half = w.Dot(d) / l2;
        double disc = (half * half) - ((w.Dot(w) - (arc.R * arc.R)) / l2);
        if (disc < 0)
        {
            return;
        }
        double root = Math.Sqrt(disc);
        foreach (double s in (ReadOnlySpan<double>)[-half - root, -half + root])
        {
            double t = arc.TurnTo(line.A + (d * s));
            if (swap)
            {
                Keep(t, s, found, ref count);
            }
            else
            {
                Keep(s, t, found, ref count);
            }
        }
    }

    private static void Arcs(Piece a, Piece b, Span<(double S, double T)> found, ref int count)
    {
        Point2 axis = b.C - a.C;
        double l = axis.Length;
        if (l <= 1e-12)
        {
            return;
        }
        double x = ((l * l) + (a.R * a.R) - (b.R * b.R)) / (2 * l);
        double y2 = (a.R * a.R) - (x * x);
        if (y2 < 0)
        {
            return;
        }
        Point2 u = axis * (1 / l);
        double y = Math.Sqrt(y2);
        foreach (double side in (ReadOnlySpan<double>)[y, -y])
        {
            Point2 p = a.C + (u * x) + (u.Left * side);
            Keep(a.TurnTo(p), b.TurnTo(p), found, ref count);
        }
    }

    private static void Keep(double s, double t, Span<(double S, double T)> found, ref int count)
    {
        if (s >= -Slack && s <= 1 + Slack && t >= -Slack && t <= 1 + Slack)
        {
            found[count++] = (Math.Clamp(s, 0, 1), Math.Clamp(t, 0, 1));
        }
    }
}
