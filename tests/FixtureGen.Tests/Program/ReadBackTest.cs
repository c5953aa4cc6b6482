using System.Collections.Immutable;
using CsCheck;
using FixtureGen.Model;
using FixtureGen.Programs;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Program;

public sealed class ReadBackTest
{
    public static TheoryData<string> Controls() => [.. DemoShop.Files.List("controls").Order(StringComparer.Ordinal)];

    [Fact]
    public void At_least_five_controls_are_shipped() => Assert.True(Controls().Count >= 5);

    [Theory]
    [MemberData(nameof(Controls))]
    public void The_same_plan_reads_back_to_the_same_motion(string name)
    {
        Job job = DemoShop.Job(DemoShop.PlainJob(control: name));
        PlanMaker.Plan.Sample(plan => Same(plan, job), iter: 100, seed: "0000000000000");
    }

    // RS274/NGC (NISTIR 6556 3.5.3): radii differ by at most 0.0002 in or 0.002 mm, as written.
    [Theory]
    [MemberData(nameof(Controls))]
    public void Every_arc_keeps_the_radius_rule_after_rounding(string name)
    {
        Job job = DemoShop.Job(DemoShop.PlainJob(control: name));
        double limit = job.Control.Unit == LengthUnit.Inch ? 0.0002 * 25.4 : 0.002;
        int arcs = 0;
        PlanMaker.Plan.Sample(
            plan =>
            {
                List<ReadMotion> read = Read(plan, job).Motions;
                Interlocked.Add(ref arcs, read.Count(m => m.Arc != 0));
                return read.All(m => m.RadiusMismatch <= limit);
            },
            iter: 200,
            seed: "0000000000000"
        );
        Assert.True(arcs > 500);
    }

    private static TinyReader Read(ProgramPlan plan, Job job)
    {
        Stage<ProgramText> stage = ProgramWriter.Write(plan, job.Control, job);
        Assert.True(stage.Ok, string.Join('\n', stage.Findings));
        return new TinyReader(job.Control).Read(stage.Value!.Text);
    }

    // Walks the motions that were read along the moves that were planned: each planned move must be used up, by pieces
    // that end where it ends and, for an arc, turn about its centre by its sweep in all.
    private static bool Same(ProgramPlan plan, Job job)
    {
        ImmutableArray<ReadMotion> read = [.. Read(plan, job).Motions];
        double grid = (job.Control.Unit == LengthUnit.Inch ? 25.4 : 1) * Math.Pow(10, -job.Control.Decimals);
        double feedStep = (job.Control.Unit == LengthUnit.Inch ? 25.4 : 1) * Math.Pow(10, -job.Control.FeedDecimals);
        int at = 0;
        foreach (Operation op in plan.Steps.Select(s => s.Operation!))
        {
            at++; // down to the safe height after the tool change
            Point3 from = op.Moves[0].To;
            foreach (Move move in op.Moves)
            {
                at = Follow(read, at, from, move, grid, feedStep);
                from = move.To;
            }
        }
        Assert.Equal(read.Length, at + 1); // and up to the safe height before home
        return true;
    }

    private static int Follow(
        ImmutableArray<ReadMotion> read,
        int at,
        Point3 from,
        Move move,
        double grid,
        double feedStep
    )
    {
        double turned = 0;
        if (move is DrillMove hole)
        {
            return Drilled(read, at, hole, grid);
        }
        while (!Near(read[at - 1].To, move.To, grid) || Unfinished(move, from, turned, grid))
        {
            ReadMotion m = read[at];
            turned += m.Sweep;
            Assert.Equal(move is RapidMove, m.Rapid);
            if (move is ArcMove arc && m.Arc != 0)
            {
                Assert.Equal(arc.Ccw, m.Arc > 0);
                // a radius word moves the centre along the chord's bisector; what counts is the middle of the path
                double middle = Math.Abs(MiddleOf(m).DistanceTo(arc.Centre) - from.Xy.DistanceTo(arc.Centre));
                Assert.InRange(middle, 0, 6 * grid);
            }
            if (move is LineMove line)
            {
                Assert.Equal(0, m.Arc);
                Assert.InRange(m.FeedMmPerMin, line.FeedMmPerMin - feedStep - 1e-6, line.FeedMmPerMin + 1e-6);
            }
            at++;
        }
        return at;
    }

    private static bool Unfinished(Move move, Point3 from, double turned, double grid)
    {
        if (move is not ArcMove arc)
        {
            return false;
        }
        Point2 a = from.Xy - arc.Centre;
        Point2 b = arc.To.Xy - arc.Centre;
        double turn = Math.Atan2(a.Cross(b), a.Dot(b)) * (arc.Ccw ? 1 : -1);
        double sweep =
            a.DistanceTo(b) < 1e-9 ? 2 * Math.PI
            : turn <= 0 ? turn + (2 * Math.PI)
            : turn;
        return (sweep - turned) * a.Length > 20 * grid;
    }

    private static int Drilled(ImmutableArray<ReadMotion> read, int at, DrillMove hole, double grid)
    {
        double deepest = double.MaxValue;
        while (deepest > hole.BottomZ + grid || !Near(read[at - 1].To, hole.To, grid))
        {
            ReadMotion m = read[at];
            if (!m.Rapid)
            {
                Assert.True(m.To.Xy.DistanceTo(hole.To.Xy) <= grid && m.From.Xy.DistanceTo(hole.To.Xy) <= grid);
                Assert.True(hole.Peck == 0 || m.From.Z - m.To.Z <= hole.Peck + 0.254 + (2 * grid));
            }
            else if (m.To.Z < m.From.Z)
            {
                double open = Math.Min(deepest, hole.RetractZ);
                Assert.True(m.To.Z >= open - (2 * grid), "rapid into stock");
            }
            deepest = Math.Min(deepest, m.To.Z);
            at++;
        }
        return at;
    }

    private static Point2 MiddleOf(ReadMotion m)
    {
        Point2 a = m.From.Xy - m.Centre;
        double half = m.Sweep / 2 * m.Arc;
        return m.Centre
            + new Point2(
                (a.X * Math.Cos(half)) - (a.Y * Math.Sin(half)),
                (a.X * Math.Sin(half)) + (a.Y * Math.Cos(half))
            );
    }

    private static bool Near(Point3 a, Point3 b, double grid) =>
        Math.Abs(a.X - b.X) <= 0.51 * grid && Math.Abs(a.Y - b.Y) <= 0.51 * grid && Math.Abs(a.Z - b.Z) <= 0.51 * grid;
}
