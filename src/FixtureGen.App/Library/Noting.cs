using FixtureGen.App.Records;

namespace FixtureGen.App.Library;

/// <summary>
/// What somebody notes of a job's block. Spare: another block beside one that is good. Revision and Block are null where the
/// usual one is meant; Amount is parts for cycles and Pa a minute for a leak.
/// </summary>
internal sealed record Noting(string Job, Happening What)
{
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
