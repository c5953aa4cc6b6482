using FixtureGen.Model;

namespace FixtureGen.Output.Scenes;

/// <summary>How one sort of feature looks; each differs from its neighbours in lightness or in line kind, so that grey is enough.</summary>
internal sealed record LineKind(string Name, Pen? Pen, Colour? Fill, double HatchDeg, Pen? Hatch, bool Cross)
{
    private static readonly Colour Ink = Colour.FromRgb(0x1A1A1A);

    public static LineKind Blank { get; } = new("Blank", Pen.Solid(0.5, Ink), Colour.FromRgb(0xF6F4EE), 0, null, false);

    public static LineKind Relief { get; } =
        new("Relief for the trim cutter", Pen.Solid(0.18, Ink), Colour.FromRgb(0xD9D8D2), 0, null, false);

    public static LineKind Form { get; } =
        new("Form pocket", new(0.25, Ink, [2, 0.7]), Colour.FromRgb(0xC9D6E2), 0, null, false);

    public static LineKind Dome { get; } =
        new("Form, rises from the flange", new(0.35, Ink, [3, 0.8]), null, 0, null, false);

    public static LineKind Plug { get; } =
        new(
            "Plug, raised from the block",
            Pen.Solid(0.25, Ink),
            Colour.FromRgb(0xE7D3B1),
            -45,
            Pen.Solid(0.13, Colour.FromRgb(0x8A6A35)),
            false
        );

    public static LineKind Zone { get; } =
        new("Sealed zone", null, null, 45, Pen.Solid(0.13, Colour.FromRgb(0x4F7FA8)), false);

    public static LineKind Net { get; } =
        new("Distribution groove", Pen.Solid(0.15, Ink), Colour.FromRgb(0x9DBAD3), 0, null, false);

    public static LineKind Below { get; } =
        new("Cut from below, hidden", new(0.25, Ink, [1.2, 0.8]), null, 0, null, false);

    public static LineKind Gasket { get; } =
        new("Gasket groove", Pen.Solid(0.1, Ink), Colour.FromRgb(0x35506B), 0, null, false);

    public static LineKind Magnet { get; } =
        new("Magnet pocket", Pen.Solid(0.5, Colour.FromRgb(0x8C1C13)), Colour.FromRgb(0xF4C9BE), 0, null, true);

    public static LineKind Bolt { get; } =
        new("Bolt hole, counterbored", Pen.Solid(0.35, Ink), Colour.White, 0, null, true);

    public static LineKind Pin { get; } = new("Pin hole, slot", Pen.Solid(0.35, Ink), Ink, 0, null, false);

    public static LineKind Locator { get; } =
        new("Shell locator hole", Pen.Solid(0.35, Ink), Colour.FromRgb(0x8A8A8A), 0, null, false);

    public static LineKind Port { get; } =
        new(
            "Vacuum port",
            Pen.Solid(0.5, Colour.FromRgb(0x14507A)),
            Colour.White,
            45,
            Pen.Solid(0.35, Colour.FromRgb(0x14507A)),
            false
        );

    public static LineKind Engraving { get; } =
        new("Engraving on the block", Pen.Solid(0.3, Colour.FromRgb(0x5B4A1F)), null, 0, null, false);

    public static LineKind Edge { get; } = new("Finished edge of the part", Pen.Solid(0.6, Ink), null, 0, null, false);

    public static LineKind Trim { get; } =
        new("Trim path, cutter centre", new(0.3, Colour.FromRgb(0xB03A00), [4, 0.9, 0.5, 0.9]), null, 0, null, false);

    public static LineKind ShellMark { get; } =
        new("Engraving on the part", new(0.25, Ink, [0.5, 0.5]), null, 0, null, false);

    public static LineKind KeepOut { get; } =
        new("Keep-out", new(0.25, Ink, [1, 1]), null, -45, Pen.Solid(0.13, Colour.FromRgb(0x777777)), false);

    public static LineKind PlateSeal { get; } =
        new(
            "Seal of the plate, below",
            new(0.25, Colour.FromRgb(0x6B6B6B), [5, 1, 0.8, 1, 0.8, 1]),
            null,
            0,
            null,
            false
        );

    public static LineKind Tab { get; } =
        new("Tab left in the trim cut", Pen.Solid(1.3, Colour.FromRgb(0x2E6B2E)), null, 0, null, false);

    public static LineKind Joint { get; } =
        new("Joint of the cord", Pen.Solid(0.7, Colour.White), null, 0, null, false);

    /// <summary>The kind of a feature that is seen from the side it is cut from.</summary>
    public static LineKind For(FeatureKind kind) =>
        kind switch
        {
            FeatureKind.Relief or FeatureKind.CutoutRelief => Relief,
            FeatureKind.FormPocket => Form,
            FeatureKind.GasketGroove => Gasket,
            FeatureKind.Net or FeatureKind.Channel => Net,
            FeatureKind.MagnetPocket or FeatureKind.MagnetNotch => Magnet,
            FeatureKind.BoltHole or FeatureKind.Counterbore => Bolt,
            FeatureKind.PinHole or FeatureKind.PinSlot => Pin,
            FeatureKind.LocatorHole => Locator,
            FeatureKind.Port => Port,
            FeatureKind.Label or FeatureKind.Mark => Engraving,
            FeatureKind.Skim or FeatureKind.Plug => Blank,
            FeatureKind.PlugVent => Net,
        };

    /// <summary>Lays areas down in this kind; widths and hatch are on paper, so they do not shrink with the view.</summary>
    public void Areas(Scene scene, View view, IReadOnlyList<Region> areas)
    {
        scene.Shape(view.ToPage(areas), Fill is null ? null : Pen, Fill);
        if (Hatch is not null)
        {
            scene.Shape(
                view.ToPage(Hatching.Lines(areas, HatchDeg, (Name == Port.Name ? 1.1 : 1.8) / view.Scale)),
                Hatch
            );
        }
        if (Fill is null && Pen is not null)
        {
            scene.Shape(view.ToPage(areas), Pen);
        }
    }
}
