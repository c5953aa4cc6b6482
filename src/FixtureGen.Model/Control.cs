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
public sealed record Control
{
    /// <summary>The file's without .toml.</summary>
    public required string Name { get; init; }

    /// <summary>What people call it.</summary>
    public required string Description { get; init; }

    /// <summary>What programs are written in.</summary>
    public required LengthUnit Unit { get; init; }

    /// <summary>Of lengths.</summary>
    public required int Decimals { get; init; }

    /// <summary>How a number's decimals are written.</summary>
    public required DecimalHabit Numbers { get; init; }

    /// <summary>Of F.</summary>
    public required int FeedDecimals { get; init; }

    /// <summary>Before the number; with none the program is not numbered.</summary>
    public required string ProgramNumberWord { get; init; }

    /// <summary>With leading zeros.</summary>
    public required int ProgramNumberDigits { get; init; }

    /// <summary>The least number that the control takes.</summary>
    public required int ProgramNumberMin { get; init; }

    /// <summary>The greatest number that the control takes.</summary>
    public required int ProgramNumberMax { get; init; }

    /// <summary>% as first and last line.</summary>
    public required bool PercentLines { get; init; }

    /// <summary>How a comment is marked off.</summary>
    public required CommentForm Comment { get; init; }

    /// <summary>Longer text is wrapped, characters.</summary>
    public required int CommentLength { get; init; }

    /// <summary>True where it reads capitals only.</summary>
    public required bool CommentUpperCase { get; init; }

    /// <summary>Between N words; 0 for none.</summary>
    public required int LineNumberStep { get; init; }

    /// <summary>Of the longest line it reads, characters.</summary>
    public required int LineLength { get; init; }

    /// <summary>How the shape of an arc is said.</summary>
    public required ArcForm Arc { get; init; }

    /// <summary>No circle in one block.</summary>
    public required bool SplitFullCircles { get; init; }

    /// <summary>Longer arcs are split, 30 to 360.</summary>
    public required double MaxArcSweepDeg { get; init; }

    /// <summary>G81, G82, G83 in place of long-hand drilling.</summary>
    public required bool CannedCycles { get; init; }

    /// <summary>G73: pecks break the chip and stay in the hole.</summary>
    public required bool PeckHighSpeed { get; init; }

    /// <summary>The unit of a dwell.</summary>
    public required DwellUnit Dwell { get; init; }

    /// <summary>After G4: P or X.</summary>
    public required string DwellWord { get; init; }

    /// <summary>Lines said first and after every stop.</summary>
    public required ImmutableArray<string> SafeStart { get; init; }

    /// <summary>Retract, then the tool.</summary>
    public required ImmutableArray<string> ToolChange { get; init; }

    /// <summary>G43 H after a tool change; false where the offset comes with the tool.</summary>
    public required bool LengthOffsetWord { get; init; }

    /// <summary>The plate's origin, for {work}.</summary>
    public required string WorkOffset { get; init; }

    /// <summary>The line that starts the spindle, with {rpm}.</summary>
    public required string SpindleStart { get; init; }

    /// <summary>The line that stops it.</summary>
    public required string SpindleStop { get; init; }

    /// <summary>Air that blows chips away.</summary>
    public required string AirOn { get; init; }

    /// <summary>Shuts the air; empty with no such word.</summary>
    public required string AirOff { get; init; }

    /// <summary>Opens the vacuum valve; empty where the operator does.</summary>
    public required string VacuumOn { get; init; }

    /// <summary>Closes it.</summary>
    public required string VacuumOff { get; init; }

    /// <summary>Waits for the vacuum switch; with none the operator reads the gauge at a stop.</summary>
    public required string VacuumWait { get; init; }

    /// <summary>The line that always stops the program.</summary>
    public required string Stop { get; init; }

    /// <summary>The line that stops it where the operator has asked for that: read by the judge in edited programs, never written.</summary>
    public required string OptionalStop { get; init; }

    /// <summary>Z first.</summary>
    public required ImmutableArray<string> Home { get; init; }

    /// <summary>The last line of a program, before a closing %.</summary>
    public required string End { get; init; }
}
