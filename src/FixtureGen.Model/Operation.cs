using System.Collections.Immutable;

namespace FixtureGen.Model;

/// <summary>One motion of the tool's tip, plate frame (underside: underside frame), mm. Feeds in mm/min.</summary>
public abstract record Move(Point3 To);

/// <summary>A straight rapid in all axes at once (G0): never through material.</summary>
public sealed record RapidMove(Point3 To) : Move(To);

/// <summary>A straight cut (G1).</summary>
/// <param name="To">Where the tip ends, mm.</param>
/// <param name="FeedMmPerMin">Along the path, above 0 and at most the machine's greatest feed.</param>
public sealed record LineMove(Point3 To, double FeedMmPerMin) : Move(To);

/// <summary>An arc in XY about Centre, a helix where Z changes; a full turn where To is the start.</summary>
public sealed record ArcMove(Point3 To, Point2 Centre, bool Ccw, double FeedMmPerMin) : Move(To);

/// <summary>A hole drilled from RetractZ to BottomZ at To (To.Z is where the tool ends); Peck 0 for one stroke.</summary>
public sealed record DrillMove(
    Point3 To,
    double RetractZ,
    double BottomZ,
    double Peck,
    double DwellSeconds,
    double FeedMmPerMin
) : Move(To);

/// <summary>How an operation cuts; the name of what it cuts for is the operation's own.</summary>
public enum OperationKind
{
    /// <summary>Facing in parallel passes over the block's edges.</summary>
    Skim,

    /// <summary>An area cleared ring by ring inside its contour.</summary>
    Clear,

    /// <summary>What a larger tool left along walls and in corners.</summary>
    Profile,

    /// <summary>Along a centre line at the groove's width.</summary>
    Groove,

    /// <summary>A helix down a round hole or slot, or a turn along the wall of one that was drilled.</summary>
    Bore,

    /// <summary>Straight down, in one stroke or by pecks.</summary>
    Drill,

    /// <summary>Single strokes of letters and marks into the block.</summary>
    Engrave,

    /// <summary>The cutouts of the shell, leads and tabs included.</summary>
    TrimCutout,

    /// <summary>The outline of the shell.</summary>
    TrimOutline,

    /// <summary>Strokes into the shell that do not pass through it.</summary>
    TrimEngrave,
}

/// <summary>
/// One tool doing one thing. The first move is a rapid over to the start at the program's clearance, above the raw block,
/// bolts and forms; the last leaves the tool at that height. LimitedBy says which limit set the feed and speed. Features are the names of what it cuts.
/// </summary>
public sealed record Operation
{
    /// <summary>For papers and comments.</summary>
    public required string Name { get; init; }

    /// <summary>What it does.</summary>
    public required OperationKind Kind { get; init; }

    /// <summary>What cuts.</summary>
    public required Tool Tool { get; init; }

    /// <summary>Speed, rev/min.</summary>
    public required double SpindleRpm { get; init; }

    /// <summary>The feed along the path, mm/min; moves may be slower.</summary>
    public required double FeedMmPerMin { get; init; }

    /// <summary>Depth of a pass, mm.</summary>
    public required double StepDown { get; init; }

    /// <summary>Width of a cut, mm; 0 where it cuts at full width.</summary>
    public required double StepOver { get; init; }

    /// <summary>Which limit set feed and speed.</summary>
    public required string LimitedBy { get; init; }

    /// <summary>Names of what it cuts.</summary>
    public required ImmutableArray<string> Features { get; init; }

    /// <summary>True where it opens the plate's seal zone to the room: from then on bolts hold the block.</summary>
    public required bool BreaksPlateSeal { get; init; }

    /// <summary>In the order of running.</summary>
    public required ImmutableArray<Move> Moves { get; init; }
}

/// <summary>What a step of a program is.</summary>
public enum ProgramStepKind
{
    /// <summary>Cutting with one tool: Operation is set, in no other kind.</summary>
    Operation,

    /// <summary>Spindle off, retracted, M0; Text is shown to the operator.</summary>
    Stop,

    /// <summary>The vacuum valve opens.</summary>
    VacuumOn,

    /// <summary>Waits for the vacuum switch; a stop with the level to read where the control has no such word.</summary>
    VacuumWait,

    /// <summary>Retracted, spindle off, home, and only then the valve closes.</summary>
    VacuumOff,

    /// <summary>A line for the operator without a stop.</summary>
    Comment,
}

/// <summary>One step of a program: an operation, or something the operator or the vacuum does. Bolts in or out is said by Text.</summary>
public sealed record ProgramStep(ProgramStepKind Kind, Operation? Operation, string Text);

/// <summary>A program before it is text. Header lines are the operator comments, label first.</summary>
/// <param name="SafeZ">Above the height where rapids cross, inside the travel: for tool changes and the way home, mm.</param>
public sealed record ProgramPlan(
    Setup Setup,
    int ProgramNumber,
    ImmutableArray<string> Header,
    double SafeZ,
    ImmutableArray<ProgramStep> Steps
);

/// <summary>A finished program.</summary>
public sealed record ProgramText(Setup Setup, int ProgramNumber, string FileName, string Text);
