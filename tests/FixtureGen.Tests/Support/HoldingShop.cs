using FixtureGen.Model;

namespace FixtureGen.Tests.Support;

/// <summary>Invented shop data for holding tests.</summary>
internal static class HoldingShop
{
    public static Material Plastic { get; } =
        new(
            "sheet plastic",
            200,
            400,
            [new(3, 0.05, 0.1), new(6, 0.1, 0.2)],
            80,
            200,
            0.5,
            0.4,
            10,
            8e-5,
            0.2,
            true,
            "test"
        );

    public static Tool Cutter(double diameter) =>
        new(
            "single flute",
            1,
            ToolKind.EndMill,
            diameter,
            1,
            12,
            diameter,
            25,
            25,
            40,
            0,
            0,
            HelixDirection.Straight,
            25,
            true,
            diameter,
            10,
            0.01,
            18000
        );
}
