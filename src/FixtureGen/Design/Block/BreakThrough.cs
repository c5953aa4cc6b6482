using FixtureGen.Model;

namespace FixtureGen.Design.Block;

/// <summary>
/// Whether a tool may pass the plate's face above an opening. The relief must hold the tool's swept disc with
/// <see cref="Beside"/> all round and its tip with <see cref="Below"/> under it; the tip is a drill point of 0.3 diameters
/// (118 degrees: D / 2 / tan 59 degrees = 0.30 D) and the break-through.
/// </summary>
internal static class BreakThrough
{
    public const double Beside = 0.5;

    public const double Below = 0.5;

    /// <summary>How far past the face the tool's full diameter goes so that no burr is left, mm (common practice, no source).</summary>
    public const double PastFace = 0.5;

    private const double PointPerDiameter = 0.3;

    /// <summary>The relief a hole needs, mm: diameter and depth. Length is how far the tool's centre travels (a slot).</summary>
    public static (double Diameter, double Depth) Needs(double diameter, double length) =>
        (diameter + length + (2 * Beside), (PointPerDiameter * diameter) + PastFace + Below);

    public static bool Allowed(PlateOpening opening, double diameter, double length)
    {
        (double width, double depth) = Needs(diameter, length);
        return opening.ReliefDiameter >= width && opening.ReliefDepth >= depth;
    }

    /// <summary>A finding where the relief is too small for a hole from the top.</summary>
    public static IEnumerable<Finding> Check(PlateOpening opening, double diameter, double length)
    {
        if (!Allowed(opening, diameter, length))
        {
            (double width, double depth) = Needs(diameter, length);
            yield return BlockFindings.OpeningWithoutRelief(opening, opening.At, width, depth);
        }
    }
}
