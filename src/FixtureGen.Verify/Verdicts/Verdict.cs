using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Verify.Verdicts;

/// <summary>What one program does, as read from its text.</summary>
public sealed record ProgramVerdict
{
    /// <summary>Where the program is run.</summary>
    public required Setup Setup { get; init; }

    /// <summary>As it was given.</summary>
    public required string FileName { get; init; }

    /// <summary>The number that it gives itself; null where it gives none.</summary>
    public required int? ProgramNumber { get; init; }

    /// <summary>Place, line and remedy of all that is wrong, warnings and notes among them.</summary>
    public required ImmutableArray<Finding> Findings { get; init; }

    /// <summary>Lines of text.</summary>
    public required int Lines { get; init; }

    /// <summary>Motions by arc or helix.</summary>
    public required int Arcs { get; init; }

    /// <summary>Accelerations, tool changes and dwells counted; what people do at stops is not.</summary>
    public required double Minutes { get; init; }

    /// <summary>Way of all motions at a feed, mm, in material or not.</summary>
    public required double CutMm { get; init; }

    /// <summary>Way of all rapids, mm.</summary>
    public required double RapidMm { get; init; }

    /// <summary>Taken of the block, or by the trim of the shell, mm3.</summary>
    public required double RemovedMm3 { get; init; }

    /// <summary>Share of CutMm, 0 to 1, on motions that take nothing.</summary>
    public required double AirCutShare { get; init; }

    /// <summary>By tool number; empty where the program was not read.</summary>
    public required ImmutableArray<ToolTime> Tools { get; init; }

    /// <summary>In the order of running.</summary>
    public required ImmutableArray<Motion> Motions { get; init; }

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
