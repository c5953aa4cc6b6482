namespace FixtureGen;

/// <summary>
/// The generator's working tolerances, mm: Grid &lt; Slice &lt; Chord &lt;= Join. Passed, never static, no default arguments.
/// The judge has its own record (Limits) and never sees this one.
/// </summary>
/// <param name="Grid">Coordinates nearer than this are the same.</param>
/// <param name="Slice">Slack of the offset's distance test.</param>
/// <param name="Chord">Greatest distance of an arc from the curve it stands for.</param>
/// <param name="Join">Greatest gap between drawing ends that is closed (and reported).</param>
public sealed record Tolerances(double Grid, double Slice, double Chord, double Join)
{
    /// <summary>The house's values: 1e-6, 2e-6, 0.005 and 0.05 mm.</summary>
    public static Tolerances House { get; } = new(1e-6, 2e-6, 0.005, 0.05);
}
