using System.Collections.Immutable;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Drawing.Reading;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Roles;

/// <summary>Every sentence about which curve has which role, and about what has none.</summary>
internal static class RoleFindings
{
    private const int MostNamed = 8;

    public static Finding NothingDrawn(string file, string layer) =>
        Error(
            "outline-missing",
            file,
            "The drawing holds no curve for an outline.",
            $"draw the part on layer '{layer}', in solid lines, shown and plotted"
        );

    public static Finding WhichLayer(
        string file,
        string outline,
        string[] layers,
        ImmutableArray<SuggestedRole> suggested,
        Stage<Part> tried
    )
    {
        string likely = suggested.FirstOrDefault(s => s.Role == CurveRole.Outline)?.Name ?? layers[0];
        return Error(
            "outline-layer",
            file,
            $"Curves lie on layers {List(layers)} and none of them is the outline's, '{outline}'.",
            $"name the outline's layer in the job, such as  [drawing.layers] outline = {Toml([likely])}  (and cutout, engrave, form, magnet, keepout where they are used), or draw it on '{outline}'{AsWhole(suggested)}{Came(tried)}"
        );
    }

    /// <summary>Layers with closed curves that the job says nothing of: a hole may be among them, so nothing is made.</summary>
    public static Finding ClosedWithoutRole(
        string file,
        List<(string Layer, int Count)> layers,
        ImmutableArray<SuggestedRole> suggested
    )
    {
        string list = string.Join(
            ", ",
            layers.Take(MostNamed).Select(l => DxfFindings.Text($"'{l.Layer}' ({l.Count})"))
        );
        string[] names = [.. layers.Select(l => l.Layer)];
        SuggestedRole? first = suggested.FirstOrDefault(s => s.Name == names[0] && s.Role != CurveRole.Ignore);
        string key = first is null ? "cutout" : RoleSuggestion.Key(first.Role);
        string[] alike =
        [
            .. names.Where(n => first is null || suggested.Any(s => s.Name == n && s.Role == first.Role)),
        ];
        return Error(
            "closed-without-role",
            file,
            DxfFindings.Text($"{layers.Sum(l => l.Count)} closed curves have no role; they lie on layers {list}."),
            $"give the layers their roles in the job, such as  [drawing.layers] {key} = {Toml(alike.Length > 0 ? alike : names)}  , or  [drawing] ignore = {Toml(names)}  where they are no part"
        );
    }

    public static Finding LayersUnused(string file, string[] layers, int curves) =>
        new(
            "layers-unused",
            Severity.Warning,
            file,
            DxfFindings.Text($"{curves} open curves on layers {List(layers)} have no role and are not used."),
            $"[drawing] ignore = {Toml(layers)}  in the job says that they are no part; else give the layers their roles, such as  [drawing.layers] engrave = {Toml(layers)}"
        );

    /// <summary>Curves that are left out for how they are drawn; a warning where some are closed, since those could be holes.</summary>
    /// <param name="closed">Closed curves among them.</param>
    /// <param name="likely">The role that the remedy names.</param>
    public static Finding NotUsed(string file, Unused why, List<DrawnCurve> curves, int closed, string likely)
    {
        DrawnCurve first = curves[0];
        string[] layers = [.. curves.Select(c => c.Layer).Distinct(StringComparer.OrdinalIgnoreCase)];
        string[] types = [.. curves.Select(c => c.Look.LineType).Distinct(StringComparer.Ordinal)];
        (string code, string how, string key) = why switch
        {
            Unused.Broken => (
                "line-not-solid",
                $"are not drawn solid (line type {string.Join(", ", types.Take(MostNamed))})",
                $"[drawing.line_types] {likely} = {Toml(types)}"
            ),
            Unused.Invisible => ("curve-invisible", "are made invisible", "[drawing] invisible = true"),
            Unused.LayerOff => (
                "layer-off",
                "lie on layers that are off",
                $"[drawing.layers] {likely} = {Toml(layers)}"
            ),
            Unused.LayerFrozen => (
                "layer-frozen",
                "lie on frozen layers",
                $"[drawing.layers] {likely} = {Toml(layers)}"
            ),
            Unused.LayerNotPlotted => (
                "layer-not-plotted",
                "lie on layers that are not plotted",
                $"[drawing.layers] {likely} = {Toml(layers)}"
            ),
        };
        string ignore =
            why == Unused.Broken
                ? $"[drawing.line_types] ignore = {Toml(types)}"
                : $"[drawing] ignore = {Toml(layers)}";
        return new Finding(
            code,
            closed > 0 ? Severity.Warning : Severity.Note,
            ChainFindings.Place(file, first.Path.Start),
            DxfFindings.Text(
                $"{curves.Count} curves, {closed} closed, on layers {List(layers)} {how}, so they are no edge of the part and are not used; the first is a {first.Entity}."
            ),
            $"nothing to do if they are no edge ({ignore}  says so in the job); if they are:  {key}"
        )
        {
            At = first.Path.Start,
        };
    }

