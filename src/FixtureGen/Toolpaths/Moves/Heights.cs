namespace FixtureGen.Toolpaths.Moves;

/// <summary>
/// The heights of one setup, Z in its own frame, mm: Face is what is uncut, Hop where the tool may travel within an
/// operation, Clearance where it travels between operations.
/// </summary>
internal sealed record Heights(double Face, double Hop, double Clearance)
{
    /// <summary>Above uncut ground within an operation (common practice, no source).</summary>
    public const double HopGap = 1;

    /// <summary>Above the skimmed face between the strokes of a text (common practice, no source).</summary>
    public const double EngraveGap = 0.6;

    /// <summary>Above everything that stands up, between operations (common practice, no source).</summary>
    public const double ClearanceGap = 4;
}
