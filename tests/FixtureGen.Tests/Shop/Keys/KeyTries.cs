using System.Globalization;
using System.Text.RegularExpressions;
using FixtureGen.Shop.Reading;
using FixtureGen.Tests.Support;

namespace FixtureGen.Tests.Shop.Keys;

/// <summary>Other plausible values of the same kind for a key, the likeliest to show first.</summary>
internal static partial class KeyTries
{
    private static readonly double[] Steps = [1.25, 0.1, 15, 0.5, 6, 2, 0.8, 1.04, 0.96];

    /// <summary>Words by key; where kinds of file differ, by kind and key.</summary>
    private static readonly Dictionary<string, string[]> Words = new(StringComparer.Ordinal)
    {
        ["units"] = ["in", "mm"],
        ["unit"] = ["in", "mm", "cm"],
        ["gaskets/kind"] = ["sponge", "solid"],
        ["fasteners/kind"] = ["screw", "pin"],
        ["tools/kind"] = ["end-mill", "ball-mill", "face-mill", "drill", "engraver"],
        ["helix"] = ["up", "down", "straight"],
        ["in"] = ["plastic", "metal"],
        ["pushes"] = ["up", "right", "down", "left"],
        ["numbers"] = ["always-point", "fixed", "shortest"],
        ["comment"] = ["parentheses", "semicolon"],
        ["arcs"] = ["centre", "radius"],
        ["dwell"] = ["seconds", "milliseconds"],
        ["dwell_word"] = ["P", "X"],
        ["by"] = ["pins", "form", "hand"],
        ["hold.by"] = ["magnets", "vacuum"],
        ["holes"] = ["round-and-slot", "round"],
        ["skirt.hold"] = ["tabs", "sealed-land", "clamps", "none"],
        ["direction"] = ["up", "down"],
        ["small_holes"] = ["drill", "second-cutter", "spot", "leave"],
        ["inner_corners"] = ["second-cutter", "refuse"],
        ["top"] = ["flat", "cap"],
        ["plug"] = ["auto", "always", "never"],
        ["paper"] = ["A4", "Letter"],
        ["trim_tool"] = ["trim-1-8-up", "trim-1-8-down", "mill-1-8"],
        ["grade"] = ["N42", "N45"],
        ["drawing.layers.outline"] = ["OUTLINE", "CUTOUT"],
        ["drawing.layers.cutout"] = ["OUTLINE", "CUTOUT"],
        ["drawing.layers.engrave"] = ["OUTLINE", "CUTOUT"],
        ["drawing.layers.form"] = ["OUTLINE", "CUTOUT"],
        ["drawing.layers.magnet"] = ["OUTLINE", "CUTOUT"],
        ["drawing.layers.keepout"] = ["OUTLINE", "CUTOUT"],
        ["drawing.ignore"] = ["OUTLINE", "CUTOUT"],
        ["drawing.colours.outline"] = ["black"],
        ["drawing.line_types.outline"] = ["CONTINUOUS"],
        ["drawing.colours.cutout"] = ["black"],
        ["drawing.line_types.cutout"] = ["CONTINUOUS"],
        ["drawing.colours.engrave"] = ["black"],
        ["drawing.line_types.engrave"] = ["CONTINUOUS"],
        ["drawing.colours.form"] = ["black"],
        ["drawing.line_types.form"] = ["CONTINUOUS"],
        ["drawing.colours.magnet"] = ["black"],
        ["drawing.line_types.magnet"] = ["CONTINUOUS"],
        ["drawing.colours.keepout"] = ["black"],
        ["drawing.line_types.keepout"] = ["CONTINUOUS"],
        ["drawing.colours.ignore"] = ["black"],
        ["drawing.line_types.ignore"] = ["CONTINUOUS"],
    };

    /// <summary>Keys that name a file, and the folder it is in.</summary>
    private static readonly Dictionary<string, string> Folders = new(StringComparer.Ordinal)
    {
        ["plate"] = "plates",
        ["blank"] = "blanks",
        ["shell"] = "materials",
        ["material"] = "materials",
        ["tools"] = "tools",
        ["magnet"] = "magnets",
        ["gasket"] = "gaskets",
        ["bolt"] = "fasteners",
        ["pin"] = "fasteners",
        ["control"] = "controls",
    };

