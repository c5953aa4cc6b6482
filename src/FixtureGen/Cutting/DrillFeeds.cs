using FixtureGen.Model;

namespace FixtureGen.Cutting;

/// <summary>
/// Speed and feed of drills by the material's own drilling chart: the middle of the speeds at the drill's corner, the middle of the feeds per
/// turn of the first row that the drill's diameter does not pass, both less in deep holes, where chips and coolant have no way.
/// </summary>
internal static class DrillFeeds
{
    /// <summary>Whole steps of what is written, rev/min and mm/min.</summary>
    private const double Round = 10;

    /// <summary>
    /// Shares of speed and feed from so many diameters of depth on (trade table of deep-hole reductions: 3 d 10 and 10 %, 4 d 20 and 10,
    /// 5 d 30 and 20, 6 d 40 and 20).
    /// </summary>
    private static readonly (double Diameters, double Speed, double Feed)[] Deep =
    [
        (6, 0.6, 0.8),
        (5, 0.7, 0.8),
        (4, 0.8, 0.9),
        (3, 0.9, 0.9),
    ];

    /// <summary>Null where the material has no drilling chart. The feed is mm/min, the chip mm a lip.</summary>
    /// <param name="depth">Of the hole, mm.</param>
    public static CutData? For(Tool drill, Material material, Machine machine, double depth)
    {
        if (material.Drilling is not { } chart)
        {
            return null;
        }
        DrillFeed row = chart.Feeds.FirstOrDefault(r => drill.Diameter <= r.UpTo + 1e-6) ?? chart.Feeds[^1];
        (double slower, double lighter) = Share(depth / drill.Diameter);
        double speed = (chart.MinSpeedMPerMin + chart.MaxSpeedMPerMin) / 2 * slower;
        (double rpm, string limit) = Feeds.Speed(drill, material.Name, speed, machine);
        rpm = Math.Max(machine.MinSpindleRpm, Math.Floor(rpm / Round) * Round);
        double perTurn = (row.MinMm + row.MaxMm) / 2 * lighter;
        double feed = Math.Max(Round, Math.Floor(Math.Min(machine.MaxFeedMmPerMin, rpm * perTurn) / Round) * Round);
        string why = FormattableString.Invariant($"{limit}; feed by {perTurn:0.000} mm a turn of the drilling chart");
        return new CutData(rpm, feed, feed, drill.Diameter, 0, feed / (rpm * drill.Flutes), 90, why);
    }

    private static (double Speed, double Feed) Share(double diameters)
    {
        foreach ((double from, double speed, double feed) in Deep)
        {
            if (diameters >= from - 1e-9)
            {
                return (speed, feed);
            }
        }
        return (1, 1);
    }
}
