using System.Collections.Immutable;
using FixtureGen.Holding.Block;
using FixtureGen.Model;
using FixtureGen.Toolpaths;
using FixtureGen.Toolpaths.Methods;
using FixtureGen.Toolpaths.Routes;
using Xunit;

namespace FixtureGen.Tests.Toolpaths;

/// <summary>Time of every operation against what no planner could beat, and what holds the block meanwhile.</summary>
[Trait("Speed", "Slow")]
public sealed class TimeBoundTest(ITestOutputHelper output)
{
    [Theory]
    [InlineData("tape-cradle")]
    [InlineData("plumb-pouch")]
    [InlineData("auger-cradle")]
    [InlineData("hook-cradle")]
    [InlineData("pruner-sheath")]
    [InlineData("label-clip")]
    public void Rapids_are_near_their_bound_and_the_block_is_held(string name)
    {
        (Job job, FixtureDesign design) = DemoDesigns.Of(name);
        Frame[] frames =
        [
            .. design.Flip is { } flip
                ? new[] { OperationPlanner.UndersideFrame(design, job, flip, SampleBlock.NewKernel()) }
                : [],
            OperationPlanner.TopFrame(design, job, SampleBlock.NewKernel()),
        ];
        Assert.All(frames, f => Check(name, job, design, BlockPlan.Eased(f, new BlockHolding(design, job)).Frame));
    }

    private void Check(string name, Job job, FixtureDesign design, Frame frame)
    {
        ImmutableArray<Work> works = DemoDesigns.Taken(BlockPlan.Ordered(frame));
        (Operation Op, bool Bolted, bool Broken)[] ops =
        [
            .. works.Select(w => (BlockPlan.Operation(w, frame), w.BreaksPlateSeal, w.BreaksPlateSeal)),
        ];
        ImmutableArray<BlockHold> holds = new BlockHolding(design, job).Evaluate(ops).Value;
        double rapid = 0;
        double rapidLeast = 0;
        double seconds = 0;
        double least = 0;
        for (int i = 0; i < works.Length; i++)
        {
            IReadOnlyList<Move> moves = ops[i].Op.Moves;
            TimeBound bound = TimeBound.Of(works[i], BlockPlan.Hop(works[i], frame), frame.Heights.Clearance, frame);
            double s = CycleTime.Seconds(moves, job.Plate.Machine);
            double r = CycleTime.RapidMm(moves);
            rapid += r;
            rapidLeast += bound.RapidMm;
            seconds += s;
            least += bound.Seconds;
            Assert.True(s >= bound.Seconds, works[i].Name + " is quicker than its bound");
            output.WriteLine(
                FormattableString.Invariant(
                    $"{works[i].Name, -22} {works[i].Cutting.Tool.Name, -12} {s, 6:0.0} s of {bound.Seconds, 6:0.0} = {s / bound.Seconds, 5:0.00}  rapid {r, 6:0} of {bound.RapidMm, 6:0} = {r / bound.RapidMm, 5:0.00}  pieces {works[i].Pieces.Length, 3} moves {moves.Count, 5} hold {holds[i].Factor:0.0} load {holds[i].LoadN:0}"
                )
            );
        }
        double change = job.Plate.Machine.ToolChangeSeconds;
        seconds += change * works.Where((w, i) => i == 0 || w.Cutting.Tool != works[i - 1].Cutting.Tool).Count();
        least += change * works.Select(w => w.Cutting.Tool).Distinct().Count();
        output.WriteLine(
            FormattableString.Invariant(
                $"{name} {frame.Setup}, tool changes in: {seconds:0.0} of {least:0.0} s = {seconds / least:0.00}, rapid {rapid:0} of {rapidLeast:0} = {rapid / rapidLeast:0.00}"
            )
        );
        Assert.True(rapid <= 1.10 * rapidLeast, FormattableString.Invariant($"{rapid / rapidLeast:0.000}"));
        Assert.All(holds, h => Assert.True(h.Factor >= job.Limits.BlockFactor, h.ToString()));
    }
}
