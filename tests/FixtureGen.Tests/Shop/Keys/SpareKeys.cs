using System.Text.RegularExpressions;
using FixtureGen.Tests.Support;

namespace FixtureGen.Tests.Shop.Keys;

/// <summary>Keys that neither a shipped file nor a fresh job states, each written into one that could.</summary>
internal static partial class SpareKeys
{
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
        foreach (string role in (string[])["outline", "cutout", "engrave", "form", "magnet", "keepout"])
        {
            layers = TomlLines.Set(layers, "drawing.layers", role, $"\"{role.ToUpperInvariant()}\"");
        }
        yield return layers;
        if (job.Contains("[[magnet]]", StringComparison.Ordinal))
        {
            yield return TomlLines.Set(job, "magnet", "locked", "true");
        }
        yield return TomlLines.Set(TomlLines.Set(job, "magnets", "factor_target", "1.5"), "magnets", "count", "0");
    }

    [GeneratedRegex("^kind = \"end-mill\"\n", RegexOptions.Multiline)]
    private static partial Regex Mill();
}
