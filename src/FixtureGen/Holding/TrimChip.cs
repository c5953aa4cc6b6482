using FixtureGen.Model;

namespace FixtureGen.Holding;

/// <summary>Cutting force of the production trim: what one pass takes of the shell's greatest thickness, a slot of the cutter's width.</summary>
internal static class TrimChip
{
    public static CutForce Cutting(Job job, Tool tool) =>
        CuttingForce.Peak(
            tool,
            job.ShellMaterial,
            PassDepth(job, tool),
            tool.Diameter,
            FeedPerTooth(job, tool),
            job.DullFactor
        );

    /// <summary>
    /// What one pass takes of the shell, mm: the way from the thickest shell's top to the tip's lowest place in equal
    /// passes, none deeper than the step-down of material and tool.
    /// </summary>
    public static double PassDepth(Job job, Tool tool)
    {
        double way = job.Shell.ThicknessMax + job.Rules.TipBelowShell;
        double stepDown = Math.Min(
            job.ShellMaterial.StepDownRatio * tool.Diameter,
            Math.Min(tool.MaxStepDown > 0 ? tool.MaxStepDown : tool.FluteLength, tool.FluteLength)
        );
        double passes = Math.Max(1, Math.Ceiling((way / stepDown) - 1e-9));
        return Math.Min(job.Shell.ThicknessMax, way / passes);
    }

    /// <summary>
    /// A mark's groove: the engraver's width at its depth, at the chip load of a cutter twice as wide (a point runs at half
    /// engagement). Its cone presses the shell down, which is not counted.
    /// </summary>
    public static CutForce Engraving(Job job, Tool tool)
    {
        double depth = job.Rules.EngraveDepth;
        double width = tool.TipDiameter + (2 * depth * Math.Tan(tool.TipAngleDeg * Math.PI / 360));
        Tool atDepth = tool with { Diameter = width, Helix = HelixDirection.Straight };
        return CuttingForce.Peak(atDepth, job.ShellMaterial, depth, width, ChartMiddle(job, 2 * width), job.DullFactor);
    }

    /// <summary>Feed a tooth as the job states it, else the middle of the material's chip-load range, which the machine's limits only lower; mm.</summary>
    public static double FeedPerTooth(Job job, Tool tool) =>
        (job.TrimFeedMmPerMin, job.TrimRpm) switch
        {
            ({ } feed, { } rpm) => feed / (rpm * tool.Flutes),
            ({ } feed, null) => feed / (SlowestRpm(job, tool) * tool.Flutes),
            _ => ChartMiddle(job, tool.Diameter),
        };

    private static double SlowestRpm(Job job, Tool tool)
    {
        Machine machine = job.Plate.Machine;
        Material shell = job.ShellMaterial;
        double middle = (shell.MinSpeedMPerMin + shell.MaxSpeedMPerMin) / 2;
        double rpm = 1000 * middle / (Math.PI * tool.Diameter);
        rpm = Math.Min(rpm, machine.MaxSpindleRpm);
        rpm = tool.MaxRpm > 0 ? Math.Min(rpm, tool.MaxRpm) : rpm;
        double atMostFeed = machine.MaxFeedMmPerMin / (tool.Flutes * ChartMiddle(job, tool.Diameter));
        return Math.Max(machine.MinSpindleRpm, Math.Min(rpm, atMostFeed));
    }

    private static double ChartMiddle(Job job, double diameter)
    {
        ChipLoad[] rows = [.. job.ShellMaterial.ChipLoads.OrderBy(r => r.Diameter)];
        double Middle(ChipLoad row) => (row.MinMm + row.MaxMm) / 2;
        if (diameter <= rows[0].Diameter)
        {
            return Middle(rows[0]) * diameter / rows[0].Diameter;
        }
        int next = Array.FindIndex(rows, r => r.Diameter >= diameter);
        if (next < 0)
        {
            return Middle(rows[^1]);
        }
        double t = (diameter - rows[next - 1].Diameter) / (rows[next].Diameter - rows[next - 1].Diameter);
        return Middle(rows[next - 1]) + (t * (Middle(rows[next]) - Middle(rows[next - 1])));
    }
}
