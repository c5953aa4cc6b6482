using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>Where a proof asks of a curve that was asked of elsewhere already (<see cref="Curve.Probe"/>).</summary>
internal static class SecondPoints
{
    /// <summary>An odd fraction of a curve, so that drawings at round numbers have no corner there.</summary>
    public const double Fraction = 0.7131;

    // Sine of the sweep, below which an arc's chord may pass its centre.
    private const double Slender = Rounding.Slender;

    /// <summary>
    /// A second point of a curve: on an arc of less than half a turn, from its centre through one of its chord, on a longer one
    /// at three quarters.
    /// </summary>
    public static Point2 On(in Curve c)
    {
        if (c.Turn == 0)
        {
            return c.PointAt(Fraction);
        }
        if (c.Turn * (c.A - c.C).Cross(c.B - c.C) <= Slender * c.R * c.R)
        {
            Curve half = c;
            half.A = c.Middle;
            return half.Middle;
        }
        Point2 ray = c.A + ((c.B - c.A) * Fraction) - c.C;
        return c.C + (ray * (c.R / ray.Length));
    }

    /// <summary>The point of a curve that is so far from its start, mm; little beside its radius and length.</summary>
    public static Point2 Beside(in Curve c, double far)
    {
        if (c.Turn == 0)
        {
            return c.A + ((c.B - c.A) * (far / Math.Sqrt(c.Chord2)));
        }
        Point2 start = c.A - c.C;
        Point2 ray = start + (start.Left * (c.Turn * far / c.R));
        return c.C + (ray * (c.R / ray.Length));
    }
}
