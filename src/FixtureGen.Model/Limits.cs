namespace FixtureGen.Model;

/// <summary>What the judge allows, mm. Its own record: loosening the generator cannot loosen the judge.</summary>
public sealed record Limits(double Gouge, double Leftover, double Cell, double ArcMismatch, double PlateGap)
{
    /// <summary>The house limits: gouge 0.02, left-over 0.1, 0.1 mm cells, RS274/NGC's 0.002 mm arc rule (NISTIR 6556 3.5.3), 0.5 mm round a plate relief.</summary>
    public static Limits House { get; } = new(0.02, 0.1, 0.1, 0.002, 0.5);
}
