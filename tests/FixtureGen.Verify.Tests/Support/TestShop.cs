using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Tests.Support;

/// <summary>An invented small shop: plate, tools, control and a job, so that hand-written programs can be judged. All mm.</summary>
internal static class TestShop
{
    public static Tool EndMill(int number, double diameter, bool centre = true) =>
        new()
        {
            Name = FormattableString.Invariant($"end mill {diameter:0.##}"),
            Number = number,
            Kind = ToolKind.EndMill,
            Diameter = diameter,
            Flutes = 2,
            FluteLength = 25,
            ShankDiameter = diameter,
            StickOut = 40,
            HolderDiameter = 30,
            TipAngleDeg = 0,
            TipDiameter = 0,
            Helix = HelixDirection.Up,
            HelixAngleDeg = 30,
            CentreCutting = centre,
            MaxStepDown = 4,
            MaxRampDeg = 5,
            RunOut = 0.01,
            MaxRpm = 24000,
        };

    public static Tool Ball(int number, double diameter) => EndMill(number, diameter) with { Kind = ToolKind.BallMill };

    public static Tool Cone(int number, ToolKind kind, double diameter, double angle, double tip) =>
        EndMill(number, diameter) with
        {
            Kind = kind,
            TipAngleDeg = angle,
            TipDiameter = tip,
        };

    public static Control Control { get; } =
        new()
        {
            Name = "test",
            Description = "plain RS274/NGC in mm with vacuum words",
            Unit = LengthUnit.Millimetre,
            Decimals = 4,
            Numbers = DecimalHabit.AlwaysPoint,
            FeedDecimals = 1,
            ProgramNumberWord = "O",
            ProgramNumberDigits = 4,
            ProgramNumberMin = 1,
            ProgramNumberMax = 9999,
            PercentLines = true,
            Comment = CommentForm.Parentheses,
            CommentLength = 60,
            CommentUpperCase = true,
            LineNumberStep = 0,
            LineLength = 120,
            Arc = ArcForm.Centre,
            SplitFullCircles = true,
            MaxArcSweepDeg = 0,
            CannedCycles = true,
            PeckHighSpeed = false,
            Dwell = DwellUnit.Seconds,
            DwellWord = "P",
            SafeStart = ["G21 G17 G40 G49 G80 G90 G94 {work}"],
            ToolChange = ["T{tool} M6", "S{rpm} M3", "G0 G43 H{offset} Z{z}"],
            LengthOffsetWord = true,
            WorkOffset = "G54",
            SpindleStart = "M3",
            SpindleStop = "M5",
            AirOn = "M8",
            AirOff = "M9",
            VacuumOn = "M64",
            VacuumOff = "M65",
            VacuumWait = "M66",
            Stop = "M0",
            OptionalStop = "M1",
            Home = ["G53 G0 Z0."],
            End = "M30",
        };

    public static Plate Plate { get; } =
        new()
        {
            Name = "test plate",
            Revision = 1,
            Face = new Box2(-20, -20, 120, 120),
            Thickness = 25,
            Stops = [],
            PlacingTolerance = 0.2,
            Openings = [new PlateOpening("B1", OpeningKind.Bolt, new Point2(10, 10), 6, 14, 6)],
            Grooves = [],
            SealLoop = Rectangle(20, 20, 80, 80),
            SealGrooveWidth = 3,
            SealReactionNPerMm = 0.02,
            FrictionBlockOnPlate = 0.9,
            Skin = 0.3,
            Machine = new Machine
            {
                Travel = new Box3(-50, -50, -10, 150, 150, 120),
                RapidMmPerMin = 15000,
                MaxFeedMmPerMin = 6000,
                AccelerationMmPerS2 = 2000,
                MinSpindleRpm = 1000,
                MaxSpindleRpm = 24000,
                SpindlePowerKw = 2,
                ToolChangeSeconds = 5,
                FeedHoldDistance = 20,
            },
        };

    public static Material Material { get; } =
        new()
        {
            Name = "test plastic",
            MinSpeedMPerMin = 100,
            MaxSpeedMPerMin = 600,
            ChipLoads = [new ChipLoad(3, 0.03, 0.12), new ChipLoad(10, 0.08, 0.3)],
            SpecificForceMin = 30,
            SpecificForceMax = 60,
            StepDownRatio = 1,
            StepOverRatio = 0.5,
            MaxRampDeg = 5,
            ExpansionPerK = 1e-4,
            ShellFriction = 0.2,
            IsPlastic = true,
            Source = "invented",
        };

