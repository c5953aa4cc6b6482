using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Output.Reports;
using FixtureGen.Output.Scenes;
using FixtureGen.Toolpaths;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Output.Papers;

/// <summary>
/// Everything the papers print: what was asked (Job), what was designed, how it holds, how the programs were planned and
/// what the judge read back from their text. Times and lengths of programs are the judge's. Drawn is the part in the drawing's axes.
/// </summary>
public sealed record PaperFacts
{
    /// <summary>What was asked.</summary>
    public required Job Job { get; init; }

    /// <summary>What was designed.</summary>
    public required FixtureDesign Design { get; init; }

    /// <summary>How the shell holds.</summary>
    public required HoldingResult Holding { get; init; }

    /// <summary>Which way the trim cutter's flutes pull, and why.</summary>
    public required CutDirection Direction { get; init; }

    /// <summary>What the judge read back.</summary>
    public required VerifyResult Verdict { get; init; }

    /// <summary>How the block holds while it is cut.</summary>
    public required ImmutableArray<BlockHold> BlockHolds { get; init; }

    /// <summary>How the programs were planned.</summary>
    public required ImmutableArray<ProgramPlan> Plans { get; init; }

    /// <summary>The finished texts.</summary>
    public required ImmutableArray<ProgramText> Programs { get; init; }

    /// <summary>Cutters that would save time on the block, the most first.</summary>
    public ImmutableArray<MissingCutter> MissingCutters { get; init; } = [];

    /// <summary>The part in the drawing's axes.</summary>
    public required Part Drawn { get; init; }

    /// <summary>The verdict on one setup's program, or null where there is no such program.</summary>
    public ProgramVerdict? VerdictOf(Setup setup) => Verdict.Programs.FirstOrDefault(p => p.Setup == setup);

    /// <summary>The text of one setup's program, or null where there is no such program.</summary>
    public ProgramText? TextOf(Setup setup) => Programs.FirstOrDefault(p => p.Setup == setup);

    /// <summary>The factors below a house limit, in words; empty where none is.</summary>
    public ImmutableArray<string> Shortfalls => LowHold.Shortfalls(Holding, Job.Limits);

    /// <summary>A warning for every text of the job that the embedded letters cannot print whole.</summary>
    public IEnumerable<Finding> Unprintable()
    {
        (string Where, string Text)[] texts =
        [
            ("title", Job.Title),
            ("fixture", Job.FixtureId),
            ("name", Job.Name),
            ("blank", Job.Blank.Name),
            ("hold.accept_low_hold", Job.AcceptLowHold),
            .. SheetSources.Rows(Job).Select(r => (r.What, $"{r.Description} {r.Source}")),
            .. Job.Tools.Select(t => ($"tool {Figures.Whole(t.Number)}", t.Name)),
        ];
        foreach ((string where, string text) in texts)
        {
            IReadOnlyList<string> missing = Typefaces.Missing(text);
            if (missing.Count > 0)
            {
                yield return new Finding(
                    "paper-character",
                    Severity.Warning,
                    where,
                    $"pictures and papers have no letter for {string.Join(" ", missing)} in \"{text}\" and show a box",
                    "use Latin letters, digits and common signs"
                );
            }
        }
    }
}
