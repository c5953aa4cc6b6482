using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Reading;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Runs;

/// <summary>
/// How long a program takes: each motion speeds up and slows down at the machine's acceleration; between motions the speed is
/// limited by the corner, as if rounded by CornerMm (centripetal acceleration equal to the machine's). Minutes.
/// </summary>
internal static class Timing
{
    /// <summary>Corner rounding that a contouring control allows itself, mm; common practice, no source.</summary>
    private const double CornerMm = 0.01;

    public static (double Minutes, ImmutableArray<ToolTime> Tools) Measure(Run run)
    {
        Machine machine = run.Job.Plate.Machine;
        SortedDictionary<int, double> byTool = [];
        List<Motion> chain = [];
        double total = 0;
        void Spend(int tool, double seconds)
        {
            total += seconds;
            byTool[tool] = byTool.GetValueOrDefault(tool) + seconds;
        }
        void Flush()
        {
            foreach ((Motion motion, double seconds) in Chain(chain, machine))
            {
                Spend(motion.Tool, seconds);
            }
            chain.Clear();
        }
        foreach (ProgramEvent e in run.Trace.Events)
        {
            if (e.Kind == EventKind.Motion)
            {
                chain.Add(e.Motion);
                continue;
            }
            Flush();
            if (e.Kind == EventKind.ToolChange)
            {
                total += machine.ToolChangeSeconds;
            }
            Spend(e.State.Tool, e.Seconds);
        }
        Flush();
        return (
            total / 60,
            [
                .. byTool
                    .Where(t => t.Key != 0)
                    .Select(t => new ToolTime(
                        t.Key,
                        run.Cutters.GetValueOrDefault(t.Key)?.Tool.Name ?? "?",
                        t.Value / 60
                    )),
            ]
        );
    }

    /// <summary>
    /// The greatest speed that each motion of a program comes to, mm/min, were the machine to speed up so many times as hard as its
    /// file says: no more than its feed, and less where it is short or turns tightly. By event; 0 where nothing moves.
    /// </summary>
    public static double[] Reached(ProgramTrace trace, Machine machine, double harder)
    {
        double[] reached = new double[trace.Events.Length];
        List<Motion> chain = [];
        double a = harder * Math.Max(machine.AccelerationMmPerS2, 1);
        for (int i = 0; i <= trace.Events.Length; i++)
        {
            if (i < trace.Events.Length && trace.Events[i].Kind == EventKind.Motion)
            {
                chain.Add(trace.Events[i].Motion);
                continue;
            }
            (double[] length, double[] speed, double[] entry) = Plan(chain, machine, a);
            for (int k = 0; k < chain.Count; k++)
            {
                double peak = Peak(length[k], entry[k], entry[k + 1], speed[k], a);
                reached[i - chain.Count + k] = peak * 60;
            }
            chain.Clear();
        }
        return reached;
    }

    private static IEnumerable<(Motion Motion, double Seconds)> Chain(List<Motion> chain, Machine machine)
    {
        double a = Math.Max(machine.AccelerationMmPerS2, 1);
        (double[] length, double[] speed, double[] entry) = Plan(chain, machine, a);
        for (int i = 0; i < chain.Count; i++)
        {
            yield return (chain[i], Seconds(length[i], entry[i], entry[i + 1], speed[i], a));
        }
    }

    /// <summary>Length, greatest speed and speed at the beginning of every motion, mm and mm/s.</summary>
    private static (double[] Length, double[] Speed, double[] Entry) Plan(List<Motion> chain, Machine machine, double a)
    {
        int n = chain.Count;
        double[] length = new double[n];
        double[] speed = new double[n];
        double[] entry = new double[n + 1];
        for (int i = 0; i < n; i++)
        {
            Piece piece = Piece.From(chain[i]);
            double dz = chain[i].To.Z - chain[i].From.Z;
            length[i] = Math.Sqrt((piece.Length * piece.Length) + (dz * dz));
            double rate = chain[i].Kind == MotionKind.Rapid ? machine.RapidMmPerMin : chain[i].FeedMmPerMin;
            speed[i] = Math.Max(Math.Min(rate, machine.RapidMmPerMin), 1) / 60;
            if (piece.IsArc)
            {
                speed[i] = Math.Min(speed[i], Math.Sqrt(a * piece.R));
            }
            if (i > 0)
            {
                entry[i] = Math.Min(Corner(chain[i - 1], chain[i], a), Math.Min(speed[i - 1], speed[i]));
            }
        }
        for (int i = 0; i < n; i++)
        {
            entry[i + 1] = Math.Min(entry[i + 1], Math.Sqrt((entry[i] * entry[i]) + (2 * a * length[i])));
        }
        for (int i = n - 1; i >= 0; i--)
        {
            entry[i] = Math.Min(entry[i], Math.Sqrt((entry[i + 1] * entry[i + 1]) + (2 * a * length[i])));
        }
        return (length, speed, entry);
    }

    private static double Peak(double length, double v0, double v1, double v, double a) =>
        Math.Min(v, Math.Sqrt(((2 * a * length) + (v0 * v0) + (v1 * v1)) / 2));

    private static double Seconds(double length, double v0, double v1, double v, double a)
    {
        double peak = Peak(length, v0, v1, v, a);
        double ramps = ((peak - v0) + (peak - v1)) / a;
        double way = (((peak * peak) - (v0 * v0)) + ((peak * peak) - (v1 * v1))) / (2 * a);
        return ramps + (Math.Max(0, length - way) / Math.Max(peak, 1e-6));
    }

    private static double Corner(Motion before, Motion after, double a)
    {
        (double x, double y, double z) u = Direction(before, 1);
        (double x, double y, double z) w = Direction(after, 0);
        double cos = -((u.x * w.x) + (u.y * w.y) + (u.z * w.z));
        double sinHalf = Math.Sqrt(Math.Max(0, (1 - cos) / 2));
        return sinHalf > 0.9999 ? double.MaxValue : Math.Sqrt(a * CornerMm * sinHalf / (1 - sinHalf));
    }

    private static (double X, double Y, double Z) Direction(Motion motion, double t)
    {
        Piece piece = Piece.From(motion);
        Point2 d = piece.Length > 1e-9 ? piece.Tangent(t) : default;
        double dz = motion.To.Z - motion.From.Z;
        double flat = piece.Length;
        double all = Math.Sqrt((flat * flat) + (dz * dz));
        return all < 1e-12 ? (0, 0, 0) : (d.X * flat / all, d.Y * flat / all, dz / all);
    }
}
