using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Verify.Runs;

/// <summary>What a material's chart of chip loads says between its rows.</summary>
internal static class FeedChart
{
    /// <summary>Chart range at a diameter: straight between rows, in proportion below the first, the last row beyond it; mm a tooth.</summary>
    public static (double Least, double Most) Range(Material material, double diameter)
    {
        ImmutableArray<ChipLoad> rows = [.. material.ChipLoads.OrderBy(r => r.Diameter)];
        if (rows.IsEmpty)
        {
            return (0, double.MaxValue);
        }
        ChipLoad low = rows.LastOrDefault(r => r.Diameter <= diameter) ?? new ChipLoad(0, 0, 0);
        ChipLoad high = rows.FirstOrDefault(r => r.Diameter >= diameter) ?? rows[^1];
        double share = high.Diameter > low.Diameter ? (diameter - low.Diameter) / (high.Diameter - low.Diameter) : 1;
        share = Math.Clamp(share, 0, 1);
        return (low.MinMm + (share * (high.MinMm - low.MinMm)), low.MaxMm + (share * (high.MaxMm - low.MaxMm)));
    }

    /// <summary>Least and greatest feed a lip of a drill, mm: the row for drills of its size, the last row beyond all.</summary>
    public static (double Least, double Most) PerLip(DrillChart chart, Tool drill)
    {
        DrillFeed row = chart.Feeds[^1];
        for (int i = chart.Feeds.Length - 1; i >= 0 && drill.Diameter <= chart.Feeds[i].UpTo + 1e-6; i--)
        {
            row = chart.Feeds[i];
        }
        double lips = Math.Max(1, drill.Flutes);
        return (row.MinMm / lips, row.MaxMm / lips);
    }
}
