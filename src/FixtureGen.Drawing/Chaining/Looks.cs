using FixtureGen.Drawing.Reading;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Chaining;

/// <summary>
/// What BYLAYER and BYBLOCK come to (DXF Reference, groups 6, 62 and 420). A frozen or invisible insert hides all that it
/// shows; one on a layer that is off only what lies on layer 0 and so on the insert's own.
/// </summary>
internal sealed class Looks(DxfFile drawing)
{
    private const string Solid = "CONTINUOUS";

    private static readonly string[] Broken =
    [
        "DASH",
        "CENTER",
        "CENTRE",
        "HIDDEN",
        "PHANTOM",
        "DOT",
        "DIVIDE",
        "BORDER",
    ];

    private readonly Dictionary<(EntityLook, string, CurveLook?), CurveLook> _known = [];

    /// <summary>The look of an entity on that layer, inside an insert of that look; null for one that is in no block.</summary>
    public CurveLook Resolve(EntityLook own, string layer, CurveLook? insert)
    {
        (EntityLook, string, CurveLook?) key = (own, layer, insert);
        if (!_known.TryGetValue(key, out CurveLook? look))
        {
            _known[key] = look = Made(own, layer, insert);
        }
        return look;
    }

    private CurveLook Made(EntityLook own, string layer, CurveLook? insert)
    {
        DrawnLayer on = drawing.Layers.GetValueOrDefault(layer, new DrawnLayer(Solid, 7, null, false, false, true));
        string lineType = Upper(own.LineType) switch
        {
            "" or "BYLAYER" => Upper(on.LineType),
            "BYBLOCK" => insert?.LineType ?? Solid,
            string named => named,
        };
        lineType = lineType is "" or "BYLAYER" or "BYBLOCK" ? Solid : lineType;
        string colour =
            own.Rgb is { } rgb ? DrawingColour.FromRgb(rgb)
            : own.Colour == 0 ? insert?.Colour ?? CurveLook.Plain.Colour
            : own.Colour is >= 1 and <= 255 ? DrawingColour.FromNumber(own.Colour)
            : on.Rgb is { } layerRgb ? DrawingColour.FromRgb(layerRgb)
            : DrawingColour.FromNumber(on.Colour);
        Hiding hidden =
            (on.Off ? Hiding.LayerOff : Hiding.None)
            | (on.Frozen ? Hiding.LayerFrozen : Hiding.None)
            | (on.Plotted ? Hiding.None : Hiding.LayerNotPlotted)
            | (own.Invisible ? Hiding.Invisible : Hiding.None)
            | ((insert?.Hidden ?? Hiding.None) & (Hiding.LayerFrozen | Hiding.Invisible));
        return new CurveLook(colour, lineType, HasGaps(lineType), hidden);
    }

    // what the file does not define is drawn solid by every program; a name that says dashes was dropped by a converter
    private bool HasGaps(string lineType) =>
        drawing.LineTypes.TryGetValue(lineType, out bool gaps)
            ? gaps
            : Array.Exists(Broken, b => lineType.Contains(b, StringComparison.Ordinal));

    private static string Upper(string name) => name.Trim().ToUpperInvariant();
}
