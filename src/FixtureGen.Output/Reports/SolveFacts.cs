using FixtureGen.Model;

namespace FixtureGen.Output.Reports;

/// <summary>
/// What was chosen for the keys that a job leaves open. Chosen and Next state every such key as the job file would; Next is null
/// where nothing else meets the limits or was worth working out. Stated are the job's own values that cost time; Mend says what would
/// help where the limits are not met, and is empty where they are.
/// </summary>
public sealed record SolveFacts(
    bool Meets,
    SolveOptionFacts Chosen,
    SolveOptionFacts? Next,
    IReadOnlyList<StatedFacts> Stated,
    string Mend
)
{
    /// <summary>The report's section of a solved job.</summary>
    public static SolveFacts From(SolveReport solve) =>
        new(
            solve.Meets,
            SolveOptionFacts.From(solve.Chosen),
            solve.Next is { } next ? SolveOptionFacts.From(next) : null,
            [
                .. solve.Stated.Select(s => new StatedFacts(
                    s.Key,
                    s.Value,
                    s.Instead,
                    Math.Round(s.Minutes, 2),
                    s.Magnets
                )),
            ],
            solve.Mend
        );
}

/// <summary>Minutes are of machine time: of the batch, of one trim, of the block. Factors are the worst case's.</summary>
public sealed record SolveOptionFacts(
    IReadOnlyDictionary<string, string> Keys,
    IReadOnlyList<string> Stated,
    double BatchMinutes,
    double TrimMinutes,
    double BlockMinutes,
    int Magnets,
    double Vacuum,
    double Stopping
)
{
    /// <summary>Staying put on magnets alone under the full cutting load, where they are the hold; else null.</summary>
    public double? MagnetsOnly { get; init; }

    internal static SolveOptionFacts From(SolveOption o) =>
        new(
            new SortedDictionary<string, string>(o.Keys.ToDictionary(k => k.Key, k => k.Value), StringComparer.Ordinal),
            [.. o.Keys.Where(k => k.Stated).Select(k => k.Key)],
            Math.Round(o.BatchMinutes, 2),
            Math.Round(o.TrimMinutes, 3),
            Math.Round(o.BlockMinutes, 3),
            o.Magnets,
            Math.Round(o.Vacuum, 4),
            Math.Round(o.Stopping, 4)
        )
        {
            MagnetsOnly = o.MagnetsOnly is { } put ? Math.Round(put, 4) : null,
        };
}

/// <summary>A stated value, what would be taken were its key left out, and what that saves: minutes over the batch, magnets (negative: more).</summary>
public sealed record StatedFacts(string Key, string Value, string Instead, double Minutes, int Magnets);
