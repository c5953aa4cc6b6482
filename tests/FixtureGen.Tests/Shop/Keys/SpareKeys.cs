using System.Text.RegularExpressions;
using FixtureGen.Tests.Support;

namespace FixtureGen.Tests.Shop.Keys;

/// <summary>Keys that neither a shipped file nor a fresh job states, each written into one that could.</summary>
internal static partial class SpareKeys
{
    private static readonly string[] Roles = ["outline", "cutout", "engrave", "form", "magnet", "keepout", "ignore"];

    /// <summary>The file's text with its spare keys; null where the folder has none.</summary>
    public static string? InShopFile(string kind, string text) =>
        kind == "tools"
            ? Mill().Replace(text, "$0max_step_down = \"1 mm\"\nrun_out = \"0.02 mm\"\ncentre_cutting = true\n")
            : null;

    /// <summary>The job with a spare table more; once for every table.</summary>
    public static IEnumerable<string> InJob(string job)
    {
        yield return TomlLines.Set(job, "drawing", "unit", "\"mm\"");
        string layers = job;
        foreach (string role in Roles.SkipLast(1))
        {
            layers = TomlLines.Set(layers, "drawing.layers", role, $"\"{role.ToUpperInvariant()}\"");
        }
        yield return layers;
        string colours = job;
        string lineTypes = job;
        foreach ((int i, string role) in Roles.Index())
        {
            colours = TomlLines.Set(colours, "drawing.colours", role, FormattableString.Invariant($"\"{100 + i}\""));
            lineTypes = TomlLines.Set(
                lineTypes,
                "drawing.line_types",
                role,
                FormattableString.Invariant($"\"NONE {i}\"")
            );
        }
        yield return colours;
        yield return lineTypes;
        yield return TomlLines.Set(job, "drawing", "ignore", "\"NONE\"");
        yield return TomlLines.Set(job, "drawing", "invisible", "false");
        yield return TomlLines.Set(job, "drawing", "join", "\"0.1 mm\"");
        yield return TomlLines.Set(job, "drawing", "small_holes", "\"leave\"");
        yield return "mirror = false\n" + job;
        yield return TomlLines.Set(job, "drawing", "inner_corners", "\"refuse\"");
        if (job.Contains("[[form]]", StringComparison.Ordinal))
        {
            yield return TomlLines.Set(TomlLines.Set(job, "form", "top", "\"flat\""), "form", "plug", "\"auto\"");
        }
        if (job.Contains("[[magnet]]", StringComparison.Ordinal))
        {
            yield return TomlLines.Set(job, "magnet", "locked", "true");
        }
        yield return TomlLines.Set(TomlLines.Set(job, "magnets", "factor_target", "1.5"), "magnets", "count", "0");
    }

    [GeneratedRegex("^kind = \"end-mill\"\n", RegexOptions.Multiline)]
    private static partial Regex Mill();
}
