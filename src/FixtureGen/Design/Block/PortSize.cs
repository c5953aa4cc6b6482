namespace FixtureGen.Design.Block;

/// <summary>How wide a feed hole is, mm: a quarter inch and never under an eighth (common practice, no source).</summary>
internal static class PortSize
{
    public const double LeastDiameter = 3.175;

    public const double UsualDiameter = 6.35;

    /// <summary>Of a round hole, mm2.</summary>
    public static double Section(double diameter) => Math.PI * diameter * diameter / 4;
}
