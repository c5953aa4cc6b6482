using FixtureGen.Model;

namespace FixtureGen.Shop;

/// <summary>templates/magnets/*.toml: a disc and the jacket of its loose partner.</summary>
public static class MagnetReader
{
    /// <summary>The disc and its jacket, mm, or every mistake with line and column.</summary>
    /// <param name="text">TOML.</param>
    /// <param name="file">As findings name it.</param>
    /// <param name="name">The record's name: the file's without .toml.</param>
    public static Stage<MagnetSpec> Read(string text, string file, string name) =>
        ShopFile.Read(text, file, t => Body(t, name));

    private static MagnetSpec Body(TableReader t, string name)
    {
        double least = t.Number("br_min_t", 0.1, 1.6);
        double greatest = t.Number("br_max_t", 0.1, 1.6);
        t.Rising("br_min_t", least, "br_max_t", greatest, "T");
        double diameter = t.Length("diameter", 1, 60);
        double jacket = t.Length("jacket_diameter", 1, 100);
        double thickness = t.Length("thickness", 0.5, 60);
        double height = t.Length("jacket_height", 0.5, 100);
        double floor = t.Length("jacket_floor", 0, 10);
        if (jacket <= diameter)
        {
            t.Contradict(
                "jacket_diameter",
                FormattableString.Invariant(
                    $"A jacket of {jacket:0.###} mm is no wider than the disc of {diameter:0.###} mm."
                ),
                "Give the jacket's outside."
            );
        }
        if (height < thickness + floor)
        {
            t.Contradict(
                "jacket_height",
                FormattableString.Invariant(
                    $"A jacket {height:0.###} mm high is lower than the disc and its floor together, {thickness + floor:0.###} mm."
                ),
                "Give the whole height above the shell."
            );
        }
        return new MagnetSpec(
            name,
            t.Text("grade"),
            least,
            greatest,
            diameter,
            t.Length("diameter_tolerance", 0, 1),
            thickness,
            t.Length("plating", 0, 0.2),
            t.Number("max_temperature_c", 20, 300),
            jacket,
            height,
            floor,
            t.Text("source")
        )
        {
            Description = t.TextOrNull("description") ?? "",
        };
    }
}
