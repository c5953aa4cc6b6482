using FixtureGen.Model;
using FixtureGen.Shop.Reading;

namespace FixtureGen.Shop.Files;

/// <summary>templates/magnets/*.toml: a disc and the jacket of its loose partner.</summary>
public static class MagnetReader
{
    /// <summary>The disc and its jacket, mm, or every mistake with line and column.</summary>
    /// <param name="text">TOML.</param>
    /// <param name="file">As findings name it.</param>
    /// <param name="name">The record's name: the file's without .toml.</param>
    public static Stage<MagnetSpec> Read(string text, string file, string name) =>
        ShopFile.Read(text, file, t => Body(t, name));

    internal static MagnetSpec Body(TableReader t, string name)
    {
        string grade = t.Text("grade");
        double least = t.Within(MagnetRanges.BrMin);
        double greatest = t.Within(MagnetRanges.BrMax);
        t.Rising("br_min_t", least, "br_max_t", greatest, "T");
        if (!t.Log.Failed)
        {
            MagnetGrades.Check(t, grade, least, greatest);
        }
        double diameter = t.Within(MagnetRanges.Diameter);
        double jacket = t.Length("jacket_diameter", 1, 100);
        double thickness = t.Within(MagnetRanges.Thickness);
        double height = t.Length("jacket_height", 0.5, 100);
        double floor = t.Within(MagnetRanges.JacketFloor);
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
        return new MagnetSpec
        {
            Name = name,
            Grade = grade,
            BrMinT = least,
            BrMaxT = greatest,
            Diameter = diameter,
            DiameterTolerance = t.Within(MagnetRanges.DiameterTolerance),
            Thickness = thickness,
            Plating = t.Within(MagnetRanges.Plating),
            MaxTemperatureC = t.Within(MagnetRanges.MaxTemperature),
            JacketDiameter = jacket,
            JacketHeight = height,
            JacketFloor = floor,
            Source = t.Text("source"),
            Description = t.TextOrNull("description") ?? "",
        };
    }
}
