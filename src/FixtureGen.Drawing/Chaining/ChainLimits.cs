namespace FixtureGen.Drawing.Chaining;

/// <summary>The chaining tolerances in the curves' own unit: Grid &lt; Near &lt;= Join.</summary>
/// <param name="Grid">Ends nearer than this are one; shorter pieces are none.</param>
/// <param name="Near">Curves nearer than this along their length are drawn twice.</param>
/// <param name="Join">Widest gap that is closed.</param>
/// <param name="Unit">That unit's word in a sentence.</param>
internal sealed record ChainLimits(double Grid, double Near, double Join, string Unit)
{
    /// <summary>
    /// The house's tolerances in drawing units. While no unit is known the drawing may be in mm or in inches, so they lie
    /// half way between the two, by ratio: a gap of 0.01 units is closed, a gap of 0.05 is not.
    /// </summary>
    public static ChainLimits From(Tolerances t, bool inMm)
    {
        double unit = inMm ? 1 : Math.Sqrt(FixtureGen.Model.Units.MmPerInch);
        return new ChainLimits(t.Grid / unit, t.Chord / unit, t.Join / unit, inMm ? "mm" : "units");
    }
}
