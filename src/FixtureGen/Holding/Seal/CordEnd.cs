using FixtureGen.Model;

namespace FixtureGen.Holding.Seal;

/// <summary>
/// A cord at one end of what its file leaves open: section and groove depth in mm, sponge pressure at 25 % squeeze in kPa, hardness
/// in Shore A. At every lift of the shell Softest pushes no more than Nominal, and Nominal no more than Hardest.
/// </summary>
internal readonly record struct CordEnd(CordKind Kind, double Section, double GrooveDepth, double P25KPa, double ShoreA)
{
    /// <summary>Largest section in the shallowest groove, upper end of its grade.</summary>
    public static CordEnd Hardest(Gasket cord) => FromP25(cord, 1, cord.P25MaxKPa);

    /// <summary>Smallest section in the deepest groove, lower end of its grade.</summary>
    public static CordEnd Softest(Gasket cord) => FromP25(cord, -1, cord.P25MinKPa);

    /// <summary>As its file states it, the middle of its grade.</summary>
    public static CordEnd Nominal(Gasket cord) => FromP25(cord, 0, (cord.P25MinKPa + cord.P25MaxKPa) / 2);

    /// <summary>The lift at which the cord lets go of the shell, mm, 0 and up.</summary>
    public double Reach => Math.Max(0, Section - GrooveDepth);

    /// <summary>What it pushes with the shell lifted by a height (mm, 0 and up) off the block, N/mm.</summary>
    public double PushNPerMm(double lift)
    {
        if (Section <= 0)
        {
            return 0;
        }
        double squeeze = CordForce.Squeeze(Section, GrooveDepth + lift);
        return Kind == CordKind.Solid
            ? CordForce.SolidNPerMm(Section, ShoreA, squeeze)
            : CordForce.SpongeNPerMm(Section, P25KPa, squeeze);
    }

    private static CordEnd FromP25(Gasket cord, int side, double p25) =>
        new(
            cord.Kind,
            cord.Section + (side * cord.SectionTolerance),
            cord.GrooveDepth - (side * cord.GrooveDepthTolerance),
            p25,
            cord.ShoreA + (side * cord.HardnessTolerance)
        );
}
