using FixtureGen.Cutting;
using FixtureGen.Model;

namespace FixtureGen.Solve.Search;

/// <summary>How the trim may run: passes through the shell, spindle speed (rev/min) and feed (mm/min).</summary>
internal readonly record struct TrimSpeed(int Passes, double Rpm, double FeedMmPerMin)
{
    /// <summary>The job with this way of trimming, as if it stated it.</summary>
    public Job In(Job job) => job with { TrimPasses = Passes, TrimRpm = Rpm, TrimFeedMmPerMin = FeedMmPerMin };

    /// <summary>Chip cross-section, mm2: depth of a pass times feed a tooth. Every cutting force of the trim is in proportion to it.</summary>
    public double Chip(Job job, Tool tool) => job.Shell.ThicknessMax / Passes * FeedMmPerMin / (Rpm * tool.Flutes);
}

/// <summary>
/// The ways a cutter may run in a shell: for each number of passes the middle of the charts, then ever slower feeds with the
/// spindle as fast as the material's range lets it, which thins the chip to the least that does not rub, and at last slower
/// feeds and speeds at that chip, which only shorten the way to a stop. Never faster than the middle of the charts. What the
/// job states of passes, speed and feed is honoured.
/// </summary>
internal static class TrimSpeeds
{
    /// <summary>More passes than this take longer than any shop would wait (common practice, no source).</summary>
    public const int MostPasses = 12;

    /// <summary>Feeds and speeds are whole steps of this, mm/min and rev/min.</summary>
    private const double Step = 10;

    /// <summary>Speeds and feeds in whole steps miss a chip by less than this share. A thinner one rubs: no cutter is chosen for it.</summary>
    private const double Rounding = 0.02;

    /// <summary>All of them for the job's trim cutter, the fewest passes first and the fastest feed first.</summary>
    public static IEnumerable<TrimSpeed> Ladder(Job job)
    {
        int fewest = FewestPasses(job);
        int most = job.Open.HasFlag(OpenKeys.Passes) ? Math.Max(MostPasses, fewest) : fewest;
        for (int passes = fewest; passes <= most; passes++)
        {
            foreach (TrimSpeed speed in InPasses(job, passes))
            {
                yield return speed;
            }
        }
    }

    /// <summary>What the cutter's own limits allow, or what the job states; the material's step-down is a rule of thumb that the hold replaces.</summary>
    private static int FewestPasses(Job job)
    {
        Job once = job.Open.HasFlag(OpenKeys.Passes) ? job with { TrimPasses = 1 } : job;
        return Passes.Count(job.Shell.ThicknessMax, TrimFeeds.For(once, job.TrimTool).StepDown);
    }

    private static IEnumerable<TrimSpeed> InPasses(Job job, int passes)
    {
        Tool tool = job.TrimTool;
        CutData chart = TrimFeeds.For(job with { TrimPasses = passes }, tool);
        TrimSpeed first = new(passes, chart.Rpm, chart.Feed);
        double lightest = Feeds.ChipLoadRange(tool, job.ShellMaterial).Least;
        if (!job.Open.HasFlag(OpenKeys.TrimTool) || chart.ChipLoad >= lightest * (1 - Rounding))
        {
            yield return first;
        }
        (bool feedOpen, bool rpmOpen) = (job.Open.HasFlag(OpenKeys.Feed), job.Open.HasFlag(OpenKeys.Rpm));
        double least = lightest * tool.Flutes;
        double fastest = rpmOpen ? Math.Max(chart.Rpm, Fastest(job, tool)) : chart.Rpm;
        double slowest = feedOpen ? Math.Ceiling(least * chart.Rpm / Step) * Step : chart.Feed;
        for (double feed = chart.Feed; feed >= slowest && least > 0; feed -= Step)
        {
            double rpm = Math.Min(fastest, Math.Floor(feed / least / Step) * Step);
            TrimSpeed slower = new(passes, Math.Max(rpm, chart.Rpm), feed);
            if (slower != first)
            {
                yield return slower;
            }
        }
    }

    private static double Fastest(Job job, Tool tool)
    {
        double rpm = Math.Min(
            Feeds.Rpm(job.ShellMaterial.MaxSpeedMPerMin, tool.Diameter),
            job.Plate.Machine.MaxSpindleRpm
        );
        rpm = tool.MaxRpm > 0 ? Math.Min(rpm, tool.MaxRpm) : rpm;
        return Math.Floor(rpm / Step) * Step;
    }
}
