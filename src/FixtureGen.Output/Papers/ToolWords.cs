using System.Globalization;
using FixtureGen.Model;

namespace FixtureGen.Output.Papers;

/// <summary>A tool in the words of the shop: what it is and its size, in inches where that is a fraction, and its name in the changer.</summary>
internal static class ToolWords
{
    /// <summary>Parts of an inch that tools are sold in.</summary>
    private const int Parts = 64;

    /// <summary>A diameter within this of a fraction is meant to be it, mm.</summary>
    private const double Same = 0.003;

    public static string Describe(Tool tool) => $"{Kind(tool)} {Size(tool.Diameter)} ({tool.Name})";

    private static string Kind(Tool tool) =>
        tool.Kind switch
        {
            ToolKind.Drill => "Drill",
            ToolKind.BallMill => "Ball mill",
            ToolKind.FaceMill => tool.Flutes == 1
                ? "Fly cutter"
                : string.Create(CultureInfo.InvariantCulture, $"Face mill with {tool.Flutes} teeth,"),
            ToolKind.Engraver => string.Create(CultureInfo.InvariantCulture, $"Engraver {tool.TipAngleDeg:0.#}°,"),
            ToolKind.EndMill => tool.Helix switch
            {
                HelixDirection.Up => "End mill upcut",
                HelixDirection.Down => "End mill downcut",
                HelixDirection.Straight => "End mill straight",
            },
        };

    private static string Size(double mm)
    {
        int parts = (int)Math.Round(mm / Units.MmPerInch * Parts);
        if (parts == 0 || Math.Abs((parts * Units.MmPerInch / Parts) - mm) > Same)
        {
            return string.Create(CultureInfo.InvariantCulture, $"{mm:0.###} mm");
        }
        int below = Parts;
        while (parts % 2 == 0 && below > 1)
        {
            (parts, below) = (parts / 2, below / 2);
        }
        int whole = parts / below;
        string rest = parts % below == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $"{parts % below}/{below}");
        return string.Create(CultureInfo.InvariantCulture, $"{(whole > 0 ? $"{whole} " : "")}{rest}").Trim() + " in";
    }
}
