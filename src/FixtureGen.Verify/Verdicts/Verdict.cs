using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Verify.Verdicts;

/// <summary>What one program does, as read from its text.</summary>
/// <param name="ProgramNumber">The number that it gives itself; null where it gives none.</param>
/// <param name="Findings">Place, line and remedy of all that is wrong, warnings and notes among them.</param>
/// <param name="Lines">Lines of text.</param>
/// <param name="Arcs">Motions by arc or helix.</param>
/// <param name="Minutes">Accelerations, tool changes and dwells counted; what people do at stops is not.</param>
/// <param name="CutMm">Way of all motions at a feed, mm, in material or not.</param>
/// <param name="RapidMm">Way of all rapids, mm.</param>
/// <param name="RemovedMm3">Taken of the block, or by the trim of the shell, mm3.</param>
/// <param name="AirCutShare">Share of CutMm, 0 to 1, on motions that take nothing.</param>
/// <param name="Tools">By tool number; empty where the program was not read.</param>
/// <param name="Motions">In the order of running.</param>
public sealed record ProgramVerdict(
    Setup Setup,
    string FileName,
    int? ProgramNumber,
    ImmutableArray<Finding> Findings,
    int Lines,
    int Arcs,
    double Minutes,
    double CutMm,
    double RapidMm,
    double RemovedMm3,
    double AirCutShare,
    ImmutableArray<ToolTime> Tools,
    ImmutableArray<Motion> Motions
)
{
    /// <summary>What the trim cuts loose, in the order of cutting; empty for the block's setups.</summary>
    public ImmutableArray<LooseScrap> Loose { get; init; } = [];

    /// <summary>How well the program's cuts are held in the worst case.</summary>
    public ProgramHold Hold { get; init; } = ProgramHold.None;
}

/// <summary>A piece of the shell that nothing holds any more after a program line (1-based); area mm2, At inside it, plate frame mm.</summary>
public sealed record LooseScrap(int Line, Point2 At, double AreaMm2);

/// <summary>Minutes that one tool moves and dwells, the change to it not counted; Name is "?" for a number that the job does not know.</summary>
public sealed record ToolTime(int Tool, string Name, double Minutes);

/// <summary>The judge's answer over all programs.</summary>
/// <param name="Ok">No error finding, gouges within Limits.Gouge and left-over within Limits.Leftover.</param>
/// <param name="CellMm">Side of the cells that were carved.</param>
/// <param name="MaxGougeDepthMm">The deepest that was cut below the design; 0 for none.</param>
/// <param name="MaxGougeSideMm">The farthest that was cut into a wall; 0 for none.</param>
/// <param name="MaxLeftoverMm">The most that was left standing over the design; 0 for none.</param>
/// <param name="Programs">Verdicts in the order of running; of programs refused unread (block-too-large, program-too-long) only theirs.</param>
/// <param name="Block">The block after all setups, those without a program as designed; a stand-in where nothing was read.</param>
public sealed record VerifyResult(
    bool Ok,
    double CellMm,
    double MaxGougeDepthMm,
    double MaxGougeSideMm,
    double MaxLeftoverMm,
    ImmutableArray<ProgramVerdict> Programs,
    BlockGrid Block
)
{
    /// <summary>Every program's findings, in the order in which the programs run.</summary>
    public IEnumerable<Finding> Findings => Programs.SelectMany(p => p.Findings);
}
