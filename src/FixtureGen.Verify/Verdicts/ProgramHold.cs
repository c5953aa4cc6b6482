using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Verify.Verdicts;

/// <summary>The cut that is held least: the multiplier of its load at which the part (or block) gives way, 0 to 999, its line (1-based) and place, mm.</summary>
/// <param name="Mode">How it gives way first.</param>
public sealed record HoldPlace(double Factor, HoldMode Mode, int Line, Point2 At);

/// <summary>The block's hold while one tool cuts, with or without the bolts.</summary>
public sealed record BlockHoldPlace(string Tool, bool Bolted, HoldPlace Least);

/// <summary>
/// How well the program's own cuts are held in the worst case of all ranges. A trim: Vacuum (no slip on vacuum alone) and Magnets
/// (stays on magnets alone, stops counted, while the machine stops); where magnets are the hold Vacuum is null and Magnets is no slip at
/// all under the full load. A block's program: Block, in the order of cutting. Null or empty
/// where nothing is cut.
/// </summary>
public sealed record ProgramHold(HoldPlace? Vacuum, HoldPlace? Magnets, ImmutableArray<BlockHoldPlace> Block)
{
    /// <summary>Nothing is cut.</summary>
    public static ProgramHold None { get; } = new(null, null, []);
}
