using System.Collections.Immutable;

namespace FixtureGen.App.Records;

/// <summary>A block as its events tell it: the one way by which anything noted, or taken back, changes a block.</summary>
internal static class BlockPast
{
    private static readonly ImmutableArray<Happening> OfBlocks =
    [
        Happening.Cut,
        Happening.Worn,
        Happening.Scrapped,
        Happening.Cycles,
        Happening.Cord,
        Happening.Leak,
    ];

    /// <summary>True for what somebody notes about one block.</summary>
    public static bool IsOfBlock(Happening what) => OfBlocks.Contains(what);

    /// <summary>The events that stand, rising: those that were not undone.</summary>
    public static IEnumerable<RegisterEvent> Standing(Register register)
    {
        HashSet<int> undone = [.. register.Events.Where(e => e.What == Happening.Undone).Select(e => e.Amount)];
        return register.Events.Where(e => !undone.Contains(e.Number));
    }

    /// <summary>The number that the next block of a revision gets; one that was noted by mistake is not given out again.</summary>
    public static int NextNumber(Register register, string job, int revision) =>
        1
        + register
            .Events.Where(e => e.What == Happening.Cut && e.Job == job && e.Revision == revision)
            .Select(e => e.Block)
            .DefaultIfEmpty(0)
            .Max();

    /// <summary>The block; null where it was never cut, or that was undone.</summary>
    public static Block? Replay(Register register, string job, int revision, int number)
    {
        Block? block = null;
        foreach (
            RegisterEvent e in Standing(register)
                .Where(e => IsOfBlock(e.What) && e.Job == job && e.Revision == revision && e.Block == number)
        )
        {
            block = e.What == Happening.Cut ? New(e) : Changed(block!, e);
        }
        return block;
    }

    private static Block Changed(Block block, RegisterEvent e) =>
        e.What == Happening.Worn ? block with { State = FixtureState.Worn }
        : e.What == Happening.Scrapped ? block with { State = FixtureState.Scrapped }
        : e.What == Happening.Cycles
            ? block with
            {
                Cycles = block.Cycles + e.Amount,
                CordCycles = block.CordCycles + e.Amount,
            }
        : e.What == Happening.Cord ? block with { CordCycles = 0 }
        : block with { LeakPaPerMin = e.Amount };

    private static Block New(RegisterEvent e) =>
        new()
        {
            Job = e.Job,
            Revision = e.Revision,
            Number = e.Block,
            State = FixtureState.Cut,
            CutAt = e.Why == "taken over" ? "" : e.At,
            Trim = e.Amount,
            Cycles = 0,
            CordCycles = 0,
            LeakPaPerMin = 0,
        };
}
