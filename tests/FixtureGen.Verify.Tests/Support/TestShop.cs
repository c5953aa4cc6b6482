using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Tests.Support;

/// <summary>An invented small shop: plate, tools, control and a job, so that hand-written programs can be judged. All mm.</summary>
internal static class TestShop
{
    public static Tool EndMill(int number, double diameter, bool centre = true) =>
        new(
            FormattableString.Invariant($"end mill {diameter:0.##}"),
            number,
            ToolKind.EndMill,
            diameter,
            2,
            25,
            diameter,
            40,
            30,
            50,
            0,
            0,
            HelixDirection.Up,
            30,
            centre,
            4,
            5,
            0.01,
            24000
        );

    public static Tool Ball(int number, double diameter) => EndMill(number, diameter) with { Kind = ToolKind.BallMill };

    public static Tool Cone(int number, ToolKind kind, double diameter, double angle, double tip) =>
        EndMill(number, diameter) with
        {
            Kind = kind,
            TipAngleDeg = angle,
            TipDiameter = tip,
        };

    public static Control Control { get; } =
        new(
            "test",
            "plain RS274/NGC in mm with vacuum words",
            LengthUnit.Millimetre,
            4,
            DecimalHabit.AlwaysPoint,
            1,
            "O",
            4,
            1,
            9999,
            true,
            CommentForm.Parentheses,
            60,
            true,
            0,
            120,
            ArcForm.Centre,
            true,
            0,
            true,
            false,
            DwellUnit.Seconds,
            "P",
            ["G21 G17 G40 G49 G80 G90 G94 {work}"],
            ["T{tool} M6", "S{rpm} M3", "G0 G43 H{offset} Z{z}"],
            true,
            "G54",
            "M3",
            "M5",
            "M8",
            "M9",
            "M64",
            "M65",
            "M66",
            "M0",
            "M1",
            ["G53 G0 Z0."],
            "M30"
        );

    public static Plate Plate { get; } =
        new(
            "test plate",
            1,
            new Box2(-20, -20, 120, 120),
            25,
            [],
            0.2,
            [new PlateOpening("B1", OpeningKind.Bolt, new Point2(10, 10), 6, 14, 6)],
            [],
            Rectangle(20, 20, 80, 80),
            3,
            0.02,
            0.9,
            0.3,
            new Machine(new Box3(-50, -50, -10, 150, 150, 120), 15000, 6000, 2000, 1000, 24000, 2, 5, 20)
        );

    public static Material Material { get; } =
        new(
            "test plastic",
            100,
            600,
            [new ChipLoad(3, 0.03, 0.12), new ChipLoad(10, 0.08, 0.3)],
            30,
            60,
            1,
            0.5,
            5,
            1e-4,
            0.2,
            true,
            "invented"
        );

    public static Job Job(params IEnumerable<Tool> tools) =>
        new(
            "test",
            "TEST CRADLE",
            "F001",
            1,
            1001,
            LengthUnit.Millimetre,
            LengthUnit.Millimetre,
            new LayerRoles("OUTLINE", "CUTOUT", "ENGRAVE", "FORM", "MAGNET", "KEEPOUT"),
            Plate,
            new Blank("small", "test plastic", 100, 100, 20, 0.5),
            [],
            20,
            Material,
            Material,
            new Shell("shell", 1, 1.1, 0.1, 0.2),
            LocatorKind.Hand,
            [],
            SkirtHold.None,
            [],
            [.. tools],
            EndMill(9, 3),
            null,
            null,
            new MagnetSpec("m", "N42", 1.2, 1.3, 10, 0.1, 3, 0.02, 80, 14, 6, 1, "invented"),
            0,
            [],
            null,
            new Gasket("g", CordKind.Sponge, 3, 0.2, 0.3, 3, 2, 6, 0, 30, 60, 0.01, 0.5, "invented"),
            new Screw("M5", 5, 0.8, 8.5, 5, 3, 10, 1, 5.5, 11, 5, 0.2, 14.2, "invented"),
            new DowelPin("6", 6, 8, 6.1, 0, 0, "invented"),
            Control,
            new VacuumSupply(100, 85, 60, 100, 0.5),
            null,
            1.5,
            new HouseLimits(2, 0, 2),
            new Rules(18, 0.3, 1, 0.5, 0.5, 2, 2, 3, 1.5, 20, 0.1, 0.1, 0.1, 1, 20, 4, 0.5, 2, 0.3, 4, 10, 6, 0.3),
            null,
            "A4",
            1,
            []
        );

