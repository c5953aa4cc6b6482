using FixtureGen.Model;

namespace FixtureGen.Shop;

/// <summary>templates/blanks/*.toml: standard stock.</summary>
public static class BlankReader
{
    /// <summary>The blank, mm, or every mistake with line and column.</summary>
    /// <param name="text">TOML.</param>
    /// <param name="file">As findings name it.</param>
    /// <param name="name">The record's name: the file's without .toml.</param>
    public static Stage<Blank> Read(string text, string file, string name) =>
        ShopFile.Read(
            text,
            file,
            t => new Blank(
                name,
                t.Text("material"),
                t.Length("width", 25, 1000),
                t.Length("height", 25, 1000),
                t.Length("thickness", 3, 200),
                t.Length("thickness_tolerance", 0, 5)
            )
            {
                Description = t.TextOrNull("description") ?? "",
            }
        );
}
