using FixtureGen.Model;

namespace FixtureGen.Cutting;

/// <summary>
/// How a cutter runs in the shell: a slot of its width; the job may state speed, feed and passes of its trim cutter itself, and a second,
/// thinner one runs by the charts alone. Paths and forces are both made from this.
/// </summary>
internal static class TrimFeeds
{
    /// <summary>A mill goes down by so much in a turn at the least, mm (common practice, no source).</summary>
    private const double LeastPlunge = 0.002;

    public static CutData For(Job job, Tool tool)
    {
        CutData data = Feeds.For(
            tool,
            Stepped(job, tool),
            job.Plate.Machine,
            tool.Diameter,
            job.Shell.ThicknessMax + job.Rules.TipBelowShell
        );
        if (Second(job, tool))
        {
            return data with { Plunge = Math.Min(data.Plunge, Sideways(job, tool, data, data.ChipLoad) * data.Rpm) };
        }
        double rpm = job.TrimRpm ?? data.Rpm;
        double feed = job.TrimFeedMmPerMin ?? data.Feed;
        string limit = (job.TrimRpm, job.TrimFeedMmPerMin) switch
        {
            (null, null) => data.LimitedBy,
            (null, _) => data.LimitedBy.Split(';')[0] + "; feed as the job says",
            (_, null) => "speed as the job says; feed in proportion",
            _ when job.Open.HasFlag(OpenKeys.Feed) => "speed and feed as the hold allows",
            _ => "speed and feed as the job says",
        };
        if (job.TrimRpm is not null && job.TrimFeedMmPerMin is null)
        {
            feed = Math.Min(job.Plate.Machine.MaxFeedMmPerMin, Math.Floor(data.ChipLoad * tool.Flutes * rpm / 10) * 10);
        }
        double chip = feed / (rpm * tool.Flutes);
        return data with
        {
            Rpm = rpm,
            Feed = feed,
            Plunge = Math.Min(Math.Min(data.Plunge, Feeds.PlungeFor(feed)), Sideways(job, tool, data, chip) * rpm),
            ChipLoad = chip,
            LimitedBy = limit,
        };
    }

    private static bool Second(Job job, Tool tool) => tool.Diameter < job.TrimTool.Diameter - 1e-9;

    /// <summary>
    /// The way down in a turn at which a mill's lip, which pushes sideways with up to half of what it cuts, pushes no more than the passes
    /// do, mm a turn: thin passes are no use where the plunge between them pushes the shell away.
    /// </summary>
    private static double Sideways(Job job, Tool tool, CutData data, double chip) =>
        Math.Max(LeastPlunge, 2 * PassDepth(job, data) * chip * tool.Flutes / tool.Radius);

    /// <summary>The shell's material with the step-down that the job's own number of passes asks for.</summary>
    private static Material Stepped(Job job, Tool tool) =>
        job.TrimPasses is { } passes && !Second(job, tool)
            ? job.ShellMaterial with
            {
                StepDownRatio = job.Shell.ThicknessMax / passes / tool.Diameter,
            }
            : job.ShellMaterial;

    /// <summary>
    /// Depths of the passes below the top of the thickest shell, mm: equal passes through it; the last goes on by
    /// <paramref name="below"/> into the relief, where there is only air.
    /// </summary>
    public static IEnumerable<double> Depths(double thickness, double below, double stepDown)
    {
        double[] through = [.. Passes.Down(0, -thickness, stepDown)];
        return through[..^1].Append(-(thickness + below)).Select(z => -z);
    }

    /// <summary>What one pass takes of the thickest shell, mm.</summary>
    public static double PassDepth(Job job, CutData data) =>
        job.Shell.ThicknessMax / Passes.Count(job.Shell.ThicknessMax, data.StepDown);
}
