using FixtureGen.Model;

namespace FixtureGen.Drawing.Reading;

/// <summary>A layer of the LAYER table: what its entities look like, and whether they are shown and plotted.</summary>
internal sealed record DrawnLayer(string LineType, int Colour, int? Rgb, bool Off, bool Frozen, bool Plotted);

/// <summary>A drawing as its sections say it, nothing unfolded yet.</summary>
internal sealed class DxfFile
{
    /// <summary>$ACADVER, such as AC1015; null where the drawing does not say.</summary>
    public string? Version { get; set; }

    /// <summary>$INSUNITS; null where the drawing does not say.</summary>
    public int? InsUnits { get; set; }

    /// <summary>$MEASUREMENT: 0 inch, 1 metric; null where the drawing does not say.</summary>
    public int? Measurement { get; set; }

    /// <summary>One unit in mm if the units are the 96 pixels of an inch; null for a drawing whose units are no pixels.</summary>
    public double? PixelMm { get; set; }

    public Dictionary<string, Block> Blocks { get; } = new(StringComparer.OrdinalIgnoreCase);

    public List<Entity> Entities { get; } = [];

    /// <summary>The LAYER table; a layer that only entities name is not in it, and is shown like any other.</summary>
    public Dictionary<string, DrawnLayer> Layers { get; } = new(StringComparer.OrdinalIgnoreCase);

    /// <summary>The LTYPE table: true for a line type with gaps.</summary>
    public Dictionary<string, bool> LineTypes { get; } = new(StringComparer.OrdinalIgnoreCase);

    /// <summary>Entities of paper space by type; no part is read from there.</summary>
    public SortedDictionary<string, int> Paper { get; } = new(StringComparer.Ordinal);

    public List<Finding> Findings { get; } = [];

    /// <summary>Values of a file that were written oddly and read all the same, by what was odd.</summary>
    public SortedDictionary<string, int> Oddities { get; } = new(StringComparer.Ordinal);

    public void Odd(string what, int count = 1)
    {
        if (count > 0)
        {
            Oddities[what] = Oddities.GetValueOrDefault(what) + count;
        }
    }
}
