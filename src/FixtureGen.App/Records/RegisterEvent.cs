namespace FixtureGen.App.Records;

/// <summary>What can happen in a library, as the register's events have it.</summary>
internal enum Happening
{
    /// <summary>A job got its number.</summary>
    Numbered,

    /// <summary>A revision was made for the first time, or its programs changed before a block was cut.</summary>
    Made,

    /// <summary>New programs for a block on the shelf, which stays.</summary>
    Retrimmed,

    /// <summary>A revision that was never cut gave way to the next.</summary>
    Replaced,

    /// <summary>A block was cut.</summary>
    Cut,

    /// <summary>A block is worn.</summary>
    Worn,

    /// <summary>A block was thrown away.</summary>
    Scrapped,

    /// <summary>Parts were trimmed on a block; Amount says how many.</summary>
    Cycles,

    /// <summary>A block's cord was changed; Amount is the count of cycles that the old one had.</summary>
    Cord,

    /// <summary>A block's leak was read; Amount is in Pa a minute.</summary>
    Leak,

    /// <summary>A notice was given.</summary>
    Noticed,

    /// <summary>A notice was answered.</summary>
    Answered,

    /// <summary>An earlier event was a mistake; Amount is its number.</summary>
    Undone,

    /// <summary>A job's numbers were freed.</summary>
    Retired,

    /// <summary>An older register, or the readable one, was taken over.</summary>
    TakenOver,
}

/// <summary>One thing that happened, with when and by whom. Events are only ever added; Number is their order, whatever the clock said.</summary>
internal sealed record RegisterEvent
{
    /// <summary>From 1, without gaps.</summary>
    public required int Number { get; init; }

    /// <summary>UTC, ISO 8601 to the second.</summary>
    public required string At { get; init; }

    /// <summary>Who noted it.</summary>
    public required string Who { get; init; }

    /// <summary>What happened.</summary>
    public required Happening What { get; init; }

    /// <summary>Empty where it was the library as a whole.</summary>
    public required string Job { get; init; }

    /// <summary>0 where none is meant.</summary>
    public required int Revision { get; init; }

    /// <summary>0 where none is meant.</summary>
    public required int Block { get; init; }

    /// <summary>See the kinds; 0 where they name none.</summary>
    public required int Amount { get; init; }

    /// <summary>The reason given, or what changed.</summary>
    public required string Why { get; init; }
}
