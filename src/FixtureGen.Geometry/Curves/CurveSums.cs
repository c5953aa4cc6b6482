using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>Signed area, length and signed sweeps of a loop, or of several added up; mm2, mm, radians.</summary>
internal readonly record struct LoopSums(double Area, double Length, double Sweeps)
{
    public static LoopSums operator +(LoopSums a, LoopSums b) =>
        new(a.Area + b.Area, a.Length + b.Length, a.Sweeps + b.Sweeps);

    /// <summary>The same loop run backwards.</summary>
    public LoopSums Reversed => new(-Area, Length, -Sweeps);
}

/// <summary>Sums over the curves of a closed loop.</summary>
internal static class CurveSums
{
    // Below this sweep, radians, the difference of sweep and sine loses digits.
    private const double Small = 0.1;

    /// <summary>
    /// Signed area (counter-clockwise positive, Green's theorem, closed form for arcs), length, and the signed sweeps of all
    /// arcs added up; mm2, mm, radians.
    /// </summary>
    public static LoopSums Of(ReadOnlySpan<Curve> loop)
    {
        if (loop.Length == 0)
        {
            return default;
        }
        // Measured from the loop's own start, so that far coordinates do not cost digits.
        Point2 o = loop[0].A;
        double area = 0;
        double length = 0;
        double sweeps = 0;
        foreach (ref readonly Curve c in loop)
        {
            area += (c.A - o).Cross(c.B - o);
            if (c.Turn == 0)
            {
                length += Math.Sqrt(c.Chord2);
                continue;
            }
            double sweep = c.Sweep;
            area += Bulge(c, sweep);
            length += c.R * Math.Abs(sweep);
            sweeps += sweep;
        }
        return new(area / 2, length, sweeps);
    }

    /// <summary>Twice the area between an arc and its chord: r2 (sweep - sin sweep), small sweeps without the cancellation.</summary>
    private static double Bulge(in Curve c, double sweep)
    {
        double r2 = c.R * c.R;
        if (Math.Abs(sweep) > Small)
        {
            return (r2 * sweep) - (c.A - c.C).Cross(c.B - c.C);
        }
        double s2 = sweep * sweep;
        return r2 * sweep * s2 / 6 * (1 - (s2 / 20 * (1 - (s2 / 42 * (1 - (s2 / 72))))));
    }
}
