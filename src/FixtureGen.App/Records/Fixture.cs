namespace FixtureGen.App.Records;

/// <summary>How far a revision of a fixture, or one block of it, has come.</summary>
internal enum FixtureState
{
    /// <summary>Programs may have been made; no block was cut. A next revision takes its place.</summary>
    Planned,

    /// <summary>A block of this revision is on the shelf: placement, features and trim program are frozen.</summary>
    Cut,

    /// <summary>The block is still used and frozen, but due for a remake.</summary>
    Worn,

    /// <summary>The block was thrown away; the entry stays so that its number is not given out again.</summary>
    Scrapped,
}

/// <summary>
/// One revision of one job's fixture. Program is the job's base number N (trim N, top N + 1, underside N + 2). The state is
/// that of its blocks: the best of them, planned where there is none.
/// </summary>
internal sealed record Fixture(
    string Job,
    string Id,
    int Revision,
    int Program,
    string Plate,
    int PlateRevision,
    FixtureState State
)
{
    /// <summary>Of its programs for this very block, from 1: a new trim for a block on the shelf raises it, and the block stays.</summary>
    public int Trim { get; init; } = 1;

    /// <summary>True while a block of this revision may still be clamped on the machine.</summary>
    public bool OnShelf => State is FixtureState.Cut or FixtureState.Worn;
}
