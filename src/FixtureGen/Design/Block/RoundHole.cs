using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Block;

/// <summary>Makes hole features; the removal is exactly the hole.</summary>
internal static class RoundHole
{
    public static HoleFeature Make(
        string name,
        FeatureKind kind,
        Setup setup,
        Point2 at,
        double diameter,
        double topZ,
        double floorZ,
        double slotLength = 0,
        double slotAngleDeg = 0,
        bool breaksThrough = false,
        PlateOpening? opening = null
    )
    {
        Region area = Region.From(Outline(at, diameter, slotLength, slotAngleDeg));
        return new()
        {
            Name = name,
            Kind = kind,
            Setup = setup,
            At = at,
            Diameter = diameter,
            TopZ = topZ,
            FloorZ = floorZ,
            SlotLength = slotLength,
            SlotAngleDeg = slotAngleDeg,
            BreaksThrough = breaksThrough,
            Opening = opening,
            Removals = [new(setup, kind, name, [area], topZ, floorZ)],
        };
    }

    private static Contour Outline(Point2 at, double diameter, double slotLength, double slotAngleDeg)
    {
        if (slotLength <= 0)
        {
            return Contours.Circle(at, diameter / 2);
        }
        double angle = slotAngleDeg * Math.PI / 180;
        Point2 half = new Point2(Math.Cos(angle), Math.Sin(angle)) * (slotLength / 2);
        return Contours.Slot(at - half, at + half, diameter / 2);
    }
}
