using FixtureGen.Model;

namespace FixtureGen.Holding.Seal;

/// <summary>
/// Pressures at the shop's altitude, kPa: the local atmosphere (absolute), the vacuum (gauge) that the pump settles at with the
/// leak, and the alarm level (gauge) as wished.
/// </summary>
public sealed record VacuumLevel(double Atmosphere, double Settled, double Alarm)
{
    /// <summary>How far below its setting the switch may trip, kPa.</summary>
    public double AlarmTolerance { get; init; }

    /// <summary>What the pump reaches here without any leak, kPa (gauge): what bends a shell most.</summary>
    public double DeadHead { get; init; }

    /// <summary>
    /// The alarm level as printed, kPa (gauge), but never above what the pump settles at or the atmosphere, nor below 0.
    /// </summary>
    public double Used => Math.Max(0, Math.Min(Alarm, Math.Min(Settled, Atmosphere)));

    /// <summary>The least vacuum at which the cycle may still run, kPa (gauge), 0 and up: the hold's worst case.</summary>
    public double Least => Math.Max(0, Math.Min(Alarm - AlarmTolerance, Math.Min(Settled, Atmosphere)));

    /// <summary>The levels at the supply's altitude with its pump and leak.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The altitude is outside -500 to 11 000 m; a job that was read has none such.</exception>
    public static VacuumLevel From(VacuumSupply supply)
    {
        double atmosphere = FixtureGen.Shop.Files.Atmosphere.PressureKPa(supply.AltitudeM);
        double pump = FixtureGen.Shop.Files.Atmosphere.PumpLevelKPa(supply.PumpRatedKPa, supply.AltitudeM);
        double settled = Leak.SettledKPa(pump, supply.PumpFlowLPerMin, supply.LeakHoleMm, atmosphere);
        return new VacuumLevel(atmosphere, settled, supply.AlarmKPa)
        {
            AlarmTolerance = supply.AlarmToleranceKPa,
            DeadHead = pump,
        };
    }
}
