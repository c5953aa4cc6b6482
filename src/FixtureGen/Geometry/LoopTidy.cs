using System.Runtime.InteropServices;

namespace FixtureGen.Geometry;

/// <summary>Clears a closed loop of micro-edges and of cuts inside one line or one arc.</summary>
internal static class LoopTidy
{
    // Loops thinner than this many stitches, area over length, are zero-width remainders.
    private const double ThinStitches = 0.5;
    private const double Straight = 1e-12;

    /// <summary>Returns the loop with its parts merged, or nothing where it has no width.</summary>
    public static Curve[] Tidy(ReadOnlySpan<Curve> loop, Slack slack)
    {
        (double area, double length) = CurveSums.AreaAndLength(loop);
        if (Math.Abs(area) < ThinStitches * slack.Stitch * length)
        {
            return [];
        }
        List<Curve> kept = new(loop.Length);
        foreach (ref readonly Curve c in loop)
        {
            Append(kept, c, slack);
        }
        CloseUp(kept, slack);
        return kept.Count < 2 ? [] : [.. kept];
    }

    private static void Append(List<Curve> kept, in Curve c, Slack slack)
    {
        Span<Curve> done = CollectionsMarshal.AsSpan(kept);
        if (kept.Count > 0 && (IsMicro(c, slack) || Continues(done[^1], c, slack)))
        {
            done[^1].B = c.B;
            return;
        }
        kept.Add(c);
    }

    /// <summary>Treats the seam between the last and the first curve like every other place.</summary>
    private static void CloseUp(List<Curve> kept, Slack slack)
    {
        Span<Curve> c = CollectionsMarshal.AsSpan(kept);
        if (c.Length > 2 && (IsMicro(c[0], slack) || Continues(c[^1], c[0], slack)))
        {
            c[^1].B = c[0].B;
            kept.RemoveAt(0);
            c = CollectionsMarshal.AsSpan(kept);
        }
        if (c.Length > 0)
        {
            c[0].A = c[^1].B;
        }
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
            var u = a.B - a.A;
            var v = b.B - b.A;
            double lengths = u.Length * v.Length;
            return u.Dot(v) > 0 && Math.Abs(u.Cross(v)) < Straight * lengths;
        }
        double apart = a.C.DistanceTo(b.C) + Math.Abs(a.R - b.R);
        return apart < slack.Near / 100 && Math.Abs(a.Sweep) + Math.Abs(b.Sweep) < Math.PI + 1e-9;
    }
}
