using FixtureGen.Model;
using FixtureGen.Output.Reports;
using FixtureGen.Output.Scenes;

namespace FixtureGen.Output.Papers;

/// <summary>The names that tie the sheet's picture to its tables: openings as the plate calls them, magnets and cords by number.</summary>
internal static class SheetMarks
{
    /// <summary>Openings, magnets and joints as they lie in the top setup.</summary>
    public static void All(Scene scene, View view, PaperFacts facts, double size)
    {
        foreach (Setup setup in (Setup[])[Setup.Top, Setup.Underside])
        {
            Names(scene, view, facts, setup, size);
        }
        for (int i = 0; i < facts.Design.Magnets.Length; i++)
        {
            double off = (facts.Job.Magnet.Diameter / 2 * view.Scale) + 0.8;
            Beside(scene, view, facts.Design.Magnets[i].At, "M" + Figures.Whole(i + 1), size, off);
        }
        for (int i = 0; i < facts.Design.AllCords.Length; i++)
        {
            Beside(scene, view, facts.Design.AllCords[i].Joint, "J" + Figures.Whole(i + 1), size, 2.2);
        }
    }

    /// <summary>The plate's names of the openings that <paramref name="setup"/> cuts holes over.</summary>
    public static void Names(Scene scene, View view, PaperFacts facts, Setup setup, double size)
    {
        double middle = facts.Design.Placement.BlankBox.Middle.Y;
        foreach (PlateOpening opening in facts.Job.Plate.Openings.Where(o => o.Kind != OpeningKind.Port))
        {
            HoleFeature[] holes =
            [
                .. facts.Design.Features.OfType<HoleFeature>().Where(h => h.Opening == opening && h.Setup == setup),
            ];
            if (holes.Length > 0)
            {
                double off = (holes.Max(h => h.Diameter) / 2 * view.Scale) + 0.8;
                double down = -off - (size * Typefaces.CapHeight);
                Beside(scene, view, opening.At, opening.Name, size, opening.At.Y > middle ? down : off);
            }
        }
    }

    private static void Beside(Scene scene, View view, Point2 at, string name, double size, double off) =>
        scene.Text(name, view.ToPage(at) + new Point2(0, off), TypeStyle.Strong(size), Anchor.Middle, 0, halo: true);
}
