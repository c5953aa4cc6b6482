using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>Clears a closed loop of micro-edges and of cuts inside one line or one arc.</summary>
internal static class LoopTidy
{
    private const double Straight = 1e-12;

    /// <summary>Merges parts in place and returns what is left of the loop; empty where it has no two curves.</summary>
    public static Span<Curve> Tidy(Span<Curve> loop, Slack slack)
    {
        int kept = 1;
        for (int i = 1; i < loop.Length; i++)
        {
            ref Curve last = ref loop[kept - 1];
            if (IsMicro(loop[i], slack) || Continues(last, loop[i], slack))
            {
                last.B = loop[i].B;
            }
            else if (kept++ != i)
            {
                loop[kept - 1] = loop[i];
            }
        }
        Span<Curve> rest = CloseUp(loop[..kept], slack);
        return rest.Length < 2 ? [] : rest;
    }

    /// <summary>Treats the seam between the last and the first curve like every other place.</summary>
    private static Span<Curve> CloseUp(Span<Curve> loop, Slack slack)
    {
        if (loop.Length > 2 && (IsMicro(loop[0], slack) || Continues(loop[^1], loop[0], slack)))
        {
            loop[^1].B = loop[0].B;
            loop = loop[1..];
        }
        loop[0].A = loop[^1].B;
        return loop;
    }

    private static bool IsMicro(in Curve c, Slack slack) =>
        c.Chord2 < slack.Grid * slack.Grid && c.Length < 10 * slack.Grid;

    private static bool Continues(in Curve a, in Curve b, Slack slack)
    {
        if (a.Turn != b.Turn)
        {
            return false;
        }
        if (a.Turn == 0)
        {
            Point2 u = a.B - a.A;
            Point2 v = b.B - b.A;
            double cross = u.Cross(v);
            return cross * cross < Straight * Straight * u.Dot(u) * v.Dot(v) && u.Dot(v) > 0;
        }
        double apart = Math.Abs(a.C.X - b.C.X) + Math.Abs(a.C.Y - b.C.Y) + Math.Abs(a.R - b.R);
        return apart < slack.Near / 100 && Math.Abs(a.Sweep) + Math.Abs(b.Sweep) < Math.PI + 1e-9;
    }
}
