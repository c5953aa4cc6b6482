using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Verify;

/// <summary>
/// What the judge is given: the job (plate, tools, control, machine), the design, the finished program texts in any order (they
/// run by setup: underside, top, trim), and what is allowed. Setups of the block without a program are taken from the design
/// as if cut perfectly.
/// </summary>
public sealed record VerifyRequest(Job Job, FixtureDesign Design, ImmutableArray<ProgramText> Programs, Limits Limits);

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

/// <summary>How the tool goes from one point to the next.</summary>
public enum MotionKind
{
    /// <summary>G0, a way home, or a drilling cycle's way back; taken as straight.</summary>
    Rapid,

    /// <summary>G1, or a drilling cycle's way down.</summary>
    Line,

    /// <summary>G3: counter-clockwise seen from +Z, a helix where Z changes.</summary>
    ArcCcw,

    /// <summary>G2: clockwise seen from +Z, a helix where Z changes.</summary>
    ArcCw,
}

/// <summary>One motion of the tool's tip as the judge read it, mm, plate frame (for the underside the underside frame).</summary>
/// <param name="Line">Program line, 1-based; a drilling cycle makes several motions of one.</param>
/// <param name="Centre">Of an arc; default for the others.</param>
/// <param name="FeedMmPerMin">0 for a rapid.</param>
/// <param name="Tool">Its number; 0 where none is known to be in the spindle.</param>
public readonly record struct Motion(
    int Line,
    MotionKind Kind,
    Point3 From,
    Point3 To,
    Point2 Centre,
    double FeedMmPerMin,
    int Tool
);

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

/// <summary>
/// The judge. It reads finished program text, carves a block with it and says whether it did harm; it knows nothing of how the
/// program was made. Never throws for bad text: whatever is wrong is a finding.
/// </summary>
public static class Verifier
{
    /// <summary>
    /// Judges the given programs in their order of running on one block. A block or program beyond what the judge takes on is
    /// refused with a finding before anything is read; no program at all has no fault.
    /// </summary>
    public static VerifyResult Judge(VerifyRequest request)
    {
        if (JudgeBounds.Refuse(request) is { } refused)
        {
            return refused;
        }
        BlockGrid block = BlockGrid.Raw(request.Design, request.Limits.Cell);
        Judgement judgement = new(request.Job, request.Design, request.Limits, block);
        foreach (ProgramText program in request.Programs.OrderBy(p => p.Setup))
        {
            judgement.Add(program);
        }
        return judgement.Result();
    }

    /// <summary>
    /// Judges one file on a block whose earlier setups are as designed. Without a setup it is known from the program number among
    /// the given programs of the job, else from the first comment, else from the file's name; where none tells it is the error
    /// setup-unknown.
    /// </summary>
    /// <param name="setup">Null to find out.</param>
    /// <param name="known">The job's programs, for their numbers; one that is not among them may have any number.</param>
    public static VerifyResult JudgeOne(
        Job job,
        FixtureDesign design,
        string fileName,
        string text,
        Setup? setup,
        IReadOnlyList<ProgramText> known,
        Limits limits
    )
    {
        Setup? found = setup ?? SetupGuess.Of(job, design, fileName, text, known);
        if (found is not { } sure)
        {
            return SetupGuess.Unknown(design, fileName, limits);
        }
        int number = known.FirstOrDefault(p => p.Setup == sure)?.ProgramNumber ?? 0;
        ProgramText program = new(sure, number, fileName, text);
        return Judge(new VerifyRequest(job, design, [program], limits));
    }
}
