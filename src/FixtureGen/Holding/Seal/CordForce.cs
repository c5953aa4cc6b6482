using FixtureGen.Model;

namespace FixtureGen.Holding.Seal;

/// <summary>
/// How hard a gasket cord pushes the shell back, N per mm of cord; squeeze C is a share of the section. Solid cord: Lindley's
/// line force of a round section, E d (1.25 C^1.5 + 50 C^6) (J. IRI 1, 1967), with Gent's modulus from the hardness (Rubber
/// Chem. Technol. 31, 1958), both from memory. Sponge: the pressure of its ASTM D1056 grade at 25 % times the section, scaled
/// with squeeze as the air in closed cells is, C/(1-C).
/// </summary>
public static class CordForce
{
    private const double GradeSqueeze = 0.25;

    /// <summary>Young's modulus from Shore A, below 100 (Gent 1958, from memory), MPa.</summary>
    public static double ModulusMPa(double shoreA) =>
        0.0981 * (56 + (7.62336 * shoreA)) / (0.137505 * (254 - (2.54 * shoreA)));

    /// <summary>Lindley's factor 1.25 C^1.5 + 50 C^6 at a squeeze of 0 to 0.5 (1967, from memory).</summary>
    public static double LindleyFactor(double squeeze) => (1.25 * Math.Pow(squeeze, 1.5)) + (50 * Math.Pow(squeeze, 6));

    /// <summary>Line force of a solid round cord, N/mm, from its section in mm; 0 where nothing is squeezed.</summary>
    public static double SolidNPerMm(double section, double shoreA, double squeeze) =>
        squeeze <= 0 ? 0 : ModulusMPa(shoreA) * section * LindleyFactor(squeeze);

    /// <summary>
    /// Line force of a sponge cord, N/mm, from its section in mm and its pressure at 25 % squeeze in kPa; 0 where nothing is
    /// squeezed, squeeze below 1. A round cord touches on less than its section, so this is an upper estimate.
    /// </summary>
    public static double SpongeNPerMm(double section, double p25KPa, double squeeze) =>
        squeeze <= 0 ? 0 : p25KPa / 1000 * section * (squeeze / (1 - squeeze)) / (GradeSqueeze / (1 - GradeSqueeze));

    /// <summary>
    /// Share of the section by which a shell down on the block presses the cord in, 1 - depth / section, both mm; 0 or less
    /// where the cord does not stand proud of its groove.
    /// </summary>
    public static double Squeeze(double section, double grooveDepth) => 1 - (grooveDepth / section);

    /// <summary>The hardest this cord can push with the shell lifted by a height (mm) off the block, N/mm.</summary>
    public static double HardestNPerMm(Gasket cord, double lift) => CordEnd.Hardest(cord).PushNPerMm(lift);
}
