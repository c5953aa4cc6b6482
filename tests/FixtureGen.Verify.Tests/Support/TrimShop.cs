using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Verify.Tests.Support;

/// <summary>
/// A shell of 1 mm on a skimmed block of 18 mm, trimmed round a part of 40 x 40 mm with a 3 mm mill in a relief of 1 mm depth; one
/// magnet on it, a bolt and a pin beside it. A cord runs round 30 x 30 mm of it. The cutter runs clockwise round the part, down to Z 17.5.
/// </summary>
internal static class TrimShop
{
    /// <summary>The bridge of the tabbed trim: its middle is this far along the cutter's path.</summary>
    private const double TabAt = 25.2;

    public static Job Job { get; } =
        TestShop.Job(TestShop.EndMill(1, 6), TestShop.Cone(4, ToolKind.Engraver, 3, 60, 0.1)) with
        {
            TrimTool = TestShop.EndMill(9, 3) with { MaxRampDeg = 20 },
            BlockMaterial = TestShop.Material with { MaxRampDeg = 20 },
            ShellMaterial = TestShop.Material with { MaxRampDeg = 20 },
            Skirt = SkirtHold.Tabs,
            ShellFriction = 0.9,
            Gasket = TestShop.Job().Gasket with { P25MinKPa = 3, P25MaxKPa = 6 },
        };

    private static Contour Cord => TestShop.Rounded(35, 35, 65, 65, 5);

    private static Contour Sealed => TestShop.Rounded(36.5, 36.5, 63.5, 63.5, 3.5);

    public static FixtureDesign Design { get; } = Make([]);

    /// <summary>The same with one bridge in the left side, left 0.5 mm thick.</summary>
    public static FixtureDesign Tabbed { get; } = Make([new Tab(TabAt, 4)]);

    /// <summary>Once round at full depth.</summary>
    public const string Once = """
        G0 X50. Y28.5
        G0 Z20.
        G1 Z18.5 F300.
        G1 X35. Z17.5 F800.
        G2 X28.5 Y35. I0. J6.5
        G1 Y65.
        G2 X35. Y71.5 I6.5 J0.
        G1 X65.
        G2 X71.5 Y65. I0. J-6.5
        G1 Y35.
        G2 X65. Y28.5 I-6.5 J0.
        G1 X35.
        """;

    /// <summary>The same, lifted over the bridge.</summary>
    public static string OverTheTab { get; } =
        Once.Replace("G1 Y65.", "G1 Y40.\nG1 Y45. Z18.5\nG1 Y55.\nG1 Y60. Z17.5\nG1 Y65.", StringComparison.Ordinal);

    public static string Program(string body) =>
        $"""
            %
            O1001
            (TEST F001 R1)
            (PROGRAM 1001 TRIM)
            (1 MAGNETS ON THE SHELL)
            (PINS IN, BOLTS IN)
            G21 G17 G40 G49 G80 G90 G94 G54
            M64
            M66
            (CHECK VACUUM AND MAGNETS)
            M0
            T9 M6
            S10000 M3 M8
            G0 G43 H9 Z40.
            {body}
            G0 Z40.
            M5 M9
            G53 G0 Z0.
            M65
            M30
            %

            """;

    private static FixtureDesign Make(ImmutableArray<Tab> tabs)
    {
        Contour edge = TestShop.Rounded(30, 30, 70, 70, 5);
        Contour outside = TestShop.Rounded(27, 27, 73, 73, 8);
        Contour path = Backwards(TestShop.Rounded(28.5, 28.5, 71.5, 71.5, 6.5));
        Region sweep = new(outside, [Backwards(edge)]);
        TrimCut cut = new()
        {
            Name = "outline",
            Kind = TrimKind.Outline,
            Edge = edge,
            Path = path,
            LeadIn = new OpenPath([path.Segments[^1]]),
            LeadOut = new OpenPath([path.Segments[0]]),
            Clearing = [],
            Tabs = tabs,
            Hold = SlugHold.Skirt,
            Tool = Job.TrimTool,
            FloorZ = 17.5,
            Sweep = [sweep],
        };
        Region relief = new(TestShop.Rounded(25, 25, 75, 75, 10), [Backwards(TestShop.Rounded(31, 31, 69, 69, 4))]);
        ImmutableArray<Region> area = [relief];
        FixtureDesign plain = TestShop.Design(
            TestShop.Pocket("skim", FeatureKind.Skim, Setup.Top, TestShop.Rectangle(0, 0, 100, 100), 20, 18),
            new PocketFeature
            {
                Name = "relief",
                Kind = FeatureKind.Relief,
                Setup = Setup.Top,
                Area = area,
                TopZ = 18,
                FloorZ = 17,
                Removals = [new Removal(Setup.Top, FeatureKind.Relief, "relief", area, 18, 17)],
            },
            new HoleFeature
            {
                Name = "bolt",
                Kind = FeatureKind.BoltHole,
                Setup = Setup.Top,
                At = new Point2(10, 10),
                Diameter = 5.5,
                TopZ = 18,
                FloorZ = 0,
                SlotLength = 0,
                SlotAngleDeg = 0,
                BreaksThrough = true,
                Opening = null,
                Removals = [],
            },
            new HoleFeature
            {
                Name = "pin",
                Kind = FeatureKind.PinHole,
                Setup = Setup.Top,
                At = new Point2(90, 50),
                Diameter = 6.1,
                TopZ = 18,
                FloorZ = 0,
                SlotLength = 0,
                SlotAngleDeg = 0,
                BreaksThrough = true,
                Opening = null,
                Removals = [],
            }
        );
        return plain with
        {
            Part = plain.Part with { Outer = edge },
            Magnets = [new MagnetPlace(new Point2(50, 50), false, false)],
            TrimCuts = [cut],
            Zones = [new SealedZone(0, Region.From(Cord), [Region.From(Sealed)], new Point2(50, 50), "port")],
            Cords = [new CordLoop(Cord, 111.4, 112.5, new Point2(50, 35), 0, true)],
            Contact =
            [
                new Region(
                    TestShop.Rounded(31, 31, 69, 69, 4),
                    [Backwards(TestShop.Rounded(33.5, 33.5, 66.5, 66.5, 6.5))]
                ),
                Region.From(Sealed),
            ],
        };
    }

    private static Contour Backwards(Contour c) => new([.. c.Segments.Reverse().Select(s => s.Reversed)]);
}
