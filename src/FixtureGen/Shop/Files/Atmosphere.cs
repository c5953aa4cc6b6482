namespace FixtureGen.Shop.Files;

/// <summary>
/// The local atmosphere and what it leaves of a pump's rated level. ISO 2533:1975, the same as the US Standard Atmosphere
/// 1976 below 11 km: p = p0 (1 - L H / T0)^(g0 M / (R L)) with the geopotential height H = r0 Z / (r0 + Z).
/// </summary>
public static class Atmosphere
{
    /// <summary>Sea-level pressure, kPa.</summary>
    public const double SeaLevelKPa = 101.325;

    private const double EarthRadiusM = 6_356_766;
    private const double LapseKPerM = 0.0065;
    private const double SeaLevelK = 288.15;
    private const double Exponent = 9.80665 * 0.0289644 / (8.31432 * LapseKPerM);

    /// <summary>Whether the formula holds at an altitude in metres: -500 to 11 000 inclusive.</summary>
    public static bool Reaches(double altitudeM) => altitudeM is >= -500 and <= 11_000;

    /// <summary>Absolute pressure, kPa, at a geometric altitude in metres within <see cref="Reaches"/>.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The altitude lies outside, or is not a number.</exception>
    public static double PressureKPa(double altitudeM)
    {
        if (!Reaches(altitudeM))
        {
            throw new ArgumentOutOfRangeException(nameof(altitudeM));
        }
        double geopotential = EarthRadiusM * altitudeM / (EarthRadiusM + altitudeM);
        return SeaLevelKPa * Math.Pow(1 - (LapseKPerM * geopotential / SeaLevelK), Exponent);
    }

    /// <summary>
    /// The vacuum (gauge, kPa) that a pump rated at sea level reaches at an altitude, blanked off: the rating, at most the whole
    /// atmosphere, times the ratio of the pressures. The derating of pump handbooks.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">As <see cref="PressureKPa"/>.</exception>
    public static double PumpLevelKPa(double ratedKPa, double altitudeM) =>
        Math.Min(ratedKPa, SeaLevelKPa) * PressureKPa(altitudeM) / SeaLevelKPa;

    /// <summary>Force of a vacuum (gauge, kPa) on an area (mm2), N.</summary>
    public static double ForceN(double vacuumKPa, double areaMm2) => vacuumKPa * areaMm2 / 1000;
}
