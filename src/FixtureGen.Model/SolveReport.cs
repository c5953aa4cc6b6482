using System.Collections.Immutable;

namespace FixtureGen.Model;

/// <summary>A key of a job with the value it has, as the job file would state it, and whether the job states it itself.</summary>
public sealed record SolvedKey(string Key, string Value, bool Stated);

/// <summary>
/// One way to make a job: what is chosen for each key, minutes for the whole batch (trim times quantity, and the block once), of one
/// trim and of the block, and the two factors that have limits, in the worst case.
/// </summary>
public sealed record SolveOption
{
    /// <summary>In the order of the job file.</summary>
    public required ImmutableArray<SolvedKey> Keys { get; init; }

    /// <summary>Minutes of machine time for the batch.</summary>
    public required double BatchMinutes { get; init; }

    /// <summary>Minutes of one trim.</summary>
    public required double TrimMinutes { get; init; }

    /// <summary>Minutes of the block's programs; 0 where it was not planned.</summary>
    public required double BlockMinutes { get; init; }

    /// <summary>How many magnets.</summary>
    public required int Magnets { get; init; }

    /// <summary>Staying put on vacuum alone; 0 where magnets are the hold.</summary>
    public required double Vacuum { get; init; }

    /// <summary>Staying put on magnets alone under the full cutting load, where they are the hold; else null.</summary>
    public double? MagnetsOnly { get; init; }

    /// <summary>Staying on magnets alone while the machine stops.</summary>
    public required double Stopping { get; init; }
}

/// <summary>What a stated value costs: what would be taken were the key left out, and how many minutes of the batch and magnets that saves.</summary>
public sealed record StatedCost(string Key, string Value, string Instead, double Minutes, int Magnets);

/// <summary>How a job was solved: what was chosen, the next best, what each stated value costs, and, where nothing meets the limits, what would mend it.</summary>
public sealed record SolveReport
{
    /// <summary>What the fixture is made with.</summary>
    public required SolveOption Chosen { get; init; }

    /// <summary>The next best that was worked out; null where nothing else meets the limits.</summary>
    public required SolveOption? Next { get; init; }

    /// <summary>Stated values that cost time or magnets.</summary>
    public required ImmutableArray<StatedCost> Stated { get; init; }

    /// <summary>True where the limits are met.</summary>
    public required bool Meets { get; init; }

    /// <summary>Where they are not, the one thing that would mend it, as tried; else empty.</summary>
    public required string Mend { get; init; }
}
