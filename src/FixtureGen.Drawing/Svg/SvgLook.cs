using FixtureGen.Drawing.Reading;

namespace FixtureGen.Drawing.Svg;

/// <summary>What a shape inherits and shows: line colour or else fill, dashes, display and visibility, size and start of text.</summary>
internal sealed record SvgLook(
    string Stroke,
    string Fill,
    bool Dashed,
    bool Removed,
    bool Hidden,
    double FontSize,
    bool FromLeft
)
{
    /// <summary>The initial values (SVG 2, 13.2; CSS Fonts 4, medium = 16 px).</summary>
    public static SvgLook Start { get; } = new("none", "black", false, false, false, 16, true);

    /// <summary>True where an area is shown without a line round it.</summary>
    public bool FilledOnly => Stroke == "none" && Fill != "none";

    /// <summary>As an entity's look: dashes as a line type of that name, no line and no fill as invisible.</summary>
    public EntityLook ForEntity =>
        new(
            Dashed && Stroke != "none" ? "DASHED" : "CONTINUOUS",
            7,
            SvgColour.Rgb(Stroke != "none" ? Stroke : Fill),
            Removed || Hidden || (Stroke == "none" && Fill == "none")
        );

    /// <summary>The look of an element inside, with its own properties.</summary>
    public SvgLook With(Dictionary<string, string> own)
    {
        string? Value(string name) =>
            own.GetValueOrDefault(name) is { } v && v != "inherit" ? v.Trim().ToLowerInvariant() : null;
        return this with
        {
            Stroke = Value("stroke") ?? Stroke,
            Fill = Value("fill") ?? Fill,
            Dashed = Value("stroke-dasharray") is { } dashes
                ? dashes != "none"
                    && (SvgNumbers.List(dashes.Replace("px", " ", StringComparison.Ordinal)) ?? [1]).Exists(d => d > 0)
                : Dashed,
            Removed = Removed || Value("display") == "none",
            Hidden = Value("visibility") is { } seen ? seen != "visible" : Hidden,
            FontSize = Value("font-size") is { } size && SvgNumbers.Length(size) is { } px ? px : FontSize,
            FromLeft = Value("text-anchor") is { } anchor ? anchor == "start" : FromLeft,
        };
    }
}
