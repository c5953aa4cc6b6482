namespace FixtureGen.Model;

/// <summary>Note: repaired or worth knowing. Warning: look before you run it. Error: no program is written.</summary>
public enum Severity
{
    /// <summary>Something was put right, or is worth knowing; the result stands.</summary>
    Note,

    /// <summary>A person must look before the program runs; it is written all the same.</summary>
    Warning,

    /// <summary>Refused: nothing is written until it is mended.</summary>
    Error,
}

/// <summary>
/// One thing a person must know. Code is a short stable word such as <c>outline-open</c>; Where is a file with line and
/// column, or a place in the part; Message carries what and by how much; Remedy says what to do and is never empty.
/// </summary>
public sealed record Finding(string Code, Severity Severity, string Where, string Message, string Remedy)
{
    /// <summary>Program or file line, 1-based; null where none applies.</summary>
    public int? Line { get; init; }

    /// <summary>The place in plate or part frame, mm; null where none applies.</summary>
    public Point2? At { get; init; }
}
