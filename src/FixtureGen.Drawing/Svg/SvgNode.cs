using System.Text;

namespace FixtureGen.Drawing.Svg;

/// <summary>One element of an SVG document: local name, attributes by local name, children, the text inside, and the line it starts on.</summary>
internal sealed class SvgNode(string name, int line)
{
    public string Name { get; } = name;

    public int Line { get; } = line;

    private Dictionary<string, string> Attributes { get; } = new(StringComparer.Ordinal);

    public List<SvgNode> Children { get; } = [];

    /// <summary>The text between its children.</summary>
    public StringBuilder Text { get; } = new();

    /// <summary>Characters of all attributes: what reading it once costs.</summary>
    public int Size { get; private set; }

    public void Set(string attribute, string value)
    {
        Attributes[attribute] = value;
        Size += value.Length;
    }

    /// <summary>The attribute without blanks round it; null where it is missing or empty.</summary>
    public string? this[string attribute] =>
        Attributes.GetValueOrDefault(attribute)?.Trim() is { Length: > 0 } value ? value : null;
}
