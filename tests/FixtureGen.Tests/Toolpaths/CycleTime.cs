using FixtureGen.Model;

namespace FixtureGen.Tests.Toolpaths;

/// <summary>
/// How long planned moves take on a machine that speeds up and slows down evenly, rounds corners by a
/// hundredth of a millimetre and keeps its acceleration on arcs. Seconds; tool changes and stops are not in it.
/// </summary>
internal static class CycleTime
{
    /// <summary>Rounding a contouring control allows itself at a corner, mm (common practice, no source).</summary>
    private const double CornerMm = 0.01;

    public static double Seconds(IReadOnlyList<Move> moves, Machine machine)
    {
        List<Run> runs = [.. Runs(moves, machine)];
        double a = machine.AccelerationMmPerS2;
        double[] speed = new double[runs.Count + 1];
        for (int i = 1; i < runs.Count; i++)
        {
            speed[i] = Math.Min(Corner(runs[i - 1], runs[i], a), Math.Min(runs[i - 1].Speed, runs[i].Speed));
        }
        for (int i = 0; i < runs.Count; i++)
        {
            speed[i + 1] = Math.Min(speed[i + 1], Math.Sqrt((speed[i] * speed[i]) + (2 * a * runs[i].Length)));
        }
        double total = 0;
        for (int i = runs.Count - 1; i >= 0; i--)
        {
            speed[i] = Math.Min(speed[i], Math.Sqrt((speed[i + 1] * speed[i + 1]) + (2 * a * runs[i].Length)));
            total += Seconds(runs[i], speed[i], speed[i + 1], a);
        }
        return total;
    }

    /// <summary>Rapid way of an operation, mm; drilling strokes are not in it.</summary>
    public static double RapidMm(IReadOnlyList<Move> moves)
    {
        double sum = 0;
        for (int i = 1; i < moves.Count; i++)
        {
            sum += moves[i] is RapidMove ? Distance(moves[i - 1].To, moves[i].To) : 0;
        }
        return sum;
    }

    private readonly record struct Run(double Length, double Speed, Point3 First, Point3 Last);

    private static IEnumerable<Run> Runs(IReadOnlyList<Move> moves, Machine machine)
    {
        Point3 at = moves[0].To;
        foreach (Move move in moves.Skip(1))
        {
            if (move is DrillMove drill)
            {
                double deep = drill.RetractZ - drill.BottomZ;
                yield return new Run(deep, drill.FeedMmPerMin / 60, new Point3(0, 0, -1), new Point3(0, 0, -1));
                yield return new Run(deep, machine.RapidMmPerMin / 60, new Point3(0, 0, 1), new Point3(0, 0, 1));
            }
            else if (move is ArcMove arc)
            {
                yield return Arc(at, arc, machine.AccelerationMmPerS2);
            }
            else
            {
                double rate = move is LineMove line ? line.FeedMmPerMin : machine.RapidMmPerMin;
                Point3 way = Towards(at, move.To);
                yield return new Run(Distance(at, move.To), rate / 60, way, way);
            }
            at = move.To;
        }
    }

    private static Run Arc(Point3 from, ArcMove arc, double a)
    {
        bool turn = from.Xy.DistanceTo(arc.To.Xy) < 1e-9;
        Segment s = Segment.Arc(from.Xy, arc.To.Xy, arc.Centre, arc.Ccw);
        double radius = s.Radius;
        double flat = turn ? 2 * Math.PI * radius : s.Length;
        double dz = arc.To.Z - from.Z;
        double length = Math.Sqrt((flat * flat) + (dz * dz));
        double speed = Math.Min(arc.FeedMmPerMin / 60, Math.Sqrt(a * radius));
        return new Run(
            length,
            speed,
            Slanted(Tangent(from.Xy, arc), flat, dz, length),
            Slanted(Tangent(arc.To.Xy, arc), flat, dz, length)
        );
    }

    private static Point2 Tangent(Point2 p, ArcMove arc)
    {
        Point2 r = p - arc.Centre;
        Point2 left = r.Left * (1 / Math.Max(r.Length, 1e-12));
        return arc.Ccw ? left : left * -1;
    }

    private static Point3 Slanted(Point2 t, double flat, double dz, double length) =>
        new(t.X * flat / length, t.Y * flat / length, dz / length);

    private static double Seconds(Run run, double v0, double v1, double a)
    {
        double peak = Math.Min(run.Speed, Math.Sqrt(((2 * a * run.Length) + (v0 * v0) + (v1 * v1)) / 2));
        double ramps = ((peak - v0) + (peak - v1)) / a;
        double way = ((2 * peak * peak) - (v0 * v0) - (v1 * v1)) / (2 * a);
        return ramps + (Math.Max(0, run.Length - way) / Math.Max(peak, 1e-6));
    }

    private static double Corner(Run before, Run after, double a)
    {
        double cos = -(
            (before.Last.X * after.First.X) + (before.Last.Y * after.First.Y) + (before.Last.Z * after.First.Z)
        );
        double sinHalf = Math.Sqrt(Math.Max(0, (1 - cos) / 2));
        return sinHalf > 0.9999 ? double.MaxValue : Math.Sqrt(a * CornerMm * sinHalf / (1 - sinHalf));
    }

    private static Point3 Towards(Point3 a, Point3 b)
    {
        double l = Math.Max(Distance(a, b), 1e-12);
        return new Point3((b.X - a.X) / l, (b.Y - a.Y) / l, (b.Z - a.Z) / l);
    }

    private static double Distance(Point3 a, Point3 b) =>
        Math.Sqrt(((a.X - b.X) * (a.X - b.X)) + ((a.Y - b.Y) * (a.Y - b.Y)) + ((a.Z - b.Z) * (a.Z - b.Z)));
}
