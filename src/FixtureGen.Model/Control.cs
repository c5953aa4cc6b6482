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
