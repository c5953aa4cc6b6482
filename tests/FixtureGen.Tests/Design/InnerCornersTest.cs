using System.Collections.Immutable;
using FixtureGen.Design.Trim;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Design;

/// <summary>Inner corners and bays that the trim cutter of 3.175 mm does not reach and the rack's 2 mm mill does.</summary>
public sealed class InnerCornersTest
{
    private static readonly Job Asked = MadePart.Job with { InnerCorners = InnerCorners.SecondCutter };

    /// <summary>A plate with a window whose corners have a radius of 1 mm.</summary>
    private static Part Window { get; } = MadePart.Plate(Contours.RoundedRectangle(new Box2(40, 30, 80, 60), 1));

    /// <summary>A plate with a bay 2.6 mm wide in its upper edge, its end round.</summary>
    private static Part Bay { get; } =
        MadePart.Outlined(
            new Contour([
                Segment.Line(new Point2(0, 0), new Point2(120, 0)),
                Segment.Line(new Point2(120, 0), new Point2(120, 90)),
                Segment.Line(new Point2(120, 90), new Point2(61.3, 90)),
                Segment.Line(new Point2(61.3, 90), new Point2(61.3, 75)),
                Segment.Arc(new Point2(61.3, 75), new Point2(58.7, 75), new Point2(60, 75), ccw: false),
                Segment.Line(new Point2(58.7, 75), new Point2(58.7, 90)),
                Segment.Line(new Point2(58.7, 90), new Point2(0, 90)),
                Segment.Line(new Point2(0, 90), new Point2(0, 0)),
            ])
        );

    public static TheoryData<bool, int> Parts => new() { { true, 4 }, { false, 1 } };

    [Theory]
    [MemberData(nameof(Parts))]
    public void A_second_cutter_cuts_them_first_and_the_judge_agrees(bool window, int count)
    {
        Part part = window ? Window : Bay;
        (FixtureDesign design, ImmutableArray<ProgramText> programs) = MadePart.Make(part, Asked);
        TrimCut[] corners = [.. design.TrimCuts.Where(c => c.Kind == TrimKind.Corner)];
        Assert.Equal(count, corners.Length);
        Assert.All(corners, c => Assert.Equal(("mill-2mm", window ? "cutout" : "outline"), (c.Tool.Name, c.AtEdgeOf)));
        string trim = programs.Single(p => p.Setup == Setup.Trim).Text;
        int first = trim.IndexOf("(INNER CORNERS", StringComparison.Ordinal);
        Assert.True(0 < first && first < trim.IndexOf("(OUTLINE", StringComparison.Ordinal));
        Assert.Empty(MadePart.Errors(part, Asked, design, programs));
    }

    public static TheoryData<string, string> Spoiled =>
        new()
        {
            { "forgotten", "edge-left" },
            { "into the part", "edge-cut-into" },
            { "higher", "floor-off" },
            { "unasked", "the job asks for no second cutter" },
            { "by the trim cutter", "no end mill of the rack thinner" },
        };

    [Theory]
    [MemberData(nameof(Spoiled))]
    public void What_the_job_did_not_ask_for_is_refused(string how, string says)
    {
        FixtureDesign design = MadePart.Make(Window, Asked).Design;
        TrimCut corner = design.TrimCuts[0];
        FixtureDesign With(TrimCut other) => design with { TrimCuts = design.TrimCuts.Replace(corner, other) };
        Point2 middle = Measure.Bounds(design.Part.Cutouts[0]).Middle;
        Point2 way = Measure.Bounds(corner.Edge).Middle - middle;
        Pose away = new(0.2 * Math.Sign(way.X), 0.2 * Math.Sign(way.Y), 0);
        Contour Moved(Contour c) => Transform.Apply(away, c);
        FixtureDesign spoiled = how switch
        {
            "forgotten" => design with { TrimCuts = design.TrimCuts.Remove(corner) },
            "into the part" => With(corner with { Edge = Moved(corner.Edge), Path = Moved(corner.Path) }),
            "higher" => With(corner with { FloorZ = corner.FloorZ + 0.3 }),
            "by the trim cutter" => With(corner with { Tool = MadePart.Job.TrimTool }),
            _ => design,
        };
        Job job = Asked with { InnerCorners = how == "unasked" ? InnerCorners.Refuse : InnerCorners.SecondCutter };
        string[] errors =
            how == "by the trim cutter"
                ? MadePart.Errors(Window, job, spoiled, MadePart.Programs(design, Asked))
                : MadePart.Errors(Window, job, spoiled, MadePart.Programs(spoiled, Asked));
        Assert.True(errors.Any(e => e.Contains(says, StringComparison.Ordinal)), string.Join('\n', errors));
    }

    /// <summary>A bridge that would stand where a corner is milled away is moved beside it, in windows of any size.</summary>
    [Theory]
    [InlineData(26, 24)]
    [InlineData(30, 20)]
    [InlineData(33, 22)]
    [InlineData(28, 28)]
    public void Bridges_stand_beside_the_corners(double width, double height)
    {
        Part part = MadePart.Plate(Contours.RoundedRectangle(new Box2(25, 25, 25 + width, 25 + height), 1.1));
        (FixtureDesign design, ImmutableArray<ProgramText> programs) = MadePart.Make(part, Asked);
        Assert.NotEmpty(design.TrimCuts.Single(c => c.Kind == TrimKind.Cutout).Tabs);
        Assert.Empty(MadePart.Errors(part, Asked, design, programs));
    }

