namespace FixtureGen.App.Records;

/// <summary>One block that was cut of a revision; Number is from 1 and never given out again. Its state is never planned.</summary>
internal sealed record Block
{
    /// <summary>The job that it belongs to.</summary>
    public required string Job { get; init; }

    /// <summary>Of the fixture.</summary>
    public required int Revision { get; init; }

    /// <summary>From 1, in the order of cutting.</summary>
    public required int Number { get; init; }

    /// <summary>Cut, worn or scrapped.</summary>
    public required FixtureState State { get; init; }

    /// <summary>When it was noted as cut, UTC, ISO 8601.</summary>
    public required string CutAt { get; init; }

    /// <summary>The trim revision whose programs it was cut with.</summary>
    public required int Trim { get; init; }

    /// <summary>Parts trimmed on it, as noted.</summary>
    public required int Cycles { get; init; }

    /// <summary>Of these, how many since its cord was last changed.</summary>
    public required int CordCycles { get; init; }

    /// <summary>The last leak reading, Pa a minute; 0 where none was noted.</summary>
    public required int LeakPaPerMin { get; init; }

    /// <summary>True while it may be clamped on the machine.</summary>
    public bool OnShelf => State is FixtureState.Cut or FixtureState.Worn;
}
