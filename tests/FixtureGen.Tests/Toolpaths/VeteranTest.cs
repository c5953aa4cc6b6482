using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Holding.Block;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using FixtureGen.Toolpaths;
using Xunit;

namespace FixtureGen.Tests.Toolpaths;

/// <summary>What a machinist found in the demo programs, one fact each: passes that cut twice, lifts for nothing, wrong tools.</summary>
[Trait("Speed", "Slow")]
public sealed class VeteranTest
{
    public static TheoryData<string> Jobs => ["pruner-sheath", "label-clip", "prism-pouch"];

    /// <summary>The relief was 4.175 mm wide for a cutter of 3.97: every level was cut twice.</summary>
    [Theory]
    [MemberData(nameof(Jobs))]
    public void The_outline_s_relief_is_as_wide_as_its_cutter_and_cut_once_at_every_depth(string name)
    {
        (Job job, FixtureDesign design, ImmutableArray<ProgramPlan> plans) = Planned(name);
        PocketFeature relief = design.Features.OfType<PocketFeature>().Single(f => f.Kind == FeatureKind.Relief);
        Operation cut = Operations(plans, Setup.Top).First(o => o.Name == "relief");

        Assert.Equal(relief.OnePass!.Width, cut.Tool.Diameter, 3);
        Assert.True(cut.Tool.Diameter >= job.TrimTool.Diameter + (2 * job.Rules.SideClearance));
        int passes = cut.Moves.Select(m => m.To.Z).Where(z => z < relief.TopZ - 1e-6).Distinct().Count();
        double once =
            Measure.Length(relief.OnePass.Loop)
            + (2 * Measure.Length(relief.OnePass.WayOut))
            + (2 * relief.OnePass.Branches.Sum(Measure.Length));
        Assert.InRange(Way(cut.Moves), 0.9 * passes * once, 1.1 * passes * once);
    }

    /// <summary>Between the passes of one contour the tool goes over the shell's face, not up over jackets and pins, and ramps down.</summary>
    [Theory]
    [MemberData(nameof(Jobs))]
    public void A_trim_contour_is_not_left_between_its_passes_and_never_plunged_into(string name)
    {
        (Job job, FixtureDesign design, ImmutableArray<ProgramPlan> plans) = Planned(name);
        double face = design.FixtureHeight + job.Shell.ThicknessMax;
        Operation outline = Operations(plans, Setup.Trim).Single(o => o.Kind == OperationKind.TrimOutline);
        double high = outline.Moves[0].To.Z;
        Assert.Equal(1, outline.Moves.Skip(1).OfType<RapidMove>().Count(m => Math.Abs(m.To.Z - high) < 1e-6));
        Point3 at = outline.Moves[0].To;
        double floor = face;
        foreach (Move move in outline.Moves.Skip(1))
        {
            bool straight = move.To.Xy.DistanceTo(at.Xy) < 1e-6 && move.To.Z < at.Z - 1e-6;
            Assert.True(!straight || move.To.Z > floor, "straight down into the shell");
            at = move.To;
            floor = Math.Min(floor, at.Z);
        }
    }

    /// <summary>A net hangs together: the tool goes along it from branch to branch and is lifted once.</summary>
    [Fact]
    public void A_net_is_cut_without_a_lift()
    {
        Operation net = Operations(Planned("pruner-sheath").Plans, Setup.Top).Single(o => o.Name == "vacuum net");
        double hop = net.Moves.OfType<RapidMove>().Skip(1).Min(m => m.To.Z);
        int first = net.Moves.ToList().FindIndex(m => m is LineMove);
        int last = net.Moves.ToList().FindLastIndex(m => m is LineMove or ArcMove);
        Assert.DoesNotContain(net.Moves[first..last], m => m is RapidMove || m.To.Z > hop + 1e-6);
    }

    /// <summary>Two holes of 4 mm in aluminium took 108 s by a helix.</summary>
    [Fact]
    public void Blind_holes_in_aluminium_are_drilled_before_they_are_bored()
    {
        (Job job, _, ImmutableArray<ProgramPlan> plans) = Planned("label-clip");
        Assert.False(job.BlockMaterial.IsPlastic);
        Operation[] holes =
        [
            .. Operations(plans, Setup.Top).Where(o => o.Name.StartsWith("locator holes", StringComparison.Ordinal)),
        ];
        Assert.Equal([OperationKind.Drill, OperationKind.Bore], holes.Select(o => o.Kind));
        double floor = holes[1].Moves.Min(m => m.To.Z);
        Assert.All(holes[0].Moves.OfType<DrillMove>(), d => Assert.True(d.BottomZ > floor));
        double[] seconds = [.. holes.Select(o => CycleTime.Seconds(o.Moves, job.Plate.Machine))];
        Assert.True(
            seconds.Sum() < 70,
            string.Join(' ', holes.Zip(seconds, (o, s) => FormattableString.Invariant($"{o.Tool.Name} {s:0}")))
        );
    }

    /// <summary>S13260 and then S13330: a step that changes nothing but the spindle's tune.</summary>
    [Theory]
    [MemberData(nameof(Jobs))]
    public void A_tool_has_no_two_speeds_that_hardly_differ(string name)
    {
        foreach (
            IGrouping<int, Operation> tool in Operations(Planned(name).Plans, Setup.Top).GroupBy(o => o.Tool.Number)
        )
        {
            double[] speeds = [.. tool.Select(o => o.SpindleRpm).Distinct().Order()];
            Assert.All(speeds.Zip(speeds.Skip(1)), p => Assert.True(p.Second > 1.015 * p.First, $"{p}"));
        }
    }

    private static (Job Job, FixtureDesign Design, ImmutableArray<ProgramPlan> Plans) Planned(string name)
    {
        (Job job, FixtureDesign design) = DemoDesigns.Of(name);
        return (
            job,
            design,
            DemoDesign.Good(OperationPlanner.Plan(design, job, new BlockHolding(design, job), Tolerances.House))
        );
    }

    private static IEnumerable<Operation> Operations(ImmutableArray<ProgramPlan> plans, Setup setup) =>
        plans.Single(p => p.Setup == setup).Steps.Select(s => s.Operation).OfType<Operation>();

    /// <summary>Way at feed in the flat, mm.</summary>
    private static double Way(IReadOnlyList<Move> moves)
    {
        double sum = 0;
        for (int i = 1; i < moves.Count; i++)
        {
            Point2 from = moves[i - 1].To.Xy;
            sum += moves[i] switch
            {
                LineMove line => from.DistanceTo(line.To.Xy),
                ArcMove arc => Segment.Arc(from, arc.To.Xy, arc.Centre, arc.Ccw).Length,
                _ => 0,
            };
        }
        return sum;
    }
}
