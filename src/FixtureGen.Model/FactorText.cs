using System.Globalization;

namespace FixtureGen.Model;

/// <summary>Holding factors as people read them: two figures, rounded down, so that none is printed above what it is.</summary>
public static class FactorText
{
    /// <summary>A factor that rounding error keeps this share under a printed figure is that figure.</summary>
    private const double Rounding = 1e-9;

    /// <summary>1.4, 0.86, 12; three figures from 100 up.</summary>
    public static string Two(double factor)
    {
        int decimals =
            factor >= 10 - (10 * Rounding) ? 0
            : factor >= 1 - Rounding ? 1
            : 2;
        double scale = Math.Pow(10, decimals);
        double down = Math.Floor((factor * scale) + (Rounding * Math.Max(1, factor * scale))) / scale;
        return down.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
    }
}
