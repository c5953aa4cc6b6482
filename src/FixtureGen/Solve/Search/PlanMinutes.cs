using FixtureGen.Model;

namespace FixtureGen.Solve.Search;

/// <summary>
/// How long a planned program takes, minutes: every move speeds up from and slows down to what its corners allow, at the machine's
/// acceleration, with the changes of tools. Where people stop is not counted. Apart from the judge's own clock, which reads the text.
/// </summary>
internal static class PlanMinutes
{
    /// <summary>Corner rounding that a contouring control allows itself, mm (common practice, no source).</summary>
    private const double CornerMm = 0.01;

    public static double Measure(ProgramPlan plan, Machine machine)
    {
        double seconds = 0;
        int tool = -1;
        Point3? last = null;
        foreach (Operation operation in plan.Steps.Select(s => s.Operation).OfType<Operation>())
        {
            Point3 start = operation.Moves[0].To;
            Point2 from = last?.Xy ?? start.Xy;
            if (operation.Tool.Number != tool)
            {
                double home = 2 * Math.Max(0, machine.Travel.MaxZ - start.Z);
                seconds += machine.ToolChangeSeconds + (60 * home / machine.RapidMmPerMin);
            }
            tool = operation.Tool.Number;
            seconds += (60 * from.DistanceTo(start.Xy) / machine.RapidMmPerMin) + Seconds(operation, machine);
            last = operation.Moves[^1].To;
        }
        return seconds / 60;
    }

    private static double Seconds(Operation operation, Machine machine)
    {
        double seconds = 0;
        List<Piece> chain = [];
        Point3 from = operation.Moves[0].To;
        foreach (Move move in operation.Moves.Skip(1))
        {
            if (move is DrillMove drill)
            {
                seconds += Chained(chain, machine) + Drilling(drill, from, machine);
                chain.Clear();
            }
            else if (Piece.Along(from, move, machine) is { Length: > 1e-9 } piece)
            {
                chain.Add(piece);
            }
            from = move.To;
        }
        return seconds + Chained(chain, machine);
    }

    private static double Drilling(DrillMove drill, Point3 from, Machine machine)
    {
        double over = from.Xy.DistanceTo(drill.To.Xy) + Math.Abs(from.Z - drill.RetractZ);
        double deep = drill.RetractZ - drill.BottomZ;
        double pecks = drill.Peck > 0 ? Math.Ceiling(deep / drill.Peck) : 1;
        double rapids = over + (deep * pecks);
        return (60 * ((deep / drill.FeedMmPerMin) + (rapids / machine.RapidMmPerMin))) + drill.DwellSeconds;
    }

    private static double Chained(List<Piece> chain, Machine machine)
    {
        double a = Math.Max(machine.AccelerationMmPerS2, 1);
        double[] entry = new double[chain.Count + 1];
        for (int i = 1; i < chain.Count; i++)
        {
            double most = Math.Min(chain[i - 1].Speed, chain[i].Speed);
            double reached = Math.Sqrt((entry[i - 1] * entry[i - 1]) + (2 * a * chain[i - 1].Length));
            entry[i] = Math.Min(Math.Min(Corner(chain[i - 1], chain[i], a), most), reached);
        }
        double seconds = 0;
        for (int i = chain.Count - 1; i >= 0; i--)
        {
            double after = entry[i + 1];
            entry[i] = Math.Min(entry[i], Math.Sqrt((after * after) + (2 * a * chain[i].Length)));
        }
        for (int i = 0; i < chain.Count; i++)
        {
            (double v0, double v1, double length) = (entry[i], entry[i + 1], chain[i].Length);
            double peak = Math.Min(chain[i].Speed, Math.Sqrt(((2 * a * length) + (v0 * v0) + (v1 * v1)) / 2));
            double way = ((2 * peak * peak) - (v0 * v0) - (v1 * v1)) / (2 * a);
            seconds += (((2 * peak) - v0 - v1) / a) + (Math.Max(0, length - way) / Math.Max(peak, 1e-6));
        }
        return seconds;
    }

    /// <summary>Speed through a corner as if rounded by <see cref="CornerMm"/>, mm/s.</summary>
    private static double Corner(Piece before, Piece after, double a)
    {
        (Point3 u, Point3 w) = (before.Out, after.In);
        double cos = -((u.X * w.X) + (u.Y * w.Y) + (u.Z * w.Z));
        double sinHalf = Math.Sqrt(Math.Max(0, (1 - cos) / 2));
        return sinHalf > 0.9999 ? double.MaxValue : Math.Sqrt(a * CornerMm * sinHalf / (1 - sinHalf));
    }

    /// <summary>One move: length mm, greatest speed mm/s, unit directions at its ends.</summary>
    private readonly record struct Piece(double Length, double Speed, Point3 In, Point3 Out)
    {
        public static Piece Along(Point3 from, Move move, Machine machine)
        {
            double feed = move switch
            {
                LineMove line => line.FeedMmPerMin,
                ArcMove arc => arc.FeedMmPerMin,
                _ => machine.RapidMmPerMin,
            };
            double speed = Math.Max(1, Math.Min(feed, machine.RapidMmPerMin)) / 60;
            double dz = move.To.Z - from.Z;
            if (move is not ArcMove turn)
            {
                Point2 step = move.To.Xy - from.Xy;
                double straight = Math.Sqrt((step.X * step.X) + (step.Y * step.Y) + (dz * dz));
                Point3 way = Direction(step, dz, straight);
                return new Piece(straight, speed, way, way);
            }
            bool full = from.Xy.DistanceTo(turn.To.Xy) < 1e-9;
            double radius = from.Xy.DistanceTo(turn.Centre);
            double sweep = full ? 2 * Math.PI : Math.Abs(Segment.Arc(from.Xy, turn.To.Xy, turn.Centre, turn.Ccw).Sweep);
            double flat = sweep * radius;
            double length = Math.Sqrt((flat * flat) + (dz * dz));
            double limit = Math.Min(speed, Math.Sqrt(Math.Max(machine.AccelerationMmPerS2, 1) * radius));
            double sign = turn.Ccw ? 1 : -1;
            Point2 first = (from.Xy - turn.Centre).Left * (sign / Math.Max(radius, 1e-9));
            Point2 last = (turn.To.Xy - turn.Centre).Left * (sign / Math.Max(radius, 1e-9));
            return new Piece(length, limit, Direction(first * flat, dz, length), Direction(last * flat, dz, length));
        }

        private static Point3 Direction(Point2 step, double dz, double length) =>
            length < 1e-12 ? default : new Point3(step.X / length, step.Y / length, dz / length);
    }
}
