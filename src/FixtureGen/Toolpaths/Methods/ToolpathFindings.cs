using System.Globalization;
using FixtureGen.Model;

namespace FixtureGen.Toolpaths.Methods;

/// <summary>All findings of the toolpath planner.</summary>
internal static class ToolpathFindings
{
    public static Finding NoTool(Feature feature, Frame frame)
    {
        double floor = feature.Removals.Min(r => r.FloorZ);
        string what = feature switch
        {
            GrooveFeature g => $"a groove {Mm(g.Width)} mm wide",
            HoleFeature h => $"a hole of {Mm(h.Diameter)} mm",
            EngravingFeature => "lettering",
            _ => "a pocket",
        };
        string tools = string.Join(", ", frame.Job.Tools.Select(t => t.Name));
        return new(
            "no-tool-fits",
            Severity.Error,
            feature.Name,
            $"No tool of the job makes {feature.Name}, {what} with its floor {Mm(frame.Heights.Face - floor)} mm below the face (tools: {tools}).",
            feature is EngravingFeature
                ? "Add an engraver to the job's tools."
                : "Add an end mill that is no wider than it, with flutes or a thin shank long enough."
        );
    }

    public static Finding NoDrillChart(Job job) =>
        new(
            "drill-chart-missing",
            Severity.Note,
            job.BlockMaterial.Name,
            $"The file of {job.BlockMaterial.Name} has no drilling chart, so the {job.Tools.Count(t => t.Kind == ToolKind.Drill)} drills of the rack are left alone and holes are milled.",
            "Add [drill] and [[drill_feed]] rows to the material's file where its holes may be drilled."
        );

    /// <summary>Why a face mill of the rack is left alone: no chart, too fast at the spindle's least speed, no room to come down.</summary>
    public static Finding FaceMillUnused(Tool tool, Job job)
    {
        Machine machine = job.Plate.Machine;
        double least = Math.PI * tool.Diameter * machine.MinSpindleRpm / 1000;
        (string why, string remedy) = job.BlockMaterial.Facing switch
        {
            null => (
                $"the file of {job.BlockMaterial.Name} has no facing chart",
                "Add [face] with speed_from, speed_to, chip_from and chip_to to the material's file where its faces may be skimmed with it."
            ),
            { } chart when least > chart.MaxSpeedMPerMin => (
                FormattableString.Invariant(
                    $"at the spindle's least {machine.MinSpindleRpm:0} rev/min its teeth run at {least:0} m/min, {job.BlockMaterial.Name} takes {chart.MaxSpeedMPerMin:0}"
                ),
                $"Take one of at most {Mm(Math.Floor(chart.MaxSpeedMPerMin * 1000 / (Math.PI * machine.MinSpindleRpm)))} mm."
            ),
            _ => (
                "the machine's travel in Y ends before it is off the block",
                "Take a smaller one, or see whether travel_y of the plate's file is right."
            ),
        };
        return new(
            "face-mill-unused",
            Severity.Note,
            tool.Name,
            $"{tool.Name} is left alone and the face is skimmed by an end mill: {why}.",
            remedy
        );
    }

    public static Finding NoSkim(double raw, double fixtureHeight, double least) =>
        new(
            "nothing-to-skim",
            Severity.Error,
            "blank thickness",
            $"The block is {Mm(raw)} mm thick and the fixture {Mm(fixtureHeight)} mm high: {Mm(least - (raw - fixtureHeight))} mm less than the least skim of {Mm(least)} mm.",
            "Measure the block again, state a lower fixture height, or take a thicker block."
        );

    private static string Mm(double value) => value.ToString("0.###", CultureInfo.InvariantCulture);
}
