using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Toolpaths;

/// <summary>
/// Which tools make the features: of all sets of tools that can make every feature, the one with the least cutting and
/// changing time. Tools that only one method names (drills, engravers) are in every set that needs them.
/// </summary>
internal static class ToolSet
{
    /// <summary>Sets are tried one by one up to this many tools; beyond it the largest are kept.</summary>
    private const int MostTools = 16;

    /// <summary>For each feature its method; a feature without any method must have been refused before.</summary>
    public static ImmutableArray<Method> Choose(IReadOnlyList<ImmutableArray<Method>> methods, double changeMinutes)
    {
        List<Tool> tools =
        [
            .. methods
                .SelectMany(m => m)
                .SelectMany(m => m.Cuttings)
                .Select(c => c.Tool)
                .Distinct()
                .OrderByDescending(t => t.Diameter)
                .ThenBy(t => t.Number)
                .Take(MostTools),
        ];
        int[][] masks =
        [
            .. methods.Select(ms =>
                ms.Select(m => m.Cuttings.Aggregate(0, (s, c) => s | Bit(tools, c.Tool))).ToArray()
            ),
        ];
        (int best, double least) = (-1, double.PositiveInfinity);
        for (int set = 1; set < 1 << tools.Count; set++)
        {
            double minutes = int.PopCount(set) * changeMinutes;
            for (int f = 0; f < masks.Length && minutes < least; f++)
            {
                minutes += Fastest(methods[f], masks[f], set) is { } m
                    ? methods[f][m].Minutes
                    : double.PositiveInfinity;
            }
            if (minutes < least - 1e-9)
            {
                (best, least) = (set, minutes);
            }
        }
        return [.. methods.Select((ms, f) => ms[Fastest(ms, masks[f], best) ?? 0])];
    }

    private static int Bit(List<Tool> tools, Tool tool)
    {
        int at = tools.IndexOf(tool);
        return at < 0 ? 1 << MostTools : 1 << at;
    }

    private static int? Fastest(ImmutableArray<Method> methods, int[] masks, int set)
    {
        int? fastest = null;
        for (int m = 0; m < methods.Length; m++)
        {
            if (
                (masks[m] & ~set) == 0
                && (fastest is null || methods[m].Minutes < methods[fastest.Value].Minutes - 1e-9)
            )
            {
                fastest = m;
            }
        }
        return fastest;
    }
}