    public static Job Job(params IEnumerable<Tool> tools) =>
        new()
        {
            Name = "test",
            Title = "TEST CRADLE",
            FixtureId = "F001",
            Revision = 1,
            ProgramNumber = 1001,
            DrawingUnit = LengthUnit.Millimetre,
            DisplayUnit = LengthUnit.Millimetre,
            Roles = DrawingRoles.House,
            Join = 0.05,
            Plate = Plate,
            Blank = new Blank
            {
                Name = "small",
                Material = "test plastic",
                Width = 100,
                Height = 100,
                Thickness = 20,
                ThicknessTolerance = 0.5,
            },
            OtherBlanks = [],
            BlankThickness = 20,
            BlockMaterial = Material,
            ShellMaterial = Material,
            Shell = new Shell("shell", 1, 1.1, 0.1, 0.2),
            Locator = LocatorKind.Hand,
            LocatorPins = [],
            Skirt = SkirtHold.None,
            Forms = [],
            Tools = [.. tools],
            TrimTool = EndMill(9, 3),
            TrimFeedMmPerMin = null,
            TrimRpm = null,
            Magnet = new MagnetSpec
            {
                Name = "m",
                Grade = "N42",
                BrMinT = 1.2,
                BrMaxT = 1.3,
                Diameter = 10,
                DiameterTolerance = 0.1,
                Thickness = 3,
                Plating = 0.02,
                MaxTemperatureC = 80,
                JacketDiameter = 14,
                JacketHeight = 6,
                JacketFloor = 1,
                Source = "invented",
            },
            MagnetCount = 0,
            Magnets = [],
            MagnetFactorTarget = null,
            Gasket = new Gasket
            {
                Name = "g",
                Kind = CordKind.Sponge,
                Section = 3,
                SectionTolerance = 0.2,
                SqueezeRatio = 0.3,
                GrooveWidth = 3,
                GrooveDepth = 2,
                InsideBendRadius = 6,
                ShoreA = 0,
                P25MinKPa = 30,
                P25MaxKPa = 60,
                CutAllowanceRatio = 0.01,
                FrictionShellOnCord = 0.5,
                Source = "invented",
            },
            Bolt = new Screw
            {
                Name = "M5",
                Body = 5,
                Pitch = 0.8,
                HeadDiameter = 8.5,
                HeadHeight = 5,
                KeyEngagement = 3,
                WasherDiameter = 10,
                WasherThickness = 1,
                ClearanceHole = 5.5,
                Counterbore = 11,
                TorqueNm = 5,
                NutFactor = 0.2,
                StressArea = 14.2,
                Source = "invented",
            },
            Pin = new DowelPin
            {
                Name = "6",
                Diameter = 6,
                Projection = 8,
                SlipHole = 6.1,
                BushDiameter = 0,
                BushLength = 0,
                Source = "invented",
            },
            Control = Control,
            Vacuum = new VacuumSupply(100, 85, 60, 100, 0.5),
            ShellFriction = null,
            DullFactor = 1.5,
            Limits = new HouseLimits(2, 0, 2),
            Rules = new Rules
            {
                FixtureHeight = 18,
                LeastSkim = 0.3,
                SideClearance = 1,
                TipBelowShell = 0.5,
                ReliefFloorBelowTip = 0.5,
                Land = 2,
                Wall = 2,
                LeastFloor = 3,
                NetDepth = 1.5,
                NetReach = 20,
                MagnetRecess = 0.1,
                MagnetGlue = 0.1,
                MagnetPocketClearance = 0.1,
                JacketClearance = 1,
                SlugMilledBelow = 20,
                TabLength = 4,
                TabThickness = 0.5,
                LeadRadius = 2,
                EngraveDepth = 0.3,
                LetterHeight = 4,
                TemperatureSwingK = 10,
                LocatorPinDiameter = 6,
                RunningClearance = 0.3,
            },
            Placement = null,
            Paper = "A4",
            Quantity = 1,
            Sources = [],
        };

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
        ImmutableArray<Region> area = [Region.From(edge)];
        return new PocketFeature
        {
            Name = name,
            Kind = kind,
            Setup = setup,
            Area = area,
            TopZ = top,
            FloorZ = floor,
            Removals = [new Removal(setup, kind, name, area, top, floor)],
        };
    }

    /// <summary>A block of 100 x 100 x 20 at the plate's origin with the given features.</summary>
    public static FixtureDesign Design(params IEnumerable<Feature> features) =>
        new()
        {
            Part = new Part(Rectangle(10, 10, 90, 90), [], [], [], [], []),
            Placement = new Placement(
                new Pose(0, 0, 0),
                new Blank
                {
                    Name = "small",
                    Material = "test plastic",
                    Width = 100,
                    Height = 100,
                    Thickness = 20,
                    ThicknessTolerance = 0.5,
                },
                new Box2(0, 0, 100, 100)
            ),
            FixtureHeight = 18,
            RawThickness = 20,
            Flip = new Flip(50),
            Zones = [],
            Cords = [],
            Magnets = [],
            TrimCuts = [],
            Features = [.. features],
            VacuumPath = [],
            Contact = [],
            Label = "TEST F001 R1",
        };

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
            {
                Drawing = null,
            }
        );
}
