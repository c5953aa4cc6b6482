using System.Collections.Immutable;
using System.Globalization;
using FixtureGen.Model;

namespace FixtureGen.Solve.Search;

/// <summary>A solution in the job file's own words.</summary>
public static class SolveWords
{
    internal static SolveOption Option(Solution solution)
    {
        Job job = solution.Draft.Job;
        return new SolveOption
        {
            Keys = Keys(job, solution.Magnets),
            BatchMinutes = solution.Batch,
            TrimMinutes = solution.Trim,
            BlockMinutes = solution.Block,
            Magnets = solution.Magnets,
            Vacuum = job.HoldBy == HoldBy.Vacuum ? solution.Held.Put : 0,
            MagnetsOnly = job.HoldBy == HoldBy.Magnets ? solution.Held.Put : null,
            Stopping = solution.Held.Stopping,
        };
    }

    /// <summary>Every key that can be left open, as the job file would state it in the job's own unit.</summary>
    /// <param name="job">As it was solved.</param>
    /// <param name="magnets">How many there are.</param>
    public static ImmutableArray<SolvedKey> Keys(Job job, int magnets)
    {
        return
        [
            Key("shop.blank", Text(job.Blank.Name), OpenKeys.Blank),
            .. job.HoldBy == HoldBy.Magnets
                ? Array.Empty<SolvedKey>()
                : [Key("shop.gasket", Text(job.Gasket.Name), OpenKeys.Gasket)],
            Key("shop.magnet", Text(job.Magnet.Name), OpenKeys.Magnet),
            Key("shop.trim_tool", Text(job.TrimTool.Name), OpenKeys.TrimTool),
            Key("magnets.count", Inv($"{magnets}"), OpenKeys.Count),
            Key("trim.passes", Inv($"{job.TrimPasses}"), OpenKeys.Passes),
            Key("trim.rpm", Inv($"{job.TrimRpm:0.###}"), OpenKeys.Rpm),
            Key("trim.feed", Inv($"\"{job.TrimFeedMmPerMin:0.###} mm/min\""), OpenKeys.Feed),
            .. job.Locator == LocatorKind.Pins ? new[] { Key("locator.pins", Pins(job), OpenKeys.Pins) } : [],
        ];

        SolvedKey Key(string key, string value, OpenKeys flag) => new(key, value, !job.Open.HasFlag(flag));
    }

    /// <summary>As a list of places in the job's unit, which the drawing's frame has.</summary>
    private static string Pins(Job job)
    {
        double unit = job.DisplayUnit == LengthUnit.Inch ? Units.MmPerInch : 1;
        return "["
            + string.Join(", ", job.LocatorPins.Select(p => Inv($"[{p.X / unit:0.####}, {p.Y / unit:0.####}]")))
            + "]";
    }

    private static string Text(string name) => $"\"{name}\"";

    private static string Inv(FormattableString s) => s.ToString(CultureInfo.InvariantCulture);
}