    /// <summary>What is printed was tried: the job that says it plans, with corners; sharp ones keep what is said.</summary>
    [Fact]
    public void The_remedy_was_tried()
    {
        Kernel kernel = new(Tolerances.House);
        Finding refused = Assert.Single(
            TrimPlanner.Plan(Window, MadePart.Job, kernel).Findings,
            f => f.Severity == Severity.Error
        );
        Assert.Contains(
            "inner_corners = \"second-cutter\": mill-2mm was tried in the corners alone and reaches",
            refused.Remedy,
            StringComparison.Ordinal
        );
        Assert.True(TrimPlanner.Plan(Window, Asked, kernel).Ok);

        Part sharp = MadePart.Plate(Contours.Rectangle(new Box2(40, 30, 80, 60)));
        Finding still = Assert.Single(
            TrimPlanner.Plan(sharp, Asked, kernel).Findings,
            f => f.Severity == Severity.Error
        );
        Assert.Contains(
            "leaves 0.414 mm: [rules] corner_left = \"0.5 mm\" lets it",
            still.Remedy,
            StringComparison.Ordinal
        );
        Job lets = Asked with { Rules = Asked.Rules with { CornerLeft = 0.5 } };
        Assert.True(TrimPlanner.Plan(sharp, lets, kernel).Ok);
    }

    private static Contour Angular(params Point2[] corners) =>
        new([.. corners.Select((c, i) => Segment.Line(c, corners[(i + 1) % corners.Length]))]);

    public static TheoryData<string> Sharp => ["window", "ell", "notch"];

    /// <summary>Corners drawn sharp whose rest the job lets stand: a cell of the judge's grid on the relief's wall beside one was called reachable.</summary>
    [Theory]
    [MemberData(nameof(Sharp))]
    public void Sharp_corners_that_may_keep_what_is_left_are_made(string name)
    {
        Part part = name switch
        {
            "window" => MadePart.Plate(Contours.Rectangle(new Box2(40, 30, 80, 60))),
            "ell" => MadePart.Outlined(
                Angular(new(0, 0), new(120, 0), new(120, 55), new(70, 55), new(70, 90), new(0, 90))
            ),
            _ => MadePart.Outlined(
                Angular(
                    new(0, 0),
                    new(120, 0),
                    new(120, 90),
                    new(70, 90),
                    new(70, 80),
                    new(50, 80),
                    new(50, 90),
                    new(0, 90)
                )
            ),
        };
        Tool thin = MadePart.Job.Tools.Single(t => t.Name == "trim-2mm-up");
        Job job = MadePart.Job with { TrimTool = thin, Rules = MadePart.Job.Rules with { CornerLeft = 0.5 } };
        (FixtureDesign design, ImmutableArray<ProgramText> programs) = MadePart.Make(part, job);
        Assert.Empty(MadePart.Errors(part, job, design, programs));
    }

    [Theory]
    [InlineData("inner_corners = \"second-cutter\"", "", InnerCorners.SecondCutter)]
    [InlineData("", "inner_corners = \"refuse\"", InnerCorners.Refuse)]
    [InlineData("", "", InnerCorners.Unsaid)]
    public void The_job_says_it_at_its_top_or_under_drawing(string top, string drawing, InnerCorners read)
    {
        string text = top + "\n" + DemoShop.PlainJob(more: drawing.Length > 0 ? "\n[drawing]\n" + drawing : "");
        Assert.Equal(read, DemoShop.Job(text).InnerCorners);
    }

    /// <summary>Keyholes: a bay of 20 mm with a mouth of 3.5 to 6.5 mm, whose slug is milled away or held by bridges.</summary>
    [Theory]
    [InlineData(3.5)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(6.5)]
    public void A_keyhole_is_cut_and_nothing_of_it_lies_loose(double mouth)
    {
        double m = mouth / 2;
        double b = Math.Sqrt((10 * 10) - (m * m));
        (double x, double y) = (60, 40);
        Contour keyhole = new([
            Segment.Arc(new Point2(x - m, y + b), new Point2(x + m, y + b), new Point2(x, y), ccw: true),
            Segment.Line(new Point2(x + m, y + b), new Point2(x + m, y + 25)),
            Segment.Arc(new Point2(x + m, y + 25), new Point2(x - m, y + 25), new Point2(x, y + 25), ccw: true),
            Segment.Line(new Point2(x - m, y + 25), new Point2(x - m, y + b)),
        ]);
        Part part = MadePart.Plate(keyhole);
        (FixtureDesign design, ImmutableArray<ProgramText> programs) = MadePart.Make(part, MadePart.Job);
        TrimCut cut = design.TrimCuts.Single(c => c.Kind == TrimKind.Cutout);
        Assert.True(cut.Hold == SlugHold.MilledAway || cut.Tabs.Length >= 2);
        Assert.Empty(MadePart.Errors(part, MadePart.Job, design, programs));
    }
}
