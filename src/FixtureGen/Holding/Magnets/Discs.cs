using FixtureGen.Model;

namespace FixtureGen.Holding.Magnets;

/// <summary>One disc magnet, magnetised along its axis: radius and thickness mm, remanence T.</summary>
public readonly record struct Disc(double Radius, double Thickness, double RemanenceT)
{
    /// <summary>
    /// The weakest disc a specification allows at a working temperature in C: least diameter, nominal thickness, least Br of the
    /// grade falling by 0.12 % per kelvin above 20 C (the grade tables' figure for bare sintered NdFeB).
    /// </summary>
    public static Disc Weakest(MagnetSpec spec, double temperatureC) =>
        new((spec.Diameter - spec.DiameterTolerance) / 2, spec.Thickness, spec.BrMinT * Warm(temperatureC));

    /// <summary>The disc as its specification names it at a working temperature in C: nominal size, the middle of the grade's Br.</summary>
    public static Disc Nominal(MagnetSpec spec, double temperatureC) =>
        new(spec.Diameter / 2, spec.Thickness, (spec.BrMinT + spec.BrMaxT) / 2 * Warm(temperatureC));

    /// <summary>
    /// The strongest disc a specification allows at 20 C, for the distance to keep from implants: greatest diameter, nominal
    /// thickness, greatest Br of the grade.
    /// </summary>
    public static Disc Strongest(MagnetSpec spec) =>
        new((spec.Diameter + spec.DiameterTolerance) / 2, spec.Thickness, spec.BrMaxT);

    private static double Warm(double temperatureC) => 1 - (0.0012 * Math.Max(0, temperatureC - 20));

    /// <summary>
    /// Permeance coefficient of the disc standing alone, from the demagnetising factor N = 1 / (1 + 4 n / sqrt(pi)) with n
    /// the length over the diameter (Sato and Ishii, J. Appl. Phys. 66, 1989, from memory): Pc = (1 - N) / N.
    /// </summary>
    public double Permeance => 4 * (Thickness / (2 * Radius)) / Math.Sqrt(Math.PI);
}
