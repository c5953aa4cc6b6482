using FixtureGen.Model;
using FixtureGen.Shop.Reading;

namespace FixtureGen.Shop.Files;

/// <summary>templates/blanks/*.toml: standard stock.</summary>
public static class BlankReader
{
    /// <summary>The blank, mm, or every mistake with line and column.</summary>
    /// <param name="text">TOML.</param>
    /// <param name="file">As findings name it.</param>
    /// <param name="name">The record's name: the file's without .toml.</param>
    public static Stage<Blank> Read(string text, string file, string name) =>
        ShopFile.Read(text, file, t => Body(t, name));

    internal static Blank Body(TableReader t, string name)
    {
        string material = t.Text("material");
        double width = t.Length("width", 25, 1000);
        double height = t.Length("height", 25, 1000);
        double thickness = t.Length("thickness", 3, 200);
        return new Blank
        {
            Name = name,
            Material = material,
            Width = width,
            Height = height,
            Thickness = thickness,
            ThicknessTolerance = t.Within(ToolRanges.BlankTolerance(thickness)),
            Description = t.TextOrNull("description") ?? "",
        };
    }
}
