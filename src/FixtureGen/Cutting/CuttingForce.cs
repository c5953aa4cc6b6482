using FixtureGen.Model;

namespace FixtureGen.Cutting;

/// <summary>
/// Peak forces of one cutter edge on the work, N: Tangential along the edge's motion, Radial away from the cutter's axis,
/// Axial lifting the work (negative presses it down). ChipThickness is the thickest chip, mm.
/// </summary>
public sealed record CutForce(double Tangential, double Radial, double Axial, double ChipThickness)
{
    /// <summary>Tangential and radial together, N.</summary>
    public double Shear => Math.Sqrt((Tangential * Tangential) + (Radial * Radial));

    /// <summary>
    /// Shear force on the work, N, with the edge at an angle in radians from the (unit) direction of travel, left positive: the
    /// chip and the force go with the angle's cosine and are 0 behind the axis. Seen from above with a clockwise spindle: the
    /// edge moves to the right at the front, so climb cutting leaves the work on the right.
    /// </summary>
    public Point2 On(Point2 travel, double angle)
    {
        double chip = Math.Max(0, Math.Cos(angle));
        Point2 outward = (travel * Math.Cos(angle)) + (travel.Left * Math.Sin(angle));
        Point2 motion = (travel * Math.Sin(angle)) - (travel.Left * Math.Cos(angle));
        return ((motion * Tangential) + (outward * Radial)) * chip;
    }
}

/// <summary>
/// Cutting force from the chip's cross-section: specific force times depth times thickest chip (the mean over a turn is a
/// third of it and holds nothing down). Chain: Machinery's Handbook, speeds and feeds, power for milling; chip thinning by
/// the cutter's circle, h = fz 2 sqrt(a (1 - a)) for a = ae/D below one half.
/// </summary>
public static class CuttingForce
{
    /// <summary>
    /// Radial over tangential force: 113.5/243.8 of aluminium 6061-T6 rounded up (Chin. J. Mech. Eng., doi
    /// 10.1186/s10033-021-00536-9, table 5); taken for plastics too: common practice, no source.
    /// </summary>
    public const double RadialShare = 0.5;

    /// <summary>
    /// Peak forces of one edge. Depth ap, width ae and feed a tooth fz in mm; the upper end of the material's specific force
    /// (N/mm2) is used and multiplied by the dull-tool factor (1.5 to 2 is common practice, no source). A width beyond the
    /// diameter counts as the diameter. Edges that cut at once count all, as if each took the thickest chip. Axial is tangential times the tangent of the helix angle, 0 for a straight flute.
    /// </summary>
    public static CutForce Peak(Tool tool, Material material, double ap, double ae, double fz, double dullFactor)
    {
        double a = Math.Clamp(ae / tool.Diameter, 0, 1);
        double thick = fz * (a >= 0.5 ? 1 : 2 * Math.Sqrt(a * (1 - a)));
        double tangential = material.SpecificForceMax * dullFactor * ap * thick * EdgesAtOnce(tool.Flutes, a);
        double pitch = Math.Tan(tool.HelixAngleDeg * Math.PI / 180);
        double axial = tool.Helix switch
        {
            HelixDirection.Up => tangential * pitch,
            HelixDirection.Down => -tangential * pitch,
            HelixDirection.Straight => 0,
        };
        return new CutForce(tangential, RadialShare * tangential, axial, thick);
    }

    /// <summary>
    /// How many edges cut at the same time at the most: what is engaged of a turn, arccos(1 - 2a), over the way from one edge to the
    /// next. One for one or two flutes, however wide the cut.
    /// </summary>
    private static double EdgesAtOnce(int flutes, double a) =>
        Math.Max(1, Math.Ceiling((flutes * Math.Acos(1 - (2 * a)) / (2 * Math.PI)) - 1e-9));

    /// <summary>
    /// Peak forces of a drill at feed fz a lip, mm: both lips cut half the diameter each and balance but for a share
    /// (<see cref="RadialShare"/>; common practice, no source); the thrust presses down, and a drill that breaks through may lift by as much.
    /// </summary>
    public static CutForce Drill(Tool drill, Material material, double fz, double dullFactor)
    {
        double lip = material.SpecificForceMax * dullFactor * fz * drill.Radius;
        return new CutForce(lip * RadialShare, 0, lip, fz);
    }

    /// <summary>
    /// Feed a tooth over thickest chip, for a width of cut a = ae/D: 1 / (2 sqrt(a (1 - a))); 1 from half the diameter up, and
    /// where nothing is cut.
    /// </summary>
    public static double ChipThinning(double widthInDiameters) =>
        widthInDiameters is <= 0 or >= 0.5 ? 1 : 1 / (2 * Math.Sqrt(widthInDiameters * (1 - widthInDiameters)));
}
