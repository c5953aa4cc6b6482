using System.Text;

namespace FixtureGen.Drawing.Svg;

/// <summary>
/// The few properties that say how a shape is shown, by attribute, style sheet and style attribute in that order (SVG 2, 6.4
/// and 6.6). Of selectors only a tag, a class or an id alone are known.
/// </summary>
internal sealed class SvgStyles
{
    private static readonly string[] Known =
    [
        "stroke",
        "fill",
        "stroke-dasharray",
        "display",
        "visibility",
        "color",
        "font-size",
        "text-anchor",
        "transform",
    ];

    private readonly Dictionary<string, Dictionary<string, string>> _rules = new(StringComparer.Ordinal);

    /// <summary>Takes the rules of a style element; later ones go before earlier ones.</summary>
    public void Take(string sheet)
    {
        int at = 0;
        while (sheet.IndexOf('{', at) is >= 0 and var open && sheet.IndexOf('}', open) is >= 0 and var close)
        {
            string selectors = WithoutComments(sheet[at..open]);
            string body = sheet[(open + 1)..close];
            foreach (string selector in selectors.Split(',', StringSplitOptions.TrimEntries))
            {
                if (!_rules.TryGetValue(selector, out Dictionary<string, string>? rule))
                {
                    _rules[selector] = rule = new(StringComparer.Ordinal);
                }
                Declarations(body, rule);
            }
            at = close + 1;
        }
    }

    /// <summary>The properties that the element itself has, none inherited.</summary>
    public Dictionary<string, string> Own(SvgNode node)
    {
        var own = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (string name in Known)
        {
            if (name != "transform" && node[name] is { } value)
            {
                own[name] = value;
            }
        }
        Rule(node.Name, own);
        foreach (string one in (node["class"] ?? "").Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries))
        {
            Rule("." + one, own);
        }
        if (node["id"] is { } id)
        {
            Rule("#" + id, own);
        }
        Declarations(node["style"] ?? "", own);
        return own;
    }

    private void Rule(string selector, Dictionary<string, string> into)
    {
        foreach ((string name, string value) in _rules.GetValueOrDefault(selector, []))
        {
            into[name] = value;
        }
    }

    private static void Declarations(string text, Dictionary<string, string> into)
    {
        foreach (string one in WithoutComments(text).Split(';'))
        {
            int colon = one.IndexOf(':', StringComparison.Ordinal);
            string name = colon < 0 ? "" : one[..colon].Trim().ToLowerInvariant();
            if (Known.Contains(name))
            {
                into[name] = one[(colon + 1)..].Replace("!important", "", StringComparison.Ordinal).Trim();
            }
        }
    }

    private static string WithoutComments(string text)
    {
        var kept = new StringBuilder(text.Length);
        int at = 0;
        while (text.IndexOf("/*", at, StringComparison.Ordinal) is >= 0 and var open)
        {
            kept.Append(text, at, open - at);
            int close = text.IndexOf("*/", open + 2, StringComparison.Ordinal);
            at = close < 0 ? text.Length : close + 2;
        }
        return kept.Append(text, at, text.Length - at).ToString().Trim();
    }
}
