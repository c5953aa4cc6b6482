using System.Collections.Immutable;
using FixtureGen.Cutting;
using FixtureGen.Design;
using FixtureGen.Geometry;
using FixtureGen.Holding;
using FixtureGen.Holding.Magnets;
using FixtureGen.Holding.Seal;
using FixtureGen.Model;
using FixtureGen.Solve;
using FixtureGen.Solve.Search;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

/// <summary>Holds that were once judged on the favourable side, each as it was found.</summary>
public sealed class FoundHoldsTest
{
    /// <summary>A job as it was asked then: every value known exactly, three passes, friction of a clean block.</summary>
    private static Job Exact(string name, double friction, int passes = 3)
    {
        Job job = DemoDesign.Job(name);
        return job with
        {
            TrimPasses = passes,
            ShellFriction = friction,
            Gasket = job.Gasket with { GrooveDepthTolerance = 0 },
            Vacuum = job.Vacuum with { AlarmToleranceKPa = 0 },
        };
    }

    // An independent calculation of the same three jobs: seal and cord from areas and lengths of the drawing, load from the chip, and
    // vacuum alone by a search over the centre of rotation. The program may be below it, for it tries the edge-loaded pressure and
    // every position of the edge; never above by more than 2 %.
    [Theory]
    [InlineData("pruner-sheath", 0.20, 3.03)]
    [InlineData("trowel-sheath", 0.20, 9.14)]
    [InlineData("plumb-pouch", 0.25, 5.82)]
    [Trait("Speed", "Slow")]
    public void Vacuum_alone_is_what_another_calculation_finds_or_a_little_less(
        string name,
        double friction,
        double other
    )
    {
        HoldingResult r = DemoDesign.Held(name, Exact(name, friction)).Held;
        Assert.InRange(r.VacuumOnly.Factor, 0.85 * other, 1.02 * other);
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void Forces_of_the_pruner_sheath_are_what_another_calculation_finds()
    {
        Job job = Exact("pruner-sheath", 0.20);
        HoldingResult r = DemoDesign.Held("pruner-sheath", job).Held;
        CutForce force = TrimChip.Cutting(job, job.TrimTool);
        Assert.Equal(394.22, r.SealedForceN, 0.02 * 394.22);
        Assert.Equal(64.66, r.GasketForceN, 0.02 * 64.66);
        Assert.Equal(9.39, force.Shear, 0.02 * 9.39);
        Assert.Equal(3.22, force.Axial, 0.02 * 3.22);
    }

    // 1.20, 1.68, 1.20, 1.44 once: the soft end of the cord was taken in one state of the lift and the hard end in the other.
    [Theory]
    [InlineData("pruner-sheath", 3, 6)]
    [InlineData("stake-holder", 2, 5)]
    [InlineData("label-clip", 1, 4)]
    [Trait("Speed", "Slow")]
    public void A_magnet_more_never_lowers_the_best_factor(string name, int from, int to)
    {
        Job job = DemoDesign.Job(name) with { Magnets = [] };
        double put = 0;
        double stays = 0;
        for (int count = from; count <= to; count++)
        {
            HoldAnswer now = DemoDesign.Held(name, job with { MagnetCount = count }).Held.MagnetsStopping;
            Assert.True(
                now.Factor >= put * (1 - 5e-3),
                FormattableString.Invariant($"{count}: {now.Factor} after {put}")
            );
            Assert.True(
                now.Stays >= stays * (1 - 2e-2),
                FormattableString.Invariant($"{count}: {now.Stays} after {stays}")
            );
            (put, stays) = (now.Factor, now.Stays);
        }
    }

    // Narrowing the cord's range inside its grade once took the stake holder from 2.01 to 0.84.
    [Theory]
    [InlineData(13.8, 20)]
    [InlineData(20, 34.5)]
    [InlineData(24, 26)]
    [Trait("Speed", "Slow")]
    public void A_cord_known_better_holds_no_worse(double least, double greatest)
    {
        Job job = DemoDesign.Job("stake-holder");
        (FixtureDesign design, HoldingResult wide) = DemoDesign.Held("stake-holder", job);
        Job narrow = job with { Gasket = job.Gasket with { P25MinKPa = least, P25MaxKPa = greatest } };
        HoldingResult known = HoldingAnalysis.Context(design, narrow, Tolerances.House).Value!.Evaluate(design.Magnets);
        Assert.True(known.MagnetsStopping.Factor >= wide.MagnetsStopping.Factor * (1 - 3e-3));
        Assert.True(known.MagnetsStopping.Stays >= wide.MagnetsStopping.Stays * (1 - 2e-2));
    }

    // A part of 40 x 25 mm was made with factors of 0.06 and 0.00, with the direction of the cutter that holds less.
    [Fact]
    public void A_small_part_that_would_move_is_refused_with_the_better_cutter_whatever_the_job_accepts()
    {
        string text = DemoShop
            .PlainJob(
                more: """
                [locator]
                by = "hand"
                [hold]
                accept_low_hold = "only a trial"
                [magnets]
                count = 0
                [trim]
                passes = 3
                rpm = 22000
                feed = "1670 mm/min"
                """
            )
            .Replace("gasket = \"sponge-1-8\"", "gasket = \"sponge-3-32\"", StringComparison.Ordinal)
            .Replace("trim_tool = \"trim-1-8-up\"", "", StringComparison.Ordinal);
        Job job = DemoShop.Job(text);
        Part part = HeldDesigns.Part(Contours.RoundedRectangle(new Box2(0, 0, 50, 36), 9));
        Draft draft = DemoDesign
            .Good(JobSolver.Solve(part, job, _ => Stage.Answer(job), Tolerances.House, costs: false))
            .Draft;
        FixtureDesign design = DemoDesign.Good(
            Designer.Finish(draft.Begun.Value!, draft.Magnets.Value, draft.Job, Tolerances.House)
        );
        Stage<HoldingResult> stage = HoldJudgement.Evaluate(design, draft.Job);
        Assert.True(stage.Value!.VacuumOnly.Factor < 1);
        Assert.All(
            new[] { "hold-vacuum-low", "hold-magnets-low" },
            code => Assert.Equal(Severity.Error, stage.Findings.Single(f => f.Code == code).Severity)
        );
        foreach (Tool tool in job.Tools.Where(t => t.Name.StartsWith("trim-1-8", StringComparison.Ordinal)))
        {
            ImmutableArray<TrimCut> cuts = [.. design.TrimCuts.Select(c => c with { Tool = tool })];
            double other = HoldingAnalysis
                .Context(design with { TrimCuts = cuts }, draft.Job with { TrimTool = tool }, Tolerances.House)
                .Value!.Evaluate([])
                .VacuumOnly.Factor;
            Assert.True(stage.Value.VacuumOnly.Factor >= other * (1 - 1e-3), tool.Name);
        }
    }

    // 75.06 N of pull parked against 75.09 N of push: nothing is to be gained there.
    [Fact]
    [Trait("Speed", "Slow")]
    public void Pull_that_just_misses_the_push_holds_no_better_than_pull_that_just_beats_it()
    {
        Job job = DemoDesign.Job("stake-holder");
        (FixtureDesign design, HoldingResult own) = DemoDesign.Held("stake-holder", job);
        double pull = own.MagnetForceN * (1 - StoppingLoad.PullLost);
        double length = design.Cords.Sum(c => Measure.Length(c.Centre));
        double balance = pull / length / CordForce.HardestNPerMm(job.Gasket, 0) * job.Gasket.P25MaxKPa;
        double[] factors =
        [
            .. new[] { 0.999, 1.001 }.Select(side =>
            {
                Gasket cord = job.Gasket with { P25MaxKPa = Math.Max(job.Gasket.P25MinKPa, balance * side) };
                return HoldingAnalysis
                    .Context(design, job with { Gasket = cord }, Tolerances.House)
                    .Value!.StoppingFactor([.. design.Magnets.Select(m => m.At)]);
            }),
        ];
        Assert.Equal(factors[0], factors[1], 0.02 * factors[0]);
    }
}
