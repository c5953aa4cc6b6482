using System.Globalization;
using System.Text.RegularExpressions;
using FixtureGen.Model;
using FixtureGen.Programs;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Program;

public sealed class WriterTest
{
    private static readonly Operation Line = PlanMaker.Operation(
        3,
        new RapidMove(new(10, 20, 25)),
        new LineMove(new(10, 20, 18), 500),
        new LineMove(new(35.4, 20, 18), 1270),
        new RapidMove(new(35.4, 20, 25))
    );

    [Fact]
    public void A_small_program_reads_as_a_machinist_expects() =>
        Assert.Equal(
            """
            %
            O1234
            (PS-1 R1 TOP)
            (DRY-RUN IN THE AIR FIRST)
            G17 G20 G40 G49 G80 G90 G94
            G54
            (CUT - T3 MILL)
            G53 G0 Z0.
            T3 M6
            G17 G20 G40 G49 G80 G90 G94
            G54
            S18000 M3
            M8
            G0 X0.3937 Y0.7874
            G43 H3 Z2.3622
            Z0.98425
            G1 Z0.70866 F19.6
            X1.3937 F50.
            G0 Z0.98425
            Z2.3622
            M5
            M9
            G53 G0 Z0.
            G53 G0 X0. Y0.
            M30
            %

            """,
            Text(PlanMaker.Of(Line), "inch-centre-arcs")
        );

    [Fact]
    public void Vacuum_goes_off_only_after_the_spindle_stopped_and_the_tool_is_home()
    {
        ProgramPlan plan = PlanMaker.Of(Line);
        plan = plan with
        {
            Steps =
            [
                new(ProgramStepKind.VacuumOn, null, "vacuum on"),
                new(ProgramStepKind.VacuumWait, null, "18 inHg at least"),
                .. plan.Steps,
                new(ProgramStepKind.VacuumOff, null, "vacuum off"),
            ],
        };
        List<string> m = new TinyReader(Job("inch-centre-arcs").Control)
            .Read(Text(plan, "inch-centre-arcs"))
            .Events.FindAll(e => e[0] == 'M');

        Assert.Equal(["M10", "M12", "M6", "M3", "M8", "M5", "M9", "M11", "M30"], m);
    }

    [Fact]
    public void A_control_without_vacuum_words_stops_with_the_level_to_read()
    {
        ProgramPlan plan = PlanMaker.Of(Line);
        plan = plan with { Steps = [new(ProgramStepKind.VacuumWait, null, "Read 18 inHg at least"), .. plan.Steps] };

        Assert.Contains("(Read 18 inHg at least)\nN30 M0\n", Text(plan, "mm-canned-cycles"), StringComparison.Ordinal);
    }

