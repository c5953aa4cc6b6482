using System.Collections.Immutable;

namespace FixtureGen.Model;

public enum ArcForm
{
    Centre,
    Radius,
}

public enum DwellUnit
{
    Seconds,
    Milliseconds,
}

public enum CommentForm
{
    Parentheses,
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
