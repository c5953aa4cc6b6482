using FixtureGen.Model;

namespace FixtureGen.Holding;

/// <summary>
/// Levels in kPa (gauge): the local atmosphere, what the pump reaches here blanked off, what it settles at with the leak,
/// the alarm level as wished, and the one that holding is reckoned at: the alarm level, never above what is there.
/// </summary>
public sealed record VacuumLevel(double Atmosphere, double Pump, double Settled, double Alarm)
{
    /// <summary>
    /// The level that holding is reckoned at, kPa: the alarm level, but never above what the pump settles at or the
    /// atmosphere, nor below 0.
    /// </summary>
    public double Used => Math.Max(0, Math.Min(Alarm, Math.Min(Settled, Atmosphere)));

    /// <summary>The levels at the supply's altitude with its pump and leak.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The altitude is outside -500 to 11 000 m; a job that was read has none such.</exception>
    public static VacuumLevel Of(VacuumSupply supply)
    {
        double atmosphere = Holding.Atmosphere.PressureKPa(supply.AltitudeM);
        double pump = Holding.Atmosphere.PumpLevelKPa(supply.PumpRatedKPa, supply.AltitudeM);
        double settled = Leak.SettledKPa(pump, supply.PumpFlowLPerMin, supply.LeakHoleMm, atmosphere);
        return new VacuumLevel(atmosphere, pump, settled, supply.AlarmKPa);
    }
}
