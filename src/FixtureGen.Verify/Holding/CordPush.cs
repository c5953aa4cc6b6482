using FixtureGen.Model;

namespace FixtureGen.Verify.Holding;

/// <summary>
/// One end of what a gasket cord may be: Section mm, Depth of its groove mm, and how it pushes. The hardest is the thickest cord
/// of the upper grade in the shallowest groove; the softest the other way round. Forces N per mm of cord.
/// </summary>
internal sealed record CordPush(CordKind Kind, double Section, double Depth, double ShoreA, double P25KPa)
{
    public static CordPush Hardest(Gasket cord) =>
        new(
            cord.Kind,
            cord.Section + cord.SectionTolerance,
            cord.GrooveDepth - cord.GrooveDepthTolerance,
            cord.ShoreA + cord.HardnessTolerance,
            cord.P25MaxKPa
        );

    public static CordPush Softest(Gasket cord) =>
        new(
            cord.Kind,
            cord.Section - cord.SectionTolerance,
            cord.GrooveDepth + cord.GrooveDepthTolerance,
            cord.ShoreA - cord.HardnessTolerance,
            cord.P25MinKPa
        );

    /// <summary>How far the shell may be lifted before this cord lets go of it, mm; 0 or less where it never reaches it.</summary>
    public double Reach => Section - Depth;

    /// <summary>
    /// With the shell lifted off the block by a height, mm. Sponge: the grade's pressure at 25 % (ASTM D1056) on the section, growing
    /// as closed air does, C / (1 - C). Solid: Lindley's E d (1.25 C^1.5 + 50 C^6) with Gent's modulus from the hardness (J. IRI 1,
    /// 1967; Rubber Chem. Technol. 31, 1958; both from memory).
    /// </summary>
    public double NPerMm(double lift)
    {
        double c = Section > 0 ? (Section - Depth - lift) / Section : 0;
        if (c <= 0)
        {
            return 0;
        }
        double held = Math.Min(c, 0.95);
        return Kind == CordKind.Sponge
            ? P25KPa / 1000 * Section * 3 * held / (1 - held)
            : Modulus(Math.Min(ShoreA, 98)) * Section * ((1.25 * Math.Pow(c, 1.5)) + (50 * Math.Pow(c, 6)));
    }

    private static double Modulus(double shoreA) =>
        0.0981 * (56 + (7.62336 * shoreA)) / (0.137505 * 2.54 * (100 - shoreA));
}
