namespace FixtureGen.Cutting;

/// <summary>
/// How far past its closing point a finished contour is cut once more, so that no witness mark stands where the cutter came in and went out.
/// </summary>
internal static class Overlap
{
    /// <summary>Half the cutter's diameter, at most an eighth of the contour, mm (common practice, no source).</summary>
    /// <param name="cutterRadius">mm.</param>
    /// <param name="contour">Length of the cutter's way round, mm.</param>
    public static double Length(double cutterRadius, double contour) => Math.Min(cutterRadius, contour / 8);
}
