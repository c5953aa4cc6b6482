using System.Xml;
using FixtureGen.Drawing.Reading;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Svg;

/// <summary>
/// XML to elements, bounded: nothing outside the file is fetched, what entities expand to, elements and depth are counted, and
/// what is beyond the bounds or not well-formed is refused.
/// </summary>
internal static class SvgTree
{
    /// <summary>Most characters of a document, and of all that its uses repeat.</summary>
    public const long MostCharacters = 64 << 20;

    /// <summary>Most characters that the file's own entities may come to.</summary>
    private const long MostFromEntities = 1_000_000;

    /// <summary>Most elements inside each other.</summary>
    private const int Deepest = 256;

    /// <summary>The root element; null with the reason.</summary>
    public static SvgNode? Read(byte[] bytes, string file, out Finding? refusal)
    {
        var settings = new XmlReaderSettings
        {
            DtdProcessing = DtdProcessing.Parse,
            XmlResolver = null,
            MaxCharactersFromEntities = MostFromEntities,
            MaxCharactersInDocument = MostCharacters,
            IgnoreComments = true,
            IgnoreProcessingInstructions = true,
            CloseInput = true,
        };
        try
        {
            using var reader = XmlReader.Create(new MemoryStream(bytes), settings);
            return Elements(reader, file, out refusal);
        }
        catch (XmlException e)
        {
            refusal = DxfFindings.BadXml(file, e.LineNumber, e.Message);
            return null;
        }
    }

    private static SvgNode? Elements(XmlReader reader, string file, out Finding? refusal)
    {
        refusal = null;
        SvgNode? root = null;
        var open = new Stack<SvgNode>();
        int count = 0;
        while (reader.Read())
        {
            if (reader.NodeType == XmlNodeType.Element)
            {
                if (++count > DxfScan.MostEntities)
                {
                    refusal = DxfFindings.TooMany(file, "elements", count, DxfScan.MostEntities);
                    return null;
                }
                bool empty = reader.IsEmptyElement;
                SvgNode node = Element(reader);
                root ??= node;
                if (open.TryPeek(out SvgNode? parent))
                {
                    parent.Children.Add(node);
                }
                if (!empty)
                {
                    open.Push(node);
                }
                if (open.Count > Deepest)
                {
                    refusal = DxfFindings.TooDeep(file, node.Line, Deepest);
                    return null;
                }
            }
            else if (reader.NodeType == XmlNodeType.EndElement)
            {
                open.Pop();
            }
            else if (
                reader.NodeType is XmlNodeType.Text or XmlNodeType.CDATA or XmlNodeType.SignificantWhitespace
                && open.TryPeek(out SvgNode? inside)
                && inside.Name is "text" or "tspan" or "style"
            )
            {
                inside.Text.Append(reader.Value);
            }
        }
        return root;
    }

    private static SvgNode Element(XmlReader reader)
    {
        var node = new SvgNode(reader.LocalName, (reader as IXmlLineInfo)?.LineNumber ?? 0);
        while (reader.MoveToNextAttribute())
        {
            if (reader.Prefix != "xmlns" && reader.Name != "xmlns")
            {
                node.Set(reader.LocalName, reader.Value);
            }
        }
        return node;
    }
}
