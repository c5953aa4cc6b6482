using FixtureGen.Model;

namespace FixtureGen.Verify.Tests.Damage;

internal enum Size
{
    /// <summary>The machine does the very same, or moves through the same air, higher or slower.</summary>
    Nothing,

    /// <summary>The tool passes within the left-over limit of where it did, feeds and speeds stay inside the chart's window.</summary>
    BelowTolerance,
    Real,
}

/// <summary>How much an edit changes of what the machine does, told without the judge.</summary>
internal static class Sizing
{
    public static Size Of(List<Deed>? good, List<Deed>? edited, Job job, Setup setup, Limits limits)
    {
        if (good is null || edited is null)
        {
            return Size.Real;
        }
        Size ends = ByEnds(good, edited, job, setup, limits);
        return ends != Size.Real || Ways.Between(good, edited) is not { } ways ? ends
            : ways.RapidsNoLower() || ways.SameColumn() || ways.Retraced() ? Size.Nothing
            : ways.FeedsWithin(limits.Leftover) ? Size.BelowTolerance
            : Size.Real;
    }

    /// <summary>Motion by motion: where each ends and where each arc passes.</summary>
    private static Size ByEnds(List<Deed> good, List<Deed> edited, Job job, Setup setup, Limits limits)
    {
        if (good.Count != edited.Count)
        {
            return Size.Real;
        }
        double off = 0;
        bool feeds = false;
        for (int i = 0; i < good.Count; i++)
        {
            (Deed a, Deed b) = (good[i], edited[i]);
            if (a.What != b.What || a.State != b.State || a.Where.Length != b.Where.Length)
            {
                return Size.Real;
            }
            for (int k = 0; k < a.Where.Length; k++)
            {
                double d = a.Where[k].Equals(b.Where[k]) ? 0 : Math.Abs(a.Where[k] - b.Where[k]);
                off = double.IsNaN(d) ? double.MaxValue : Math.Max(off, d);
            }
            if (a.Feed != b.Feed || a.Rpm != b.Rpm)
            {
                feeds = true;
                if (!Window(b, job, setup))
                {
                    return Size.Real;
                }
            }
        }
        return off == 0 && !feeds ? Size.Nothing
            : off <= limits.Leftover + 1e-9 ? Size.BelowTolerance
            : Size.Real;
    }

    /// <summary>
    /// Feed per tooth within the chart's least and greatest for the tool's size, or its own, speed the machine can run, all for
    /// the tool in force. Below the chart's first row its figures shrink with the diameter; between rows the smaller ones hold.
    /// </summary>
    private static bool Window(Deed deed, Job job, Setup setup)
    {
        Tool? tool = job
            .Tools.Append(job.TrimTool)
            .FirstOrDefault(t =>
                (" " + deed.State + " ").Contains(
                    FormattableString.Invariant($" tool{t.Number} "),
                    StringComparison.Ordinal
                )
            );
        Material material = setup == Setup.Trim ? job.ShellMaterial : job.BlockMaterial;
        if (
            tool is null
            || deed.Rpm <= 0
            || (tool.Kind is ToolKind.Drill or ToolKind.Engraver && tool.ChipLoadIn(material) is null)
        )
        {
            return false;
        }
        ChipLoad[] rows = [.. material.ChipLoads.OrderBy(r => r.Diameter)];
        double share = Math.Min(1, tool.Diameter / rows[0].Diameter);
        double least = rows.Where(r => r.Diameter <= tool.Diameter).Append(rows[0]).Max(r => r.MinMm) * share;
        double most = rows.Where(r => r.Diameter <= tool.Diameter).Append(rows[0]).Max(r => r.MaxMm) * share;
        if (tool.ChipLoadIn(material) is { } own)
        {
            (least, most) = (own.MinMm, own.MaxMm);
        }
        double chip = deed.Feed / (deed.Rpm * tool.Flutes);
        bool speed =
            deed.Rpm >= job.Plate.Machine.MinSpindleRpm
            && deed.Rpm <= Math.Min(tool.MaxRpm, job.Plate.Machine.MaxSpindleRpm);
        return speed && chip >= least && chip <= most && deed.Feed <= job.Plate.Machine.MaxFeedMmPerMin;
    }
}
