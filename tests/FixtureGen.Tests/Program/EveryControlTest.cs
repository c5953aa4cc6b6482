using System.Collections.Immutable;
using FixtureGen.Holding.Block;
using FixtureGen.Model;
using FixtureGen.Programs;
using FixtureGen.Tests.Support;
using FixtureGen.Tests.Toolpaths;
using FixtureGen.Toolpaths;
using Xunit;

namespace FixtureGen.Tests.Program;

/// <summary>
/// Whole demo jobs, not random moves, written for every control and read by the tests' own reader (after RS274/NGC, NISTIR
/// 6556): each cut ends where it was planned, in order, and nothing is cut besides.
/// </summary>
[Trait("Speed", "Slow")]
public sealed class EveryControlTest
{
    public static TheoryData<string, string> Pairs()
    {
        TheoryData<string, string> pairs = [];
        foreach (string control in DemoShop.Files.List("controls").Order(StringComparer.Ordinal))
        {
            pairs.Add("hook-cradle", control);
            pairs.Add("meter-cradle", control);
        }
        return pairs;
    }

    [Theory]
    [MemberData(nameof(Pairs))]
    public void A_job_cuts_the_same_through_every_control(string name, string control)
    {
        (Job own, FixtureDesign design) = DemoDesigns.Of(name);
        Job job = own with { Control = DemoShop.Job(DemoShop.PlainJob(control: control)).Control };
        ImmutableArray<ProgramPlan> plans = DemoDesigns.Taken(
            OperationPlanner.Plan(design, job, new BlockHolding(design, job), Tolerances.House)
        );
        double grid = (job.Control.Unit == LengthUnit.Inch ? 25.4 : 1) * Math.Pow(10, -job.Control.Decimals);
        foreach (ProgramPlan plan in plans.Select(WithoutDrilling))
        {
            string text = DemoDesigns.Taken(ProgramWriter.Write(plan, job.Control, job)).Text;
            ReadMotion[] cuts = [.. new TinyReader(job.Control).Read(text).Motions.Where(m => !m.Rapid)];
            (Point3 To, double Length)[] planned = [.. Planned(plan)];
            int at = 0;
            foreach ((Point3 to, _) in planned)
            {
                int found = Array.FindIndex(cuts, at, m => Near(m.To, to, grid));
                Assert.True(
                    found >= 0 && found - at <= 4,
                    FormattableString.Invariant($"{plan.Setup}: {to} after {at}")
                );
                at = found + 1;
            }
            Assert.Equal(cuts.Length, at);
            double most = grid * cuts.Length;
            Assert.InRange(cuts.Sum(Length), planned.Sum(p => p.Length) - most, planned.Sum(p => p.Length) + most);
        }
    }

    /// <summary>Drilling cycles are the control's own; ReadBackTest follows them stroke by stroke.</summary>
    private static ProgramPlan WithoutDrilling(ProgramPlan plan) =>
        plan with
        {
            Steps = [.. plan.Steps.Where(s => s.Operation?.Kind != OperationKind.Drill)],
        };

    private static IEnumerable<(Point3 To, double Length)> Planned(ProgramPlan plan)
    {
        foreach (Operation op in plan.Steps.Select(s => s.Operation).OfType<Operation>())
        {
            Point3 from = op.Moves[0].To;
            foreach (Move move in op.Moves)
            {
                if (move is LineMove or ArcMove)
                {
                    yield return (move.To, Length(from, move));
                }
                from = move.To;
            }
        }
    }

    private static double Length(Point3 from, Move move)
    {
        double flat =
            move is not ArcMove arc ? from.Xy.DistanceTo(move.To.Xy)
            : from.Xy.DistanceTo(move.To.Xy) < 1e-9 ? 2 * Math.PI * from.Xy.DistanceTo(arc.Centre)
            : Segment.Arc(from.Xy, move.To.Xy, arc.Centre, arc.Ccw).Length;
        return Slanted(flat, move.To.Z - from.Z);
    }

    private static double Length(ReadMotion m) =>
        Slanted(
            m.Arc == 0 ? m.From.Xy.DistanceTo(m.To.Xy) : m.Sweep * m.From.Xy.DistanceTo(m.Centre),
            m.To.Z - m.From.Z
        );

    private static double Slanted(double flat, double dz) => Math.Sqrt((flat * flat) + (dz * dz));

    private static bool Near(Point3 a, Point3 b, double grid) =>
        Math.Abs(a.X - b.X) <= 0.51 * grid && Math.Abs(a.Y - b.Y) <= 0.51 * grid && Math.Abs(a.Z - b.Z) <= 0.51 * grid;
}
