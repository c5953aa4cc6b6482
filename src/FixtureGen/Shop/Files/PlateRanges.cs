using FixtureGen.Shop.Reading;
using static FixtureGen.Shop.Reading.PlausibleRange;

namespace FixtureGen.Shop.Files;

/// <summary>What the figures of a plate, its machine and its vacuum may be, as far as a hold rests on them.</summary>
internal static class PlateRanges
{
    private const string Practice = "common practice, no source";

    /// <summary>mm: a blank is never placed exactly.</summary>
    public static PlausibleRange PlacingTolerance { get; } = Length("placing_tolerance", 0.01, 0.05, 1, 3, Practice);

    public static PlausibleRange BlockFriction { get; } =
        Number(
            "friction_block_on_plate",
            0.03,
            0.10,
            0.45,
            0.8,
            "plastic on steel, static, general engineering tables 0.20 to 0.45; acetal from 0.10"
        );

    /// <summary>N/mm: 1/8 in sponge of grade 1 to solid cord of 70 Shore A.</summary>
    public static PlausibleRange SealReaction { get; } =
        Number(
            "reaction_n_per_mm",
            0.01,
            0.03,
            3.2,
            20,
            "ASTM D1056 sponge over 1/8 in; O-ring handbook, solid cord to 18 lbf/in"
        );

    public static PlausibleRange Acceleration { get; } =
        new("acceleration", Quantity.Acceleration, 50, 200, 10000, 50000, Practice);

    /// <summary>mm: no axis stands still at once.</summary>
    public static PlausibleRange FeedHold { get; } = Length("feed_hold_distance", 0.05, 0.2, 10, 100, Practice);

    /// <summary>Seconds: no switch, wiring and control react at once.</summary>
    public static PlausibleRange Reaction { get; } = Number("vacuum_reaction_seconds", 0.005, 0.03, 0.5, 5, Practice);

    /// <summary>Metres.</summary>
    public static PlausibleRange Altitude { get; } =
        new("altitude", Quantity.Altitude, -400, -100, 3500, 5000, "towns lie there; ISO 2533 for the air");

    /// <summary>kPa: a side-channel blower has 2 inHg, an oil-sealed vane pump 29.5.</summary>
    public static PlausibleRange Pump { get; } =
        new("pump", Quantity.Pressure, 3, 6.7, 100, Atmosphere.SeaLevelKPa, "pump types, 2 to 29.5 inHg, from memory");

    /// <summary>kPa; what the pump reaches at the altitude bounds it further.</summary>
    public static PlausibleRange Alarm { get; } =
        new(
            "alarm",
            Quantity.Pressure,
            3,
            17,
            90,
            Atmosphere.SeaLevelKPa,
            "18 to 20 inHg at sea level, or 80 % of what the pump reaches (common practice)"
        );

    /// <summary>kPa: no switch trips exactly.</summary>
    public static PlausibleRange AlarmTolerance { get; } =
        new("alarm_tolerance", Quantity.Pressure, 0.05, 0.5, 5, 20, "0.5 to 5 % of a switch's range (common practice)");

    public static PlausibleRange Flow { get; } =
        Number("flow_l_per_min", 0.1, 5, 3000, 100000, "small shop pumps (common practice)");

    /// <summary>mm; every fixture leaks a little.</summary>
    public static PlausibleRange LeakHole { get; } = Length("leak_hole", 0, 0.2, 3, 20, Practice);
}
