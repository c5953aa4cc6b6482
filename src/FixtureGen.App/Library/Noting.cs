using System.Collections.Immutable;
using FixtureGen.App.Records;

namespace FixtureGen.App.Library;

/// <summary>
/// What somebody notes of a job's block. Spare: another block beside one that is good. Revision and Block are null where the
/// usual one is meant; Amount is parts for cycles and Pa a minute for a leak.
/// </summary>
internal sealed record Noting(string Job, Happening What)
{
    /// <summary>Every kind by the word of the register's option and of the page, without a job.</summary>
    public static ImmutableDictionary<string, Noting> Kinds { get; } =
        new Dictionary<string, Noting>
        {
            ["cut"] = new("", Happening.Cut),
            ["spare"] = new("", Happening.Cut) { Spare = true },
            ["worn"] = new("", Happening.Worn),
            ["scrapped"] = new("", Happening.Scrapped),
            ["cycles"] = new("", Happening.Cycles),
            ["cord"] = new("", Happening.Cord),
            ["leak"] = new("", Happening.Leak),
            ["accept"] = new("", Happening.Answered) { Answer = NoticeAnswer.Accepted },
            ["recut"] = new("", Happening.Answered) { Answer = NoticeAnswer.Recut },
            ["retire"] = new("", Happening.Retired),
        }.ToImmutableDictionary(StringComparer.Ordinal);

    /// <summary>For what was cut only.</summary>
    public bool Spare { get; init; }

    /// <summary>Null for the usual one.</summary>
    public int? Revision { get; init; }

    /// <summary>Null for the usual one.</summary>
    public int? Block { get; init; }

    /// <summary>0 where the kind needs none.</summary>
    public int Amount { get; init; }

    /// <summary>Of a notice; open for all else.</summary>
    public NoticeAnswer Answer { get; init; }
}
