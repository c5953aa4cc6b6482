using FixtureGen.Model;

namespace FixtureGen.Holding;

/// <summary>
/// How hard a gasket cord pushes the shell back, N per mm of cord. Solid cord: Lindley's line force of a round section
/// (J. IRI 1, 1967) with Gent's modulus from the hardness (Rubber Chem. Technol. 31, 1958), both from memory. Sponge: the
/// pressure of its ASTM D1056 grade at 25 % times the section, scaled with squeeze as the air in closed cells is, C/(1-C).
/// </summary>
public static class CordForce
{
    private const double GradeSqueeze = 0.25;

    /// <summary>Young's modulus from Shore A (Gent 1958), MPa.</summary>
    public static double ModulusMPa(double shoreA) =>
        0.0981 * (56 + (7.62336 * shoreA)) / (0.137505 * (254 - (2.54 * shoreA)));

    /// <summary>Lindley's factor 1.25 C^1.5 + 50 C^6 at a squeeze of 0 to 0.5.</summary>
    public static double LindleyFactor(double squeeze) => (1.25 * Math.Pow(squeeze, 1.5)) + (50 * Math.Pow(squeeze, 6));

    /// <summary>Line force of a solid round cord, N/mm; section mm.</summary>
    public static double SolidNPerMm(double section, double shoreA, double squeeze) =>
        squeeze <= 0 ? 0 : ModulusMPa(shoreA) * section * LindleyFactor(squeeze);

    /// <summary>Line force of a sponge cord, N/mm, from its pressure at 25 % squeeze in kPa; section mm. A round cord touches on less than its section, so this is an upper estimate.</summary>
    public static double SpongeNPerMm(double section, double p25KPa, double squeeze) =>
        squeeze <= 0 ? 0 : p25KPa / 1000 * section * (squeeze / (1 - squeeze)) / (GradeSqueeze / (1 - GradeSqueeze));

    /// <summary>How far the shell presses the cord in when it is down on the block: 1 - groove depth / section.</summary>
    public static double Squeeze(double section, double grooveDepth) => 1 - (grooveDepth / section);

    /// <summary>Share of the groove's section that a round cord fills: (pi W^2 / 4) / (L G). Means something for solid cord only.</summary>
    public static double Fill(double section, double grooveDepth, double grooveWidth) =>
        Math.PI * section * section / 4 / (grooveDepth * grooveWidth);

    /// <summary>The hardest this cord can push with the shell lifted by a height off the block, N/mm: largest section, upper end of its grade.</summary>
    public static double HardestNPerMm(Gasket cord, double lift) =>
        At(cord, cord.Section + cord.SectionTolerance, cord.P25MaxKPa, lift);

    /// <summary>The least this cord pushes with the shell down, N/mm: smallest section, lower end of its grade.</summary>
    public static double SoftestNPerMm(Gasket cord) =>
        At(cord, cord.Section - cord.SectionTolerance, cord.P25MinKPa, 0);

    private static double At(Gasket cord, double section, double p25KPa, double lift)
    {
        double squeeze = Squeeze(section, cord.GrooveDepth + lift);
        return cord.Kind == CordKind.Solid
            ? SolidNPerMm(section, cord.ShoreA, squeeze)
            : SpongeNPerMm(section, p25KPa, squeeze);
    }
}
