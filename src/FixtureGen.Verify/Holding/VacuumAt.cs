using FixtureGen.Model;

namespace FixtureGen.Verify.Holding;

/// <summary>
/// The lowest vacuum that a program may run at, kPa (gauge): where the switch trips at its lower end, but no more than the pump keeps
/// up with the stated leak, nor than the atmosphere. Atmosphere after ISO 2533:1975 (geopotential height, 0 to 11 km); the leak
/// is an ideal gas through an orifice, choked above a pressure ratio of 0.528 (textbook gas dynamics); the pump's flow falls in a
/// straight line from its free air to nothing at its blank-off level.
/// </summary>
internal static class VacuumAt
{
    private const double SeaLevelKPa = 101.325;

    /// <summary>Discharge coefficient of a sharp hole; common practice, no source.</summary>
    private const double Discharge = 0.8;

    private const double RoomK = 293.15;
    private const double Gas = 287.05;
    private const double Gamma = 1.4;

    public static double Least(VacuumSupply supply)
    {
        double atmosphere = Atmosphere(supply.AltitudeM);
        double blankOff = DeadHead(supply);
        double settled = Settled(supply, blankOff, atmosphere);
        return Math.Max(0, Math.Min(supply.AlarmKPa - supply.AlarmToleranceKPa, Math.Min(settled, atmosphere)));
    }

    /// <summary>All that the pump reaches there without a leak, kPa (gauge).</summary>
    public static double DeadHead(VacuumSupply supply) =>
        Math.Min(supply.PumpRatedKPa, SeaLevelKPa) * Atmosphere(supply.AltitudeM) / SeaLevelKPa;

    /// <summary>Absolute pressure, kPa, at an altitude in metres above the sea; held to -500 and 11 000 m.</summary>
    public static double Atmosphere(double altitudeM)
    {
        double z = Math.Clamp(altitudeM, -500, 11_000);
        double height = 6_356_766 * z / (6_356_766 + z);
        return SeaLevelKPa * Math.Pow(1 - (0.0065 * height / 288.15), 5.255876);
    }

    private static double Settled(VacuumSupply supply, double blankOff, double atmosphere)
    {
        if (supply.LeakHoleMm <= 0 || supply.PumpFlowLPerMin <= 0 || blankOff <= 0)
        {
            return blankOff;
        }
        (double low, double high) = (0, blankOff);
        for (int i = 0; i < 50; i++)
        {
            double level = (low + high) / 2;
            bool keepsUp = supply.PumpFlowLPerMin * (1 - (level / blankOff)) > LeakLPerMin(supply, atmosphere, level);
            (low, high) = keepsUp ? (level, high) : (low, level);
        }
        return low;
    }

    /// <summary>Free air, L/min, through the leak's hole: speed of the gas at the hole, sqrt(2 cp T (1 - r^(k-1)/k)), times the density there.</summary>
    private static double LeakLPerMin(VacuumSupply supply, double atmosphere, double level)
    {
        double choked = Math.Pow(2 / (Gamma + 1), Gamma / (Gamma - 1));
        double ratio = Math.Clamp((atmosphere - level) / atmosphere, choked, 1);
        double cp = Gas * Gamma / (Gamma - 1);
        double speed = Math.Sqrt(2 * cp * RoomK * (1 - Math.Pow(ratio, (Gamma - 1) / Gamma)));
        double thinner = Math.Pow(ratio, 1 / Gamma);
        double area = Math.PI / 4 * supply.LeakHoleMm * supply.LeakHoleMm * 1e-6;
        return Discharge * area * speed * thinner * 60_000;
    }
}
