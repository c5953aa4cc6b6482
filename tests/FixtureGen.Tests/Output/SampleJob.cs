using FixtureGen.Model;

namespace FixtureGen.Tests.Output;

/// <summary>An invented shop for pictures and papers: one plate, one blank, three tools. Values are plausible, not sourced.</summary>
internal static class SampleJob
{
    public static Tool Tool(int number, string name, double diameter, ToolKind kind = ToolKind.EndMill) =>
        new(
            name,
            number,
            kind,
            diameter,
            Flutes: 2,
            FluteLength: 4 * diameter,
            ShankDiameter: Math.Max(6.35, diameter),
            StickOut: 30,
            HolderDiameter: 32,
            HolderLength: 40,
            TipAngleDeg: kind == ToolKind.Drill ? 118 : 60,
            TipDiameter: 0.2,
            HelixDirection.Up,
            HelixAngleDeg: 30,
            CentreCutting: true,
            MaxStepDown: diameter,
            MaxRampDeg: 5,
            RunOut: 0.02,
            MaxRpm: 20000
        );

    public static Plate Plate { get; } =
        new(
            "Master plate",
            Revision: 3,
            new Box2(-30, -30, 290, 290),
            Thickness: 25,
            [
                new EdgeStop(new Point2(50, 0), new Point2(0, 1)),
                new EdgeStop(new Point2(166, 0), new Point2(0, 1)),
                new EdgeStop(new Point2(0, 108), new Point2(1, 0)),
            ],
            PlacingTolerance: 0.25,
            [
                new PlateOpening("P1", OpeningKind.PinRound, new Point2(18, 108), 6, 8, 12),
                new PlateOpening("P2", OpeningKind.PinSlot, new Point2(198, 108), 6, 8, 12),
                new PlateOpening("B1", OpeningKind.Bolt, new Point2(12, 12), 6.35, 8, 12),
                new PlateOpening("B2", OpeningKind.Bolt, new Point2(203, 12), 6.35, 8, 12),
                new PlateOpening("B3", OpeningKind.Bolt, new Point2(12, 203), 6.35, 8, 12),
                new PlateOpening("B4", OpeningKind.Bolt, new Point2(203, 203), 6.35, 8, 12),
                new PlateOpening("V1", OpeningKind.Port, new Point2(108, 108), 8, 9, 15),
            ],
            [],
            Shapes.Rounded(new Box2(28, 28, 188, 188), 10),
            SealGrooveWidth: 4,
            SealReactionNPerMm: 0.5,
            FrictionBlockOnPlate: 0.2,
            Skin: 0.5,
            new Machine(new Box3(-100, -100, -60, 400, 350, 250), 15000, 10000, 3000, 500, 20000, 3, 4, 1.5)
        );

    public static Job Create(string paper = "A4")
    {
        Blank blank = new("8.5 in HDPE", "HDPE", 215.9, 215.9, 19.05, 0.4);
        Material hdpe = new(
            "HDPE",
            200,
            400,
            [new ChipLoad(3.175, 0.05, 0.15)],
            20,
            60,
            1,
            0.45,
            5,
            1.2e-4,
            0.25,
            true,
            "invented"
        );
        Tool[] tools =
        [
            Tool(1, "3/8 end mill", 9.525),
            Tool(2, "1/8 end mill", 3.175),
            Tool(3, "1/4 end mill", 6.35),
            Tool(4, "60 deg engraver", 6.35, ToolKind.Engraver),
            Tool(5, "1/8 single flute", 3.175),
        ];
        return new Job(
            Name: "pruner-sheath",
            Title: "Pruner sheath, front half",
            FixtureId: "F-017",
            Revision: 2,
            ProgramNumber: 1170,
            LengthUnit.Millimetre,
            LengthUnit.Inch,
            new LayerRoles("OUTLINE", "CUTOUT", "ENGRAVE", "FORM", "MAGNET", "KEEPOUT"),
            Plate,
            blank,
            [],
            BlankThickness: 19.2,
            hdpe,
            hdpe with
            {
                Name = "PETG",
            },
            new Shell("PETG", 1.5, 1.6, 0.1, 0.4),
            LocatorKind.Form,
            [],
            SkirtHold.Tabs,
            [],
            [.. tools],
            tools[4],
            TrimFeedMmPerMin: null,
            TrimRpm: null,
            new MagnetSpec("D10x5", "N42", 1.28, 1.32, 10, 0.1, 5, 0.02, 80, 16, 8, 0.8, "invented"),
            MagnetCount: 4,
            [],
            MagnetFactorTarget: null,
            new Gasket("3 mm sponge", CordKind.Sponge, 3.2, 0.3, 0.3, 3.6, 2.2, 6, 0, 14, 35, 0.015, 0.6, "invented"),
            new Screw("1/4-20 x 1", 6.35, 1.27, 9.5, 6.35, 3, 15.9, 1.6, 6.8, 17, 5.6, 0.2, 20.5, "invented"),
            new DowelPin("6 mm dowel", 6, 8, 6.05, 8, 10, "invented"),
            SampleControl,
            new VacuumSupply(300, 85, 60, 40, 0.5),
            ShellFriction: null,
            DullFactor: 1.5,
            new HouseLimits(2, 1, 2),
            new Rules(18.5, 0.3, 0.6, 0.5, 1.5, 3, 2, 3, 2, 40, 0.2, 0.1, 0.1, 1, 20, 4, 0.4, 3, 0.3, 5, 10, 5, 0.2),
            Placement: null,
            paper,
            Quantity: 24,
            []
        );
    }

    private static Control SampleControl =>
        new(
            "default",
            "RS274 words",
            LengthUnit.Millimetre,
            3,
            DecimalHabit.Shortest,
            0,
            "O",
            4,
            1,
            9999,
            true,
            CommentForm.Parentheses,
            60,
            true,
            0,
            80,
            ArcForm.Centre,
            false,
            360,
            true,
            false,
            DwellUnit.Seconds,
            "P",
            [],
            [],
            true,
            "G54",
            "M3",
            "M5",
            "M7",
            "M9",
            "M64 P0",
            "M65 P0",
            "M66 P0",
            "M0",
            "M1",
            [],
            "M30"
        );
}
