using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>Sums over the curves of a closed loop.</summary>
internal static class CurveSums
{
    /// <summary>Signed area (counter-clockwise positive, Green's theorem, closed form for arcs) and length, mm2 and mm.</summary>
    public static (double Area, double Length) AreaAndLength(ReadOnlySpan<Curve> loop)
    {
        if (loop.Length == 0)
        {
            return (0, 0);
        }
        // Measured from the loop's own start, so that far coordinates do not cost digits.
        Point2 o = loop[0].A;
        double area = 0;
        double length = 0;
        foreach (ref readonly Curve c in loop)
        {
            area += (c.A - o).Cross(c.B - o);
            if (c.Turn == 0)
            {
                length += Math.Sqrt(c.Chord2);
                continue;
            }
            double sweep = c.Sweep;
            area += c.R * c.R * Bulge(sweep);
            length += c.R * Math.Abs(sweep);
        }
        return (area / 2, length);
    }

    /// <summary>Sweep less its sine, without the cancellation of small sweeps; twice a unit segment's area.</summary>
    public static double Bulge(double sweep)
    {
        if (Math.Abs(sweep) > 0.1)
        {
            return sweep - Math.Sin(sweep);
        }
        double s2 = sweep * sweep;
        return sweep * s2 / 6 * (1 - (s2 / 20 * (1 - (s2 / 42 * (1 - (s2 / 72))))));
    }
}
