using FixtureGen.Design;
using FixtureGen.Drawing;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Drawing.Roles;
using FixtureGen.Model;
using FixtureGen.Solve;
using FixtureGen.Solve.Search;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

/// <summary>
/// Upcut, straight or downcut by what holds the shell. That an upcut lifts and clears its slot while a downcut presses and packs
/// chips, which weld thermoplastics together, is what introductions to router cutters say: common practice, no source.
/// </summary>
public sealed class TrimCutterTest(ITestOutputHelper output)
{
    private static readonly string Clip = Path.Combine(DemoShop.Root, "outlines", "label-clip");

    /// <summary>
    /// An edge so dull that the upcut just misses its limit on vacuum, by 1 %: what presses or does not lift then still holds.
    /// </summary>
    private static double TooDullForAnUpcut() =>
        1.01 * Dull * Chosen(Job("trim-1-8-up", Dull)).Direction.Trials[0].VacuumOnly / 2;

    private const double Dull = 1.5;

    /// <summary>The clip's job, its cutter left open or named, on a block of known friction, its edges duller than the shop's.</summary>
    private static Job Job(string? cutter, double dull)
    {
        string text = File.ReadAllText(DemoShop.StatedJob("label-clip"))
            .Replace(
                "trim_tool = \"trim-1-8-up\"",
                cutter is null ? "" : $"trim_tool = \"{cutter}\"",
                StringComparison.Ordinal
            );
        Job job = DemoShop.Job(text, "label-clip");
        // of one diameter, so that only the direction differs
        return job with
        {
            DullFactor = dull,
            ShellFriction = 0.3,
            Tools = [.. job.Tools.Where(t => t.Flutes != 1 || t.Diameter > 3)],
        };
    }

    private static (Job Job, CutDirection Direction) Chosen(Job job)
    {
        Tolerances t = Tolerances.House;
        DrawingContent drawing = DxfReader
            .Read(File.ReadAllBytes(Clip + ".dxf"), "label-clip.dxf", job.DrawingUnit, t)
            .Value!;
        Part part = PartBuilder.Build(drawing, job).Value!;
        Draft draft = JobSolver.Solve(part, job, _ => Stage.Answer(job), t, costs: false).Value!.Draft;
        Job chosen = draft.Job;
        FixtureDesign design = Designer.Finish(draft.Begun.Value!, draft.Magnets.Value, chosen, t).Value!;
        HoldingResult held = HoldJudgement.Evaluate(design, chosen, t).Value!;
        return (chosen, TrimCutter.Compare(design, chosen, held, t));
    }

    private (Job Job, CutDirection Direction) Told(Job job)
    {
        (Job Job, CutDirection Direction) chosen = Chosen(job);
        output.WriteLine(chosen.Direction.Reason);
        return chosen;
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void An_open_cutter_is_an_upcut_while_the_hold_allows_it()
    {
        (Job job, CutDirection d) = Told(Job(null, Dull));

        Assert.Equal("trim-1-8-up", job.TrimTool.Name);
        Assert.False(d.Stated);
        Assert.Equal(HelixDirection.Up, d.Helix);
        Assert.Equal([HelixDirection.Up, HelixDirection.Straight, HelixDirection.Down], d.Trials.Select(t => t.Helix));
        Assert.Contains("chips leave the slot upwards", d.Reason, StringComparison.Ordinal);
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void Where_only_a_cutter_that_does_not_lift_is_held_it_is_chosen_and_the_upcut_s_factors_are_told()
    {
        (Job job, CutDirection d) = Told(Job(null, TooDullForAnUpcut()));

        Assert.NotEqual(HelixDirection.Up, job.TrimTool.Helix);
        Assert.Equal(job.TrimTool.Helix, d.Helix);
        Assert.False(d.Trials[0].MeetsLimits);
        Assert.True(d.Trials.First(t => t.Helix == d.Helix).MeetsLimits);
        Assert.Contains("Upcut would: pulls the shell up", d.Reason, StringComparison.Ordinal);
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void A_named_cutter_is_honoured_and_the_better_one_is_named()
    {
        (Job job, CutDirection d) = Told(Job("trim-1-8-up", TooDullForAnUpcut()));

        Assert.Equal("trim-1-8-up", job.TrimTool.Name);
        Assert.True(d.Stated);
        Assert.Contains("as the job says", d.Reason, StringComparison.Ordinal);
        Assert.Matches("Take (a straight one|a downcut) \\(trim-1-8-(straight|down)\\): it holds\\.$", d.Reason);
    }

    [Fact]
    public void A_named_downcut_that_an_upcut_could_replace_says_so()
    {
        (_, CutDirection d) = Told(Job("trim-1-8-down", Dull));

        Assert.Equal(HelixDirection.Down, d.Helix);
        Assert.Contains("packs its chips", d.Reason, StringComparison.Ordinal);
        Assert.EndsWith(
            "Upcut (trim-1-8-up) would hold too and clear the slot better.",
            d.Reason,
            StringComparison.Ordinal
        );
    }

    // The thrust of a helical edge is its tangential force times the tangent of the helix angle: Machinery's Handbook, helical
    // gears, end thrust (from memory); the same edge turned the other way pushes back as much. Up lifts by what down presses.
    [Fact]
    public void Pull_is_the_tangential_force_times_the_tangent_of_the_helix_and_turns_its_sign_with_it()
    {
        (Job job, CutDirection d) = Told(Job("trim-1-8-up", Dull));
        Tool tool = job.TrimTool;
        double chip = job.TrimFeedMmPerMin!.Value / (job.TrimRpm!.Value * tool.Flutes);
        double ratio = job.ShellMaterial.StepDownRatio * tool.Diameter;
        double depth = job.Shell.ThicknessMax / (job.TrimPasses ?? Math.Ceiling(job.Shell.ThicknessMax / ratio));
        double tangential = job.ShellMaterial.SpecificForceMax * job.DullFactor * depth * chip;

        Assert.Equal(tangential * Math.Tan(21 * Math.PI / 180), d.Trials[0].AxialN, 1e-9);
        Assert.Equal(0, d.Trials[1].AxialN);
        Assert.Equal(-d.Trials[0].AxialN, d.Trials[2].AxialN, 1e-9);
        Assert.True(d.Trials[0].VacuumOnly < d.Trials[1].VacuumOnly);
        Assert.True(d.Trials[1].VacuumOnly < d.Trials[2].VacuumOnly);
        Assert.True(d.Trials[0].MagnetsStopping < d.Trials[2].MagnetsStopping);
    }
}
