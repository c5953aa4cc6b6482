namespace FixtureGen.Geometry;

/// <summary>What doubles lose, in figures without a unit: the one place where they are. Lengths stand in <see cref="Slack"/>.</summary>
internal static class Rounding
{
    /// <summary>A unit in the last place of 1.</summary>
    public const double Unit = 2.220446049250313e-16;

    /// <summary>Part of the greatest coordinate or radius that the arithmetic of curves may be off by: 64 units in the last place.</summary>
    public const double OfCoordinates = 64 * Unit;

    /// <summary>Sine between directions that are one: a thousand times what two differences of coordinates of a drawing lose.</summary>
    public const double Direction = 1e-12;

    /// <summary>Fractions of a curve's length nearer to each other than this are the same.</summary>
    public const double Fraction = 1e-12;

    /// <summary>Radians: a sweep this little below nothing is nothing, not a whole turn; and sines of joints that are smooth.</summary>
    public const double Angle = 1e-9;

    /// <summary>Sine between carriers, or squared half chord over radius and length, that cannot be told from 0.</summary>
    public const double Touching = 1e-14;

    /// <summary>Part of a sum of many lengths that their rounding may add up to.</summary>
    public const double Sums = 1e-9;

    /// <summary>Part of a size by which a box is made larger, so that rounding leaves nothing outside.</summary>
    public const double Box = 1e-6;

    /// <summary>Sine under which an arc's ends lie nearly in one line with its centre.</summary>
    public const double Slender = 1e-3;
}
