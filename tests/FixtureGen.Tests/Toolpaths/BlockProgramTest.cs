using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Holding.Block;
using FixtureGen.Model;
using FixtureGen.Toolpaths;
using Xunit;

namespace FixtureGen.Tests.Toolpaths;

public sealed class BlockProgramTest
{
    private const double Cell = 0.5;

    private static readonly FixtureDesign Design = SampleBlock.Design(SampleBlock.Job);

    private static readonly ImmutableArray<ProgramPlan> Programs = Plan();

    private static ProgramPlan Top => Programs.Single(p => p.Setup == Setup.Top);

    private static ImmutableArray<ProgramPlan> Plan()
    {
        Stage<ImmutableArray<ProgramPlan>> stage = OperationPlanner.Plan(
            Design,
            SampleBlock.Job,
            new BlockHolding(Design, SampleBlock.Job),
            Tolerances.House
        );
        Assert.True(stage.Ok, string.Join('\n', stage.Findings));
        return stage.Value;
    }

    private static IEnumerable<Operation> Operations(ProgramPlan p) =>
        p.Steps.Select(s => s.Operation).OfType<Operation>();

    [Fact]
    [Trait("Speed", "Slow")]
    public void Block_is_carved_to_the_design_and_nothing_else_is_touched()
    {
        CarveOracle oracle = new(Design.Placement.BlankBox, Cell, Design.RawThickness);
        foreach (Operation op in Operations(Top))
        {
            oracle.Cut(op);
        }

        Assert.Empty(oracle.BadRapids);
        double smallest = Operations(Top).Where(o => o.Tool.Kind == ToolKind.EndMill).Min(o => o.Tool.Radius);
        Kernel kernel = SampleBlock.NewKernel();
        List<(Region Wanted, Region Whole, double Floor)> cuts =
        [
            .. Design
                .Removals.Where(r => r.Kind != FeatureKind.Skim)
                .SelectMany(r =>
                    kernel
                        .Open(r.Area, smallest)
                        .Select(o =>
                            (
                                o,
                                r.Area.First(a =>
                                    Inside.Contains(a, o.Outer.Segments[0].Start)
                                    || Measure.Distance(o.Outer.Segments[0].Start, a) < 0.01
                                ),
                                r.FloorZ
                            )
                        )
                ),
        ];
        List<string> wrong = [];
        foreach ((Point2 p, double z) in oracle.Cells())
        {
            double floor = Design.FixtureHeight;
            double soonest = Design.FixtureHeight;
            foreach ((Region wanted, Region whole, double f) in cuts)
            {
                Box2 b = Measure.Bounds(whole);
                if (p.X < b.MinX - 1 || p.X > b.MaxX + 1 || p.Y < b.MinY - 1 || p.Y > b.MaxY + 1)
                {
                    continue;
                }
                if (Inside.Contains(wanted, p) && Measure.Distance(p, wanted) > 0.1)
                {
                    floor = Math.Min(floor, f);
                }
                if (Inside.Contains(whole, p) || Measure.Distance(p, whole) < 0.02)
                {
                    soonest = Math.Min(soonest, f);
                }
            }
            if (z > floor + 0.01 || z < Math.Max(soonest, 0) - 0.01 && soonest > 0)
            {
                wrong.Add(FormattableString.Invariant($"{p} z {z:0.000} wanted {soonest:0.000}..{floor:0.000}"));
            }
        }
        Assert.True(
            wrong.Count == 0,
            string.Join('\n', wrong.Take(20)) + FormattableString.Invariant($"\n{wrong.Count} cells")
        );
    }

    [Fact]
    public void What_breaks_the_plate_seal_comes_after_the_stop_for_the_bolts()
    {
        int stop = Top.Steps.Select((s, i) => (s, i)).Single(x => x.s.Kind == ProgramStepKind.Stop).i;

        Assert.Contains("4 BOLTS", Top.Steps[stop].Text, StringComparison.Ordinal);
        Assert.All(Top.Steps[..stop], s => Assert.False(s.Operation?.BreaksPlateSeal ?? false));
        Assert.Equal(
            ["port"],
            Top.Steps[stop..].Select(s => s.Operation).OfType<Operation>().SelectMany(o => o.Features).Distinct()
        );
    }

    [Fact]
    public void Skim_is_first_and_no_tool_is_fetched_more_than_twice()
    {
        ImmutableArray<Operation> ops = [.. Operations(Top)];
        Assert.Equal(OperationKind.Skim, ops[0].Kind);
        int changes = 1 + Enumerable.Range(1, ops.Length - 1).Count(i => ops[i].Tool != ops[i - 1].Tool);
        Assert.True(
            changes <= ops.Select(o => o.Tool).Distinct().Count() + 2,
            string.Join(", ", ops.Select(o => o.Name + " " + o.Tool.Name))
        );
    }

    [Fact]
    public void Trim_ends_with_the_outline_and_the_vacuum_is_proven_first()
    {
        ProgramPlan trim = Programs.Single(p => p.Setup == Setup.Trim);
        Assert.Equal(Design.Label, trim.Header[0]);
        Assert.Equal([ProgramStepKind.VacuumOn, ProgramStepKind.VacuumWait], trim.Steps.Take(2).Select(s => s.Kind));
        Assert.Equal(OperationKind.TrimOutline, Operations(trim).Last().Kind);
        Assert.Equal(ProgramStepKind.VacuumOff, trim.Steps[^1].Kind);
    }
}
