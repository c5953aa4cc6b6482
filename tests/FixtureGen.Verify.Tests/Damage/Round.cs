namespace FixtureGen.Verify.Tests.Damage;

/// <summary>An arc as its words say it, mm and radians; Off is how far its end lies off its circle.</summary>
internal sealed record Round(double X, double Y, double Radius, double Start, double Sweep, double Off)
{
    /// <summary>The chords of the path leave the arc by less than this, mm.</summary>
    private const double Chord = 0.001;

    /// <summary>The point half way round: two arcs with the same ends and the same middle are the same.</summary>
    public double[] Middle => At(0.5);

    public static Round Of(double[] from, double[] to, List<(char Letter, double Value)> words, double unit, bool ccw)
    {
        double Word(char letter) => words.FirstOrDefault(w => w.Letter == letter).Value * unit;
        (double dx, double dy) = (to[0] - from[0], to[1] - from[1]);
        (double cx, double cy) = (from[0] + Word('I'), from[1] + Word('J'));
        double r = Word('R');
        if (r != 0)
        {
            double half = Math.Sqrt((dx * dx) + (dy * dy)) / 2;
            double h = Math.Sqrt(Math.Max(0, (r * r) - (half * half))) / (2 * half) * (ccw == r > 0 ? 1 : -1);
            (cx, cy) = (from[0] + (dx / 2) - (dy * h), from[1] + (dy / 2) + (dx * h));
        }
        double start = Math.Atan2(from[1] - cy, from[0] - cx);
        double end = Math.Atan2(to[1] - cy, to[0] - cx);
        double turn = 2 * Math.PI;
        double sweep = ccw ? end - start : start - end;
        sweep -= Math.Floor(sweep / turn) * turn;
        sweep = sweep < 1e-9 ? turn : sweep;
        double radius = Math.Sqrt(((from[0] - cx) * (from[0] - cx)) + ((from[1] - cy) * (from[1] - cy)));
        double last = Math.Sqrt(((to[0] - cx) * (to[0] - cx)) + ((to[1] - cy) * (to[1] - cy)));
        return new Round(cx, cy, radius, start, ccw ? sweep : -sweep, last - radius);
    }

    public double[][] Path(double[] from, double[] to)
    {
        double step = 2 * Math.Acos(Math.Max(0.5, 1 - (Chord / Math.Max(Radius, Chord))));
        int n = double.IsFinite(Sweep) && step > 0 ? (int)Math.Clamp(Math.Ceiling(Math.Abs(Sweep) / step), 1, 2000) : 1;
        IEnumerable<double[]> between = Enumerable
            .Range(1, n - 1)
            .Select(i => (double[])[.. At((double)i / n), from[2] + ((to[2] - from[2]) * i / n)]);
        return [from, .. between, to];
    }

    private double[] At(double t)
    {
        double angle = Start + (Sweep * t);
        return [X + (Radius * Math.Cos(angle)), Y + (Radius * Math.Sin(angle))];
    }
}
