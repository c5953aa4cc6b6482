using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// The order of runs about a node, counter-clockwise. Where two leave it in nearly one direction the tangents cannot tell, but
/// the runs do not cross: the side on which one lies of the other where they are farthest apart is the order.
/// </summary>
internal sealed class Rotation(Runs runs)
{
    // Sine of the angle, and dot product, within which directions are nearly one.
    private const double NearlyOne = 0.02;

    private Leaver[] _leavers = [];

    private record struct Leaver(int End, double Angle, Point2 Heading, Curve Piece);

    /// <summary>Puts the ends in counter-clockwise order.</summary>
    public void Sort(Span<int> ends)
    {
        int n = ends.Length;
        Growing.Reserve(ref _leavers, n);
        for (int i = 0; i < n; i++)
        {
            Curve piece = runs.Leaving(ends[i]);
            Point2 heading = piece.StartTangent;
            _leavers[i] = new(ends[i], PseudoAngle(heading), heading, piece);
        }
        Span<Leaver> all = _leavers.AsSpan(0, n);
        ByAngle(all);
        StartAfterWidestGap(all);
        for (int i = 1; i < n; i++)
        {
            Leaver moving = all[i];
            int j = i - 1;
            for (; j >= 0 && IsLeftOf(all[j], moving); j--)
            {
                all[j + 1] = all[j];
            }
            all[j + 1] = moving;
        }
        for (int i = 0; i < n; i++)
        {
            ends[i] = all[i].End;
        }
    }

    private static void ByAngle(Span<Leaver> all)
    {
        if (all.Length > 16)
        {
            all.Sort(static (a, b) => a.Angle.CompareTo(b.Angle));
            return;
        }
        for (int i = 1; i < all.Length; i++)
        {
            Leaver moving = all[i];
            int j = i - 1;
            for (; j >= 0 && all[j].Angle > moving.Angle; j--)
            {
                all[j + 1] = all[j];
            }
            all[j + 1] = moving;
        }
    }

    /// <summary>So that no two of nearly one direction stand at opposite ends of the list.</summary>
    private static void StartAfterWidestGap(Span<Leaver> all)
    {
        int start = 0;
        double widest = all[0].Angle + 4 - all[^1].Angle;
        for (int i = 1; i < all.Length; i++)
        {
            double gap = all[i].Angle - all[i - 1].Angle;
            if (gap > widest)
            {
                widest = gap;
                start = i;
            }
        }
        if (start > 0)
        {
            all[..start].Reverse();
            all[start..].Reverse();
            all.Reverse();
        }
    }

    /// <summary>Grows with the angle, 0 to 4.</summary>
    private static double PseudoAngle(Point2 v)
    {
        double k = v.Y / (Math.Abs(v.X) + Math.Abs(v.Y));
        return v.X < 0 ? 2 - k
            : k < 0 ? 4 + k
            : k;
    }

    /// <summary>True when both leave in nearly one direction and the first lies left of the second.</summary>
    private static bool IsLeftOf(in Leaver a, in Leaver b)
    {
        double cross = a.Heading.Cross(b.Heading);
        if (a.Heading.Dot(b.Heading) < 0 || Math.Abs(cross) > NearlyOne)
        {
            return false;
        }
        double side = Side(a.Piece, b.Piece);
        return side != 0 ? side > 0 : cross < 0;
    }

    /// <summary>
    /// Above 0 when <paramref name="a"/> lies left of <paramref name="b"/>; both start at one point. Of the middles and ends
    /// that lie beside the other piece the one farthest from it is believed.
    /// </summary>
    private static double Side(in Curve a, in Curve b)
    {
        double best = 0;
        Look(b, a.Middle, 1, ref best);
        Look(a, b.Middle, -1, ref best);
        if (a.B != b.B)
        {
            Look(b, a.B, 1, ref best);
            Look(a, b.B, -1, ref best);
        }
        return best;
    }

    private static void Look(in Curve c, Point2 p, int sign, ref double best)
    {
        if (!Carriers.Holds(c, p))
        {
            return;
        }
        double left =
            c.Turn == 0 ? (c.B - c.A).Cross(p - c.A) / Math.Sqrt(c.Chord2) : c.Turn * (c.R - p.DistanceTo(c.C));
        best = Math.Abs(left) > Math.Abs(best) ? sign * left : best;
    }
}
