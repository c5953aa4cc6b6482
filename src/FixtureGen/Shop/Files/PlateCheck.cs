using System.Globalization;
using FixtureGen.Model;
using FixtureGen.Shop.Reading;

namespace FixtureGen.Shop.Files;

/// <summary>What a plate must satisfy as a whole: one way on only, everything on the face, grooves that lead to a port.</summary>
internal static class PlateCheck
{
    private const double Same = 0.5;

    public static void All(TableReader t, Plate plate)
    {
        Stops(t, plate);
        OneWayOnly(t, plate);
        foreach (PlateOpening o in plate.Openings.Where(o => !Holds(plate.Face, o.At, o.Diameter / 2)))
        {
            t.Contradict(
                "face",
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"'{o.Name}' at ({o.At.X:0.###}, {o.At.Y:0.###}) mm is not on the plate's face."
                ),
                "Move it, or enlarge 'face'."
            );
        }
        Depths(t, plate);
        if (!plate.Bolts.Any())
        {
            t.Contradict("bolt", "The plate has no [[bolt]].", "Add the threaded holes.");
        }
        if (!plate.Ports.Any())
        {
            t.Contradict("port", "The plate has no vacuum [[port]].", "Add the port.");
        }
        PlateVacuum.Check(t, plate);
    }

    // A through hole may be as deep as the plate; nothing is deeper, and a groove leaves a floor.
    private static void Depths(TableReader t, Plate plate)
    {
        foreach (PlateOpening o in plate.Openings.Where(o => o.ReliefDepth > plate.Thickness))
        {
            Deeper("thickness", $"The relief of '{o.Name}'", o.ReliefDepth);
        }
        foreach (PlateGroove g in plate.Grooves.Where(g => g.Depth >= plate.Thickness).Take(1))
        {
            Deeper("thickness", $"A groove of port '{g.Port}'", g.Depth);
        }
        foreach (PlateOpening o in plate.Openings.Where(o => o.ReliefDiameter > 0 && o.ReliefDiameter < o.Diameter))
        {
            t.Contradict(
                "face",
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"The relief of '{o.Name}' is {o.ReliefDiameter:0.###} mm wide, less than its hole of {o.Diameter:0.###} mm."
                ),
                "Give the wide bore above the hole as relief_diameter, or leave both relief keys out."
            );
        }

        void Deeper(string key, string what, double depth) =>
            t.Contradict(
                key,
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{what} is {depth:0.###} mm deep, the plate {plate.Thickness:0.###} mm thick."
                ),
                "Mend the thickness or the depth."
            );
    }

    private static void Stops(TableReader t, Plate plate)
    {
        int up = plate.Stops.Count(s => s.Normal.Y > 0);
        int right = plate.Stops.Count(s => s.Normal.X > 0);
        if (plate.Stops.Length != 3 || up + right != 3 || up is 0 or 3)
        {
            t.Contradict(
                "stop",
                "Three [[stop]] points must locate the blank's lower and left edges: two on one, one on the other.",
                "Give two stops that push up and one that pushes right, or the reverse."
            );
        }
    }

    // Turned half round about the pins' middle, turned over along the pin line, or turned over across it, the pins' pair
    // falls on itself; then the bolts must not.
    private static void OneWayOnly(TableReader t, Plate plate)
    {
        Point2 a = plate.PinRound.At;
        Point2 b = plate.PinSlot.At;
        if (a.DistanceTo(b) < plate.PinRound.Diameter + plate.PinSlot.Diameter)
        {
            t.Contradict("pin_slot", "The two pins stand in one place.", "Set them apart.");
            return;
        }
        Point2 middle = 0.5 * (a + b);
        Point2 u = (1 / a.DistanceTo(b)) * (b - a);
        (string Name, int Along, int Across)[] ways =
        [
            ("turned half round", -1, -1),
            ("turned over along the pin line", 1, -1),
            ("turned over across the pin line", -1, 1),
        ];
        foreach ((string name, int along, int across) in ways)
        {
            bool goesOn = plate.Bolts.All(bolt =>
            {
                Point2 d = bolt.At - middle;
                Point2 moved = middle + (along * d.Dot(u) * u) + (across * d.Dot(u.Left) * u.Left);
                return plate.Bolts.Any(o => o.At.DistanceTo(moved) < Same);
            });
            if (goesOn && plate.Bolts.Any())
            {
                t.Contradict(
                    "pin_round",
                    $"A block {name} would go on: pins and bolts fall on each other.",
                    "Move a pin."
                );
            }
        }
    }

    private static bool Holds(Box2 face, Point2 p, double r) =>
        p.X - r >= face.MinX && p.X + r <= face.MaxX && p.Y - r >= face.MinY && p.Y + r <= face.MaxY;
}
