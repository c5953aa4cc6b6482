using System.Globalization;
using FixtureGen.Model;
using FixtureGen.Shop.Reading;

namespace FixtureGen.Shop.Files;

/// <summary>Whether the fasteners that a job names go into the plate that it names.</summary>
internal static class ShopFit
{
    /// <summary>A pin may differ from its bushing by no more, mm: a slip fit has hundredths.</summary>
    private const double PinPlay = 0.05;

    /// <summary>A thread's stated size may be rounded by this much, mm; the nearest other sizes differ by more (M6 and 1/4 in by 0.35).</summary>
    private const double ThreadRounding = 0.15;

    /// <summary>Logs each that does not fit, at its key of [shop]; what could not be read is passed over.</summary>
    public static void All(TableReader shop, Plate? plate, Screw? bolt, DowelPin? pin)
    {
        if (plate is null)
        {
            return;
        }
        PlateOpening[] bushings = [.. plate.Openings.Where(o => o.Kind is OpeningKind.PinRound or OpeningKind.PinSlot)];
        foreach (PlateOpening o in bushings.Where(o => pin is not null && Off(o, pin.Diameter) > PinPlay).Take(1))
        {
            Log("pin", "pin", pin!.Name, pin.Diameter, o);
        }
        foreach (
            PlateOpening o in plate.Bolts.Where(o => bolt is not null && Off(o, bolt.Body) > ThreadRounding).Take(1)
        )
        {
            Log("bolt", "screw", bolt!.Name, bolt.Body, o);
        }

        void Log(string key, string what, string name, double size, PlateOpening o) =>
            shop.Contradict(
                key,
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"The {what} '{name}' of {size:0.###} mm does not fit '{o.Name}' of plate '{plate.Name}', which is {o.Diameter:0.###} mm."
                ),
                $"Name a {what} of that size, or mend 'diameter' in the plate's file if it is wrong."
            );
    }

    private static double Off(PlateOpening o, double size) => Math.Abs(o.Diameter - size);
}
