using FixtureGen.Model;

namespace FixtureGen.Toolpaths;

/// <summary>How the trim cutter runs in the shell: a slot of the cutter's width; the job may state speed and feed itself.</summary>
internal static class TrimFeeds
{
    public static CutData For(Job job)
    {
        Tool tool = job.TrimTool;
        double deep = job.Shell.ThicknessMax + job.Rules.TipBelowShell;
        CutData data = Feeds.For(tool, job.ShellMaterial, job.Plate.Machine, tool.Diameter, deep);
        double rpm = job.TrimRpm ?? data.Rpm;
        double feed = job.TrimFeedMmPerMin ?? data.Feed;
        string limit = (job.TrimRpm, job.TrimFeedMmPerMin) switch
        {
            (null, null) => data.LimitedBy,
            (null, _) => data.LimitedBy.Split(';')[0] + "; feed as the job says",
            (_, null) => "speed as the job says; feed in proportion",
            _ => "speed and feed as the job says",
        };
        if (job.TrimRpm is not null && job.TrimFeedMmPerMin is null)
        {
            feed = Math.Min(job.Plate.Machine.MaxFeedMmPerMin, Math.Floor(data.ChipLoad * tool.Flutes * rpm / 10) * 10);
        }
        return data with
        {
            Rpm = rpm,
            Feed = feed,
            Plunge = Math.Min(data.Plunge, feed),
            ChipLoad = feed / (rpm * tool.Flutes),
            LimitedBy = limit,
        };
    }
}
