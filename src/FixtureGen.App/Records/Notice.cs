namespace FixtureGen.App.Records;

/// <summary>How a notice was answered.</summary>
internal enum NoticeAnswer
{
    /// <summary>Nobody has yet: it stands.</summary>
    Open,

    /// <summary>The block will be cut anew; it stays on the list of blocks to recut until one is.</summary>
    Recut,

    /// <summary>The block is used on as it is, for the reason given.</summary>
    Accepted,

    /// <summary>The block was thrown away.</summary>
    Scrapped,
}

/// <summary>Something about a block on the shelf that somebody must answer. What is why it no longer fits, with amounts.</summary>
internal sealed record Notice
{
    /// <summary>From 1, in the order they were given.</summary>
    public required int Number { get; init; }

    /// <summary>UTC, ISO 8601.</summary>
    public required string At { get; init; }

    /// <summary>Of the block.</summary>
    public required string Job { get; init; }

    /// <summary>Of the block.</summary>
    public required int Revision { get; init; }

    /// <summary>In words, with the amount.</summary>
    public required string What { get; init; }

    /// <summary>Open until somebody answers.</summary>
    public required NoticeAnswer Answer { get; init; }

    /// <summary>Who answered; empty while it stands.</summary>
    public required string By { get; init; }

    /// <summary>The reason given; empty while it stands.</summary>
    public required string Reason { get; init; }

    /// <summary>When; empty while it stands.</summary>
    public required string AnsweredAt { get; init; }
}