    [Fact]
    public void After_a_stop_everything_is_said_again()
    {
        ProgramPlan plan = PlanMaker.Of(Line, Line);
        plan = plan with
        {
            Steps = [plan.Steps[0], new(ProgramStepKind.Stop, null, "Put in four bolts"), plan.Steps[1]],
        };
        string after = Text(plan, "inch-centre-arcs").Split("M0\n")[1];

        Assert.StartsWith(
            """
            (CUT - T3 MILL)
            G17 G20 G40 G49 G80 G90 G94
            G54
            S18000 M3
            M8
            G0 X0.3937 Y0.7874
            G43 H3 Z2.3622
            Z0.98425
            G1 Z0.70866 F19.6
            """,
            after,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Letters_a_control_cannot_hold_are_named()
    {
        ProgramPlan plan = PlanMaker.Of(Line) with { Header = ["Ø 6 Größe 漢"] };
        Stage<ProgramText> stage = ProgramWriter.Write(plan, Job("inch-centre-arcs").Control, Job("inch-centre-arcs"));

        Assert.Contains("(D 6 GROSSE ?)", stage.Value!.Text, StringComparison.Ordinal);
        Assert.Equal(["program-comment-letters"], stage.Findings.Select(f => f.Code));
    }

    [Fact]
    public void Long_comments_are_wrapped_never_cut()
    {
        const string Words = "four bolts 1/4-20 tightened to 30 lbf.in in the order of the sheet, pins out";
        string text = Text(PlanMaker.Of(Line) with { Header = [Words] }, "inch-quadrant-arcs");
        string[] lines =
        [
            .. text.Split('\n')
                .Where(l => l.StartsWith('('))
                .TakeWhile(l => !l.StartsWith("(CUT", StringComparison.Ordinal)),
        ];

        Assert.All(lines, l => Assert.InRange(l.Length, 3, 34));
        Assert.Equal(Words.ToUpperInvariant(), string.Join(' ', lines.Select(l => l[1..^1])));
    }

    [Fact]
    public void A_number_outside_the_control_is_refused()
    {
        Job job = Job("inch-centre-arcs");
        Stage<ProgramText> stage = ProgramWriter.Write(
            PlanMaker.Of(Line) with
            {
                ProgramNumber = 17,
            },
            job.Control,
            job
        );

        Assert.Null(stage.Value);
        Assert.Equal("program-number-range", Assert.Single(stage.Findings).Code);
    }

    [Fact]
    public void A_line_longer_than_the_control_reads_is_refused()
    {
        Job job = Job("inch-centre-arcs");
        Control tight = job.Control with { LineLength = 20, SafeStart = [.. job.Control.SafeStart] };
        Stage<ProgramText> stage = ProgramWriter.Write(PlanMaker.Of(Line), tight, job);

        Assert.Contains(stage.Findings, f => f.Code == "program-line-too-long");
        Assert.Null(stage.Value);
    }

    // 3 decimals of an inch round a radius by more than the 0.0002 in that RS274/NGC (NISTIR 6556 3.5.3) allows.
    [Fact]
    public void Too_few_decimals_for_arcs_are_told_shortly_and_the_remedy_mends_them()
    {
        Job job = Job("inch-centre-arcs");
        Operation[] turns = [.. Enumerable.Range(1, 9).Select(Turned)];
        Control coarse = job.Control with { Decimals = 3 };
        Stage<ProgramText> stage = ProgramWriter.Write(PlanMaker.Of([.. turns]), coarse, job);

        Assert.Null(stage.Value);
        Assert.Equal(4, stage.Findings.Length);
        Assert.All(stage.Findings, f => Assert.Equal("program-arc-rounding", f.Code));
        Assert.Contains("allows 0.00508 mm", stage.Findings[0].Message, StringComparison.Ordinal);
        Assert.Matches("^and [0-9]+ more of the same$", stage.Findings[3].Message);
        Match told = Regex.Match(stage.Findings[0].Remedy, "decimals = ([0-9])");
        int decimals = int.Parse(told.Groups[1].Value, CultureInfo.InvariantCulture);
        Assert.True(ProgramWriter.Write(PlanMaker.Of([.. turns]), coarse with { Decimals = decimals }, job).Ok);

        // half a turn over an odd count of thousandths of an inch: its middle lies between two of them
        static Operation Turned(int i)
        {
            const double Thou = 0.0254;
            double r = (201 + (2 * i)) * Thou / 2;
            Point2 c = new(2000 * Thou, 3000 * Thou);
            Point3 start = new(c.X + r, c.Y, 18);
            return PlanMaker.Operation(
                i,
                new RapidMove(start with { Z = 25 }),
                new LineMove(start, 500),
                new ArcMove(new(c.X - r, c.Y, 18), c, true, 500),
                new RapidMove(new(c.X - r, c.Y, 25))
            );
        }
    }

    // RS274/NGC, NISTIR 6556 3.5.16: "G90 G81 G98 X4 Y5 Z1.5 R2.8" from (1,2,3) goes to (4,5,3), (4,5,2.8), (4,5,1.5), (4,5,3).
    [Theory]
    [InlineData("mm-canned-cycles")]
    [InlineData("mm-radius-arcs")]
    public void A_drilled_hole_moves_as_the_published_cycle_does(string control)
    {
        Operation hole = PlanMaker.Operation(
            1,
            new RapidMove(new(1, 2, 3)),
            new DrillMove(new(4, 5, 3), 2.8, 1.5, 0, 0, 100)
        );
        IEnumerable<Point3> points = new TinyReader(Job(control).Control)
            .Read(Text(PlanMaker.Of(hole), control))
            .Motions.Select(m => m.To)
            .SkipWhile(p => p != new Point3(1, 2, 3))
            .Skip(1)
            .SkipLast(1);

        Assert.Equal([new(4, 5, 3), new(4, 5, 2.8), new(4, 5, 1.5), new(4, 5, 3)], points);
    }

    private static Job Job(string control) => DemoShop.Job(DemoShop.PlainJob(control: control));

    private static string Text(ProgramPlan plan, string control)
    {
        Stage<ProgramText> stage = ProgramWriter.Write(plan, Job(control).Control, Job(control));
        Assert.True(stage.Ok, string.Join('\n', stage.Findings));
        return stage.Value!.Text;
    }
}
