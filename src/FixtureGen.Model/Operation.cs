using System.Collections.Immutable;

namespace FixtureGen.Model;

/// <summary>One motion of the tool's tip, plate frame (underside: underside frame), mm. Feeds in mm/min.</summary>
public abstract record Move(Point3 To);

public sealed record RapidMove(Point3 To) : Move(To);

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

public enum OperationKind
{
    Skim,
    Clear,
    Profile,
    Groove,
    Bore,
    Drill,
    Engrave,
    TrimCutout,
    TrimOutline,
    TrimEngrave,
}

/// <summary>
/// One tool doing one thing. The first move is a rapid at ClearanceZ to above the start; the last leaves the tool at
/// ClearanceZ. LimitedBy says which limit set the feed and speed. Features are the names of what it cuts.
/// </summary>
public sealed record Operation(
    string Name,
    OperationKind Kind,
    Tool Tool,
    double SpindleRpm,
    double FeedMmPerMin,
    double PlungeMmPerMin,
    double StepDown,
    double StepOver,
    string LimitedBy,
    ImmutableArray<string> Features,
    bool BreaksPlateSeal,
    ImmutableArray<Move> Moves
);

public enum ProgramStepKind
{
    Operation,

    /// <summary>Spindle off, retracted, M0; Text is shown to the operator.</summary>
    Stop,
    OptionalStop,
    VacuumOn,
    VacuumWait,
    VacuumOff,
    Comment,
}

/// <summary>One step of a program: an operation, or something the operator or the vacuum does. Bolts in or out is said by Text.</summary>
public sealed record ProgramStep(ProgramStepKind Kind, Operation? Operation, string Text);

/// <summary>A program before it is text. Header lines are the operator comments, label first.</summary>
public sealed record ProgramPlan(
    Setup Setup,
    int ProgramNumber,
    ImmutableArray<string> Header,
    double ClearanceZ,
    double SafeZ,
    ImmutableArray<ProgramStep> Steps
);

/// <summary>A finished program.</summary>
public sealed record ProgramText(Setup Setup, int ProgramNumber, string FileName, string Text);
