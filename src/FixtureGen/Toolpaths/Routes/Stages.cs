using FixtureGen.Model;

namespace FixtureGen.Toolpaths.Routes;

/// <summary>The order in which a block is cut and what its operations are called; common practice, no source.</summary>
internal static class Stages
{
    public static int StageOf(FeatureKind kind) =>
        kind switch
        {
            FeatureKind.Skim => 0,
            FeatureKind.Plug => 1,
            FeatureKind.PlugVent => 2,
            FeatureKind.Relief => 3,
            FeatureKind.CutoutRelief => 4,
            FeatureKind.FormPocket => 5,
            FeatureKind.Net => 6,
            FeatureKind.Channel => 7,
            FeatureKind.GasketGroove => 8,
            FeatureKind.MagnetPocket => 9,
            FeatureKind.MagnetNotch => 10,
            FeatureKind.Label => 11,
            FeatureKind.Mark => 12,
            FeatureKind.Counterbore => 13,
            FeatureKind.BoltHole => 14,
            FeatureKind.LocatorHole => 15,
            FeatureKind.PinHole => 16,
            FeatureKind.PinSlot => 17,
            FeatureKind.Port => 18,
        };

    public static string Name(FeatureKind kind) =>
        kind switch
        {
            FeatureKind.Skim => "skim",
            FeatureKind.Plug => "plug",
            FeatureKind.PlugVent => "plug vents",
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
