using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Solve.Search;

/// <summary>What a job's stated values cost: each is left open for once, and what would then be taken is compared with what is made.</summary>
internal static class StatedCosts
{
    private static readonly ImmutableArray<(string Key, OpenKeys Open)> Openable =
    [
        ("shop.blank", OpenKeys.Blank),
        ("shop.gasket", OpenKeys.Gasket),
        ("shop.magnet", OpenKeys.Magnet),
        ("shop.trim_tool", OpenKeys.TrimTool),
        ("magnets.count", OpenKeys.Count),
        ("trim.passes", OpenKeys.Passes),
        ("trim.rpm", OpenKeys.Rpm),
        ("trim.feed", OpenKeys.Feed),
    ];

    /// <summary>Those that cost more than a thousandth of the batch, the dearest first.</summary>
    /// <param name="reopened">The best with keys left open, if it takes less than what is made; null where there is none.</param>
    public static ImmutableArray<StatedCost> Find(Solution made, Func<OpenKeys, Solution?> reopened) =>
        [
            .. Openable
                .Where(k => !made.Draft.Job.Open.HasFlag(k.Open) && Asked(made.Draft.Job, k.Open))
                .Select(k => (k.Key, Other: reopened(k.Open)))
                .Where(k => k.Other is not null && made.Batch - k.Other.Batch > 0.001 * made.Batch)
                .Select(k => new StatedCost(
                    k.Key,
                    Value(made, k.Key),
                    Value(k.Other!, k.Key),
                    made.Batch - k.Other!.Batch,
                    made.Magnets - k.Other.Magnets
                ))
                .OrderByDescending(c => c.Minutes),
        ];

    /// <summary>A job that magnets hold has no cord to choose.</summary>
    public static bool Asked(Job job, OpenKeys key) => key != OpenKeys.Gasket || job.HoldBy != HoldBy.Magnets;

    private static string Value(Solution solution, string key) =>
        SolveWords.Keys(solution.Draft.Job, solution.Magnets).First(k => k.Key == key).Value;
}
