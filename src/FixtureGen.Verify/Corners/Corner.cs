namespace FixtureGen.Verify.Corners;

/// <summary>What a shop cannot hold exactly, mm, all on the side that hurts; 0 is as planned.</summary>
/// <param name="Name">As findings say it.</param>
/// <param name="Thicker">The raw block, or the shell, above its planned thickness.</param>
/// <param name="Off">The raw block from its stops, any way.</param>
/// <param name="Wider">The cutter's edge beyond its radius: run-out.</param>
/// <param name="Longer">The tool below its measured length's tip.</param>
internal sealed record Corner(string Name, double Thicker, double Off, double Wider, double Longer)
{
    /// <summary>How well a tool's length is set, mm either way: a presetter or a touched-off gauge block (common practice, no source).</summary>
    public const double ToolLength = 0.05;

    public bool IsNone => Thicker <= 0 && Off <= 0 && Wider <= 0 && Longer <= 0;
}
