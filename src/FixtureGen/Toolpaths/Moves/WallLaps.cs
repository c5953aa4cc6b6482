namespace FixtureGen.Toolpaths.Moves;

/// <summary>
/// How deep a lap along a round wall may be that takes what roughing left: as deep as loads the edge no more than a full slot of one
/// pass does, which the block was asked to hold.
/// </summary>
internal static class WallLaps
{
    /// <summary>Greatest depth of one lap, mm.</summary>
    /// <param name="stepDown">What one pass may take in a full slot, mm.</param>
    /// <param name="centre">Radius of the cutter's way, mm.</param>
    /// <param name="cutter">The cutter's radius, mm.</param>
    /// <param name="allowance">What was left on the wall, mm.</param>
    public static double Depth(double stepDown, double centre, double cutter, double allowance)
    {
        // where the cutter's circle meets the wall as it was: the chip there is the feed times the sine from the way outward
        double wall = centre + cutter - allowance;
        double cosine = ((wall * wall) - (centre * centre) - (cutter * cutter)) / (2 * centre * cutter);
        double thickest = cosine <= 0 ? 1 : Math.Sqrt(Math.Max(0, 1 - (cosine * cosine)));
        return stepDown / Math.Max(thickest, 1e-3);
    }
}
