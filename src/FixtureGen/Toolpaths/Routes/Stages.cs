using FixtureGen.Model;

namespace FixtureGen.Toolpaths.Routes;

/// <summary>The order in which a block is cut and what its operations are called; common practice, no source.</summary>
internal static class Stages
{
    public static int StageOf(FeatureKind kind) =>
        kind switch
        {
            FeatureKind.Skim => 0,
            FeatureKind.Relief => 1,
            FeatureKind.CutoutRelief => 2,
            FeatureKind.FormPocket => 3,
            FeatureKind.Net => 4,
            FeatureKind.Channel => 5,
            FeatureKind.GasketGroove => 6,
            FeatureKind.MagnetPocket => 7,
            FeatureKind.MagnetNotch => 8,
            FeatureKind.Label => 9,
            FeatureKind.Mark => 10,
            FeatureKind.Counterbore => 11,
            FeatureKind.BoltHole => 12,
            FeatureKind.LocatorHole => 13,
            FeatureKind.PinHole => 14,
            FeatureKind.PinSlot => 15,
            FeatureKind.Port => 16,
        };

    public static string Name(FeatureKind kind) =>
        kind switch
        {
            FeatureKind.Skim => "skim",
            FeatureKind.Relief => "relief",
            FeatureKind.CutoutRelief => "cutout relief",
            FeatureKind.FormPocket => "form pocket",
            FeatureKind.Net => "vacuum net",
            FeatureKind.Channel => "channel",
            FeatureKind.GasketGroove => "gasket groove",
            FeatureKind.MagnetPocket => "magnet pockets",
            FeatureKind.MagnetNotch => "magnet notches",
            FeatureKind.Label => "label",
            FeatureKind.Mark => "marks",
            FeatureKind.Counterbore => "counterbores",
            FeatureKind.BoltHole => "bolt holes",
            FeatureKind.LocatorHole => "locator holes",
            FeatureKind.PinHole => "pin hole",
            FeatureKind.PinSlot => "pin slot",
            FeatureKind.Port => "port",
        };
}
