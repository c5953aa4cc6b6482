using FixtureGen.Model;
using FixtureGen.Shop.Reading;

namespace FixtureGen.Shop.Files;

/// <summary>[vacuum] of a plate, and of a job where it differs: key by key over what stands above it.</summary>
internal static class VacuumReader
{
    /// <summary>Share of what the pump reaches that an alarm is set to, and the share from which it is warned of.</summary>
    private const double Usual = 0.8;
    private const double Highest = 0.85;

    /// <summary>
    /// Sea level; a dry vane pump of 25 inHg; alarm at 18 inHg (common practice, no source: 18 to 20 inHg, or 80 % of
    /// blank-off, whichever is lower); 40 L/min; one hole of 0.5 mm as the leak; a
    /// switch that may trip 2 kPa low, 2 % of its range (common practice, no source).
    /// </summary>
    public static VacuumSupply House { get; } =
        new(0, 25 * Units.KPaPerInHg, 18 * Units.KPaPerInHg, 40, 0.5) { AlarmToleranceKPa = 2 };

    /// <summary>A plate's [vacuum]; what it leaves open is <see cref="House"/>, and a note says so.</summary>
    public static VacuumSupply OfPlate(TableReader plate)
    {
        TableReader? t = plate.InnerOrNull("vacuum");
        VacuumSupply supply = Read(t, House);
        foreach ((PlausibleRange key, double value) in Keys(House))
        {
            if (t is null)
            {
                plate.Assumed("vacuum." + key.Key, value, key.Kind?.Inside ?? "");
            }
            else if (!t.Has(key.Key))
            {
                t.Assumed(key.Key, value, key.Kind?.Inside ?? "");
            }
        }
        return supply;
    }

    private static IEnumerable<(PlausibleRange Key, double Value)> Keys(VacuumSupply v) =>
        [
            (PlateRanges.Altitude, v.AltitudeM),
            (PlateRanges.Pump, v.PumpRatedKPa),
            (PlateRanges.Alarm, v.AlarmKPa),
            (PlateRanges.AlarmTolerance, v.AlarmToleranceKPa),
            (PlateRanges.LeakHole, v.LeakHoleMm),
        ];

    public static VacuumSupply Read(TableReader? t, VacuumSupply above)
    {
        if (t is null)
        {
            return above;
        }
        VacuumSupply v = new(
            t.WithinOrNull(PlateRanges.Altitude) ?? above.AltitudeM,
            t.WithinOrNull(PlateRanges.Pump) ?? above.PumpRatedKPa,
            t.WithinOrNull(PlateRanges.Alarm) ?? above.AlarmKPa,
            t.WithinOrNull(PlateRanges.Flow) ?? above.PumpFlowLPerMin,
            t.WithinOrNull(PlateRanges.LeakHole) ?? above.LeakHoleMm
        )
        {
            AlarmToleranceKPa = t.WithinOrNull(PlateRanges.AlarmTolerance) ?? above.AlarmToleranceKPa,
        };
        if (!t.Log.Failed)
        {
            CheckAlarm(t, v);
        }
        t.Close();
        return v;
    }

    /// <summary>Nothing would ever start above what the pump reaches at the shop's altitude, and it would stop often just below it.</summary>
    private static void CheckAlarm(TableReader t, VacuumSupply v)
    {
        double reached = Atmosphere.PumpLevelKPa(v.PumpRatedKPa, v.AltitudeM);
        string at = FormattableString.Invariant(
            $"the pump, {v.PumpRatedKPa:0.#} kPa at sea level, reaches {reached:0.#} kPa at {v.AltitudeM:0.#} m"
        );
        if (v.AlarmKPa > reached)
        {
            t.Contradict(
                "alarm",
                FormattableString.Invariant(
                    $"The alarm level of {v.AlarmKPa:0.#} kPa is {v.AlarmKPa - reached:0.#} kPa deeper than the pump goes: {at}, so it would never start."
                ),
                FormattableString.Invariant(
                    $"Set the alarm to {Usual * reached:0.#} kPa or less, or use a stronger pump."
                )
            );
        }
        else if (v.AlarmKPa > Highest * reached)
        {
            t.Unusual(
                "alarm",
                FormattableString.Invariant(
                    $"The alarm level of {v.AlarmKPa:0.#} kPa is {v.AlarmKPa / reached:P0} of what there is: {at}; 80 % is usual (common practice, no source)."
                ),
                FormattableString.Invariant($"Set the alarm to {Usual * reached:0.#} kPa or less.")
            );
        }
        if (v.AlarmToleranceKPa >= v.AlarmKPa)
        {
            t.Contradict(
                "alarm_tolerance",
                FormattableString.Invariant(
                    $"A switch that may trip {v.AlarmToleranceKPa:0.#} kPa low proves nothing at {v.AlarmKPa:0.#} kPa."
                ),
                "Give the switch's accuracy, 0.5 to 5 kPa."
            );
        }
    }
}
