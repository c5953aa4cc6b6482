using System.Collections.Immutable;

namespace FixtureGen.Model;

/// <summary>How a control wants the shape of an arc said.</summary>
public enum ArcForm
{
    /// <summary>I and J: the way from the arc's start to its centre, also in absolute mode.</summary>
    Centre,

    /// <summary>R: the radius. It says which of two arcs only up to half a turn, so sweeps are split and full circles are never one block.</summary>
    Radius,
}

/// <summary>The unit in which a control reads the dwell of a canned cycle or of G4.</summary>
public enum DwellUnit
{
    /// <summary>Seconds, with the decimals of the control's number format.</summary>
    Seconds,

    /// <summary>Whole milliseconds.</summary>
    Milliseconds,
}

/// <summary>How a comment is marked off.</summary>
public enum CommentForm
{
    /// <summary>(text): parentheses within the text are written as square brackets.</summary>
    Parentheses,

    /// <summary>; text, to the end of the line.</summary>
    Semicolon,
}

/// <summary>How numbers are written.</summary>
public enum DecimalHabit
{
    /// <summary>X1. and X1.5: always a point, no trailing zeros.</summary>
    AlwaysPoint,

    /// <summary>X1.5000: fixed number of decimals.</summary>
    Fixed,

    /// <summary>X1 and X1.5: a point only where needed.</summary>
    Shortest,
}

/// <summary>
/// What a control wants to read, as data; no control is a class. Empty strings mean "has no such word". Line templates
/// have the closed placeholder list {tool} {offset} {rpm} {next} {number} {z} {work}. Vacuum words are single M codes.
/// </summary>
/// <param name="Unit">What programs are written in.</param>
/// <param name="Decimals">Of lengths.</param>
/// <param name="FeedDecimals">Of F.</param>
/// <param name="ProgramNumberWord">Before the number; with none the program is not numbered.</param>
/// <param name="ProgramNumberDigits">With leading zeros.</param>
/// <param name="PercentLines">% as first and last line.</param>
/// <param name="CommentLength">Longer text is wrapped, characters.</param>
/// <param name="LineNumberStep">Between N words; 0 for none.</param>
/// <param name="LineLength">Of the longest line it reads, characters.</param>
/// <param name="SplitFullCircles">No circle in one block.</param>
/// <param name="MaxArcSweepDeg">Longer arcs are split, 30 to 360.</param>
/// <param name="CannedCycles">G81, G82, G83 in place of long-hand drilling.</param>
/// <param name="PeckHighSpeed">G73: pecks break the chip and stay in the hole.</param>
/// <param name="DwellWord">After G4: P or X.</param>
/// <param name="SafeStart">Lines said first and after every stop.</param>
/// <param name="ToolChange">Retract, then the tool.</param>
/// <param name="LengthOffsetWord">G43 H after a tool change; false where the offset comes with the tool.</param>
/// <param name="WorkOffset">The plate's origin, for {work}.</param>
/// <param name="AirOn">Air that blows chips away.</param>
/// <param name="VacuumWait">Waits for the vacuum switch; with none the operator reads the gauge at a stop.</param>
/// <param name="Home">Z first.</param>
public sealed record Control(
    string Name,
    string Description,
    LengthUnit Unit,
    int Decimals,
    DecimalHabit Numbers,
    int FeedDecimals,
    string ProgramNumberWord,
    int ProgramNumberDigits,
    int ProgramNumberMin,
    int ProgramNumberMax,
    bool PercentLines,
    CommentForm Comment,
    int CommentLength,
    bool CommentUpperCase,
    int LineNumberStep,
    int LineLength,
    ArcForm Arc,
    bool SplitFullCircles,
    double MaxArcSweepDeg,
    bool CannedCycles,
    bool PeckHighSpeed,
    DwellUnit Dwell,
    string DwellWord,
    ImmutableArray<string> SafeStart,
    ImmutableArray<string> ToolChange,
    bool LengthOffsetWord,
    string WorkOffset,
    string SpindleStart,
    string SpindleStop,
    string AirOn,
    string AirOff,
    string VacuumOn,
    string VacuumOff,
    string VacuumWait,
    string Stop,
    string OptionalStop,
    ImmutableArray<string> Home,
    string End
);