    public static Finding NothingOfIt(string file, RoleName name, string kind) =>
        new(
            "role-without-curves",
            Severity.Warning,
            file,
            $"The job gives the {kind} '{name.Name}' a role and nothing in the drawing has it.",
            $"compare the spelling with the drawing's {kind}s, or take the name out of the job"
        );

    public static Finding WordsUnused(DrawingContent drawing, int texts, int points)
    {
        string say = drawing.Texts.IsEmpty ? "" : $", the first text reads '{Short(drawing.Texts[0].Text)}'";
        return new Finding(
            "text-unused",
            Severity.Note,
            drawing.File,
            DxfFindings.Text($"{texts} texts and {points} points have no role and are not used{say}."),
            "nothing to do if they are notes; text to engrave belongs on the ENGRAVE layer, a magnet's point on MAGNET"
        );
    }

    public static Finding Paper(string file, ImmutableSortedDictionary<string, int> paper)
    {
        string list = string.Join(", ", paper.Select(p => DxfFindings.Text($"{p.Value} {p.Key}")));
        return new Finding(
            "paper-space-unused",
            Severity.Note,
            file,
            $"Paper space is not read: {list}.",
            "nothing to do if the part is drawn in model space; else copy it there"
        );
    }

    /// <summary>Names as a TOML value: one in quotes, or a list.</summary>
    public static string Toml(IReadOnlyList<string> names)
    {
        IEnumerable<string> quoted = names.Select(n => $"\"{string.Concat(n.Select(Escaped))}\"");
        return names.Count == 1 ? quoted.First() : $"[{string.Join(", ", quoted)}]";
    }

    private static string Escaped(char c) =>
        c is '"' or '\\' ? $"\\{c}"
        : char.IsControl(c) ? DxfFindings.Text($"\\u{(int)c:X4}")
        : c.ToString();

    private static string AsWhole(ImmutableArray<SuggestedRole> suggested)
    {
        IEnumerable<string> roles = suggested
            .Where(s => s.Role != CurveRole.Ignore)
            .GroupBy(s => s.Role)
            .Select(g => $"{RoleSuggestion.Key(g.Key)} = {Toml([.. g.Select(s => s.Name)])}");
        string[] ignored = [.. suggested.Where(s => s.Role == CurveRole.Ignore).Select(s => s.Name)];
        return suggested.IsEmpty
            ? ""
            : $"; by names and places it looks like  {string.Join(", ", roles)}"
                + (ignored.Length > 0 ? $"  and  [drawing] ignore = {Toml(ignored)}" : "");
    }

    private static string Came(Stage<Part> tried) =>
        tried.Value is { } part
            ? DxfFindings.Text($" : tried, that makes one outline with {part.Cutouts.Length} cutouts")
            : $" : tried, that leaves  {tried.Findings.First(f => f.Severity == Severity.Error).Message}";

    private static string Short(string text) => text.Length <= 30 ? text : text[..30] + "...";

    private static string List(string[] names) => string.Join(", ", names.Take(MostNamed).Select(n => $"'{n}'"));

    private static Finding Error(string code, string where, string message, string remedy) =>
        new(code, Severity.Error, where, message, remedy);
}