    public static IEnumerable<string> For(string kind, KeyPlace key) =>
        key.Value switch
        {
            TomlNumber n => Numbers(n),
            TomlFlag f => [f.Value ? "false" : "true"],
            TomlString s => Texts(kind, key, s.Text).Select(KeyText.Quoted),
            TomlList list => Lists(list),
            _ => throw new InvalidOperationException(key.Path),
        };

    private static IEnumerable<string> Numbers(TomlNumber n)
    {
        double[] whole = n.IsWhole ? [n.Value + 1, n.Value - 1, 2 * n.Value] : [];
        double[] others = n.Value == 0 ? [0.25, 1, 5, -0.1, -1] : [.. Steps.Select(s => s * n.Value)];
        return others
            .Take(3)
            .Concat(whole)
            .Concat(others.Skip(3))
            .Distinct()
            .Select(v => v.ToString("0.########", CultureInfo.InvariantCulture));
    }

    private static IEnumerable<string> Texts(string kind, KeyPlace key, string text)
    {
        if (
            kind == "jobs"
                && Folders.TryGetValue(key.Key, out string? folder)
                && key.Path.StartsWith("shop.", StringComparison.Ordinal)
            || key.Path == "material" && Folders.TryGetValue("material", out folder)
        )
        {
            return [.. DemoShop.Files.List(folder).Where(n => n != text).Order(StringComparer.Ordinal), text + "-x"];
        }
        foreach (string name in (string[])[kind + "/" + key.Key, key.Path, key.Key])
        {
            if (Words.TryGetValue(name, out string[]? words))
            {
                return words.Where(w => w != text);
            }
        }
        if (Measured().Match(text) is { Success: true } m)
        {
            double value = double.Parse(m.Groups[1].ValueSpan, CultureInfo.InvariantCulture);
            value = m.Groups[2].Success
                ? value / double.Parse(m.Groups[2].ValueSpan, CultureInfo.InvariantCulture)
                : value;
            double[] others = value == 0 ? [0.25, 1] : [.. Steps.Select(s => s * value)];
            return others.Select(v => v.ToString("0.########", CultureInfo.InvariantCulture) + " " + m.Groups[3].Value);
        }
        if (Code().Match(text) is { Success: true } code)
        {
            int number = int.Parse(code.Groups[2].ValueSpan, CultureInfo.InvariantCulture);
            return [FormattableString.Invariant($"{code.Groups[1].Value}{number + 1}")];
        }
        return kind == "controls" && text.Length < 2 ? [text + "P", "P"] : ["X " + text, text + "X"];
    }

    private static IEnumerable<string> Lists(TomlList list)
    {
        if (list.Items.All(i => i is TomlString))
        {
            string[] all = [.. list.Items.Select(KeyText.Literal)];
            yield return "[" + string.Join(", ", all.Append(all[0])) + "]";
            yield return "[" + string.Join(", ", all.Reverse()) + "]";
            yield return "[" + string.Join(", ", all[..^1]) + "]";
            yield break;
        }
        TomlNumber[] numbers = [.. Leaves(list)];
        foreach (TomlNumber n in numbers)
        {
            foreach (double step in (double[])[0.05, 3, -3])
            {
                double v = n.Value + (step * Math.Max(1, Math.Abs(n.Value) / 10));
                yield return Replaced(list, n, v.ToString("0.######", CultureInfo.InvariantCulture));
            }
        }
    }

    private static IEnumerable<TomlNumber> Leaves(TomlValue value) =>
        value switch
        {
            TomlNumber n => [n],
            TomlList l => l.Items.SelectMany(Leaves),
            _ => [],
        };

    private static string Replaced(TomlValue value, TomlValue old, string literal) =>
        ReferenceEquals(value, old) ? literal
        : value is TomlList l ? "[" + string.Join(", ", l.Items.Select(i => Replaced(i, old, literal))) + "]"
        : KeyText.Literal(value);

    [GeneratedRegex(@"^(\d+(?:\.\d+)?)(?:/(\d+))?\s+([A-Za-z][A-Za-z0-9/]*)$")]
    private static partial Regex Measured();

    [GeneratedRegex(@"^([MG])(\d+)$")]
    private static partial Regex Code();
}
