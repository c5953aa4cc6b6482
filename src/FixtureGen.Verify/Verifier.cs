using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Verify;

/// <summary>
/// What the judge is given: the job (plate, tools, control, machine), the design, and the finished program texts in the
/// order they would run. Earlier setups that are missing are taken from the design as if cut perfectly.
/// </summary>
public sealed record VerifyRequest(Job Job, FixtureDesign Design, ImmutableArray<ProgramText> Programs, Limits Limits);

/// <summary>One program's verdict. Minutes count accelerations and tool changes; lengths mm, volume mm3; gouges and left-over mm.</summary>
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
}

/// <summary>A piece of the shell that nothing holds any more after a program line; area mm2, At inside it.</summary>
public sealed record LooseScrap(int Line, Point2 At, double AreaMm2);

/// <summary>Minutes one tool is in the spindle.</summary>
public sealed record ToolTime(int Tool, string Name, double Minutes);

/// <summary>How the tool goes from one point to the next.</summary>
public enum MotionKind
{
    /// <summary>G0, taken as straight.</summary>
    Rapid,

    /// <summary>G1.</summary>
    Line,

    /// <summary>G3: counter-clockwise seen from +Z, a helix where Z changes.</summary>
    ArcCcw,

    /// <summary>G2: clockwise seen from +Z, a helix where Z changes.</summary>
    ArcCw,
}

/// <summary>One motion as the judge read it, plate frame of its setup, mm; Line is the 1-based program line.</summary>
public readonly record struct Motion(
    int Line,
    MotionKind Kind,
    Point3 From,
    Point3 To,
    Point2 Centre,
    double FeedMmPerMin,
    int Tool
);

/// <summary>The judge's answer. Ok needs no error finding, gouges within Limits.Gouge and left-over within Limits.Leftover.</summary>
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
    /// <summary>Judges the given programs in their order of running on one block.</summary>
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
    /// Judges one file. Without a setup it is known from the program number among the given programs of the job, else from the
    /// first comment, else from the file's name; what cannot be known is a finding.
    /// </summary>
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
