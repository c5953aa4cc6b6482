using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Toolpaths.Methods;

namespace FixtureGen.Toolpaths.Routes;

/// <summary>
/// Which tools make the features: of all sets of tools that can make every feature, the one with the least cutting and
/// changing time. Tools that no method of some feature does without (its drill, the engraver) are in every set.
/// </summary>
internal static class ToolSet
{
    /// <summary>Sets are tried one by one up to this many tools beside those that are in every set; beyond it the largest are kept.</summary>
    private const int MostTools = 16;

    /// <summary>A set is left only where it cannot be the best by more than sums taken in another order differ, minutes.</summary>
    private const double Slack = 1e-6;

    /// <summary>For each feature its method; a feature without any method must have been refused before.</summary>
    public static ImmutableArray<Method> Choose(IReadOnlyList<ImmutableArray<Method>> methods, double changeMinutes)
    {
        HashSet<Tool> always = [.. methods.SelectMany(Needed)];
        List<Tool> tools =
        [
            .. methods
                .SelectMany(m => m)
                .SelectMany(m => m.Cuttings)
                .Select(c => c.Tool)
                .Distinct()
                .Where(t => !always.Contains(t))
                .OrderByDescending(t => t.Diameter)
                .ThenBy(t => t.Number)
                .Take(MostTools),
        ];
        Option[][] options =
        [
            .. methods.Select(ms => ms.Select(m => new Option(Bits(tools, always, m), m.Minutes)).ToArray()),
        ];
        double[] rest = LeastFrom(options);
        (int best, double least) = (-1, double.PositiveInfinity);
        for (int set = 0; set < 1 << tools.Count; set++)
        {
            double minutes = (always.Count + int.PopCount(set)) * changeMinutes;
            int f = 0;
            for (; f < options.Length && minutes + rest[f] < least + Slack; f++)
            {
                int m = Fastest(options[f], set);
                minutes += m < 0 ? double.PositiveInfinity : options[f][m].Minutes;
            }
            if (f == options.Length && minutes < least - 1e-9)
            {
                (best, least) = (set, minutes);
            }
        }
        return [.. methods.Select((ms, f) => ms[Math.Max(0, Fastest(options[f], best))])];
    }

    /// <summary>For each feature the least that it and those after it can take with all tools, minutes.</summary>
    private static double[] LeastFrom(Option[][] options)
    {
        double[] rest = new double[options.Length + 1];
        for (int f = options.Length - 1; f >= 0; f--)
        {
            rest[f] = rest[f + 1] + options[f].Min(o => o.Minutes);
        }
        return rest;
    }

    /// <summary>The tools that every method of a feature needs.</summary>
    private static IEnumerable<Tool> Needed(ImmutableArray<Method> methods) =>
        methods
            .Select(m => m.Cuttings.Select(c => c.Tool))
            .Aggregate((IEnumerable<Tool>?)null, (all, own) => all?.Intersect(own) ?? own)
        ?? [];

    private static int Bits(List<Tool> tools, HashSet<Tool> always, Method method) =>
        method.Cuttings.Where(c => !always.Contains(c.Tool)).Aggregate(0, (s, c) => s | Bit(tools, c.Tool));

    private static int Bit(List<Tool> tools, Tool tool)
    {
        int at = tools.IndexOf(tool);
        return at < 0 ? 1 << MostTools : 1 << at;
    }

    /// <summary>The fastest method that a set's tools can do, the first of equals; -1 where they can do none.</summary>
    private static int Fastest(Option[] options, int set)
    {
        int fastest = -1;
        for (int m = 0; m < options.Length; m++)
        {
            if ((options[m].Tools & ~set) == 0 && (fastest < 0 || options[m].Minutes < options[fastest].Minutes - 1e-9))
            {
                fastest = m;
            }
        }
        return fastest;
    }

    /// <summary>A method by its tools, as bits, and its minutes.</summary>
    private readonly record struct Option(int Tools, double Minutes);
}
