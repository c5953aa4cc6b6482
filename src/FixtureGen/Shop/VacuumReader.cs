using FixtureGen.Model;

namespace FixtureGen.Shop;

/// <summary>[vacuum] of a plate, and of a job where it differs: key by key over what stands above it.</summary>
internal static class VacuumReader
{
    /// <summary>
    /// Sea level; a dry vane pump of 25 inHg; alarm at 18 inHg (common practice, no source: 18 to 20 inHg, or 80 % of
    /// blank-off, whichever is lower); 40 L/min; one hole of 0.5 mm as the leak; a
    /// switch that may trip 2 kPa low, 2 % of its range (common practice, no source).
    /// </summary>
    public static VacuumSupply House { get; } =
        new(0, 25 * Units.KPaPerInHg, 18 * Units.KPaPerInHg, 40, 0.5) { AlarmToleranceKPa = 2 };

    public static VacuumSupply Read(TableReader? t, VacuumSupply above)
    {
        if (t is null)
        {
            return above;
        }
        VacuumSupply v = new(
            t.MeasureOrNull("altitude", Quantity.Altitude, -400, 5000) ?? above.AltitudeM,
            t.MeasureOrNull("pump", Quantity.Pressure, 1, 101.3) ?? above.PumpRatedKPa,
            t.MeasureOrNull("alarm", Quantity.Pressure, 1, 101.3) ?? above.AlarmKPa,
            t.NumberOr("flow_l_per_min", above.PumpFlowLPerMin, 0.1, 100000),
            t.LengthOr("leak_hole", above.LeakHoleMm, 0, 20)
        )
        {
            AlarmToleranceKPa = t.MeasureOrNull("alarm_tolerance", Quantity.Pressure, 0, 20) ?? above.AlarmToleranceKPa,
        };
        if (v.AlarmKPa > v.PumpRatedKPa)
        {
            t.Contradict(
                "alarm",
                FormattableString.Invariant(
                    $"The alarm level of {v.AlarmKPa:0.#} kPa is deeper than the pump goes, {v.PumpRatedKPa:0.#} kPa: it would never start."
                ),
                "Lower it."
            );
        }
        t.Close();
        return v;
    }
}