    public static Contour Rectangle(double x0, double y0, double x1, double y1)
    {
        Point2[] p = [new(x0, y0), new(x1, y0), new(x1, y1), new(x0, y1)];
        return new Contour([.. Enumerable.Range(0, 4).Select(i => Segment.Line(p[i], p[(i + 1) % 4]))]);
    }

    /// <summary>A rectangle whose corners are rounded by r, counter-clockwise.</summary>
    public static Contour Rounded(double x0, double y0, double x1, double y1, double r)
    {
        Segment Corner(double cx, double cy, double ax, double ay, double bx, double by) =>
            Segment.Arc(new Point2(cx + ax, cy + ay), new Point2(cx + bx, cy + by), new Point2(cx, cy), true);
        return new Contour([
            Segment.Line(new Point2(x0 + r, y0), new Point2(x1 - r, y0)),
            Corner(x1 - r, y0 + r, 0, -r, r, 0),
            Segment.Line(new Point2(x1, y0 + r), new Point2(x1, y1 - r)),
            Corner(x1 - r, y1 - r, r, 0, 0, r),
            Segment.Line(new Point2(x1 - r, y1), new Point2(x0 + r, y1)),
            Corner(x0 + r, y1 - r, 0, r, -r, 0),
            Segment.Line(new Point2(x0, y1 - r), new Point2(x0, y0 + r)),
            Corner(x0 + r, y0 + r, -r, 0, 0, -r),
        ]);
    }

    public static Contour Circle(double x, double y, double r)
    {
        Point2 c = new(x, y);
        Point2 e = new(x + r, y);
        Point2 w = new(x - r, y);
        return new Contour([Segment.Arc(e, w, c, true), Segment.Arc(w, e, c, true)]);
    }

    public static Feature Pocket(string name, FeatureKind kind, Setup setup, Contour edge, double top, double floor)
    {
        ImmutableArray<Region> area = [Region.Of(edge)];
        return new PocketFeature(
            name,
            kind,
            setup,
            area,
            top,
            floor,
            [new Removal(setup, kind, name, area, top, floor)]
        );
    }

    /// <summary>A block of 100 x 100 x 20 at the plate's origin with the given features.</summary>
    public static FixtureDesign Design(params IEnumerable<Feature> features) =>
        new(
            new Part(Rectangle(10, 10, 90, 90), [], [], [], [], []),
            new Placement(
                new Pose(0, 0, 0),
                new Blank("small", "test plastic", 100, 100, 20, 0.5),
                new Box2(0, 0, 100, 100)
            ),
            18,
            20,
            new Flip(50),
            [],
            [],
            [],
            [],
            [.. features],
            [],
            [],
            "TEST F001 R1"
        );

    /// <summary>The usual frame round some lines: percent signs, number, label, safe start, tool 1, vacuum, home, end.</summary>
    public static string Program(string body, int tool = 1, double feed = 800) =>
        FormattableString.Invariant(
            $"""
            %
            O1001
            (F001 REV 1 BLOCK TOP)
            (PROGRAM 1001 FOR FIXTURE TEST F001 R1)
            (PINS OUT)
            (BOLTS OUT)
            G21 G17 G40 G49 G80 G90 G94 G54
            M64
            M66
            T{tool} M6
            S8000 M3 M8
            G0 G43 H{tool} Z40.
            F{feed}
            {body}
            G0 Z40.
            M5 M9
            G53 G0 Z0.
            M65
            M30
            %

            """
        );

    public static VerifyResult Judge(Job job, FixtureDesign design, string text, Setup setup = Setup.Top) =>
        Verifier.Judge(
            new VerifyRequest(job, design, [new ProgramText(setup, 1001, "test.top.nc", text)], Limits.House)
        );
}
