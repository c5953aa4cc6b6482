using FixtureGen.Model;
using FixtureGen.Shop.Reading;

namespace FixtureGen.App.Files;

/// <summary>
/// Where things are on disk. Shop files lie in <c>templates/</c> of the nearest ancestor folder of the job that has one;
/// <c>out/</c> lies beside that <c>templates/</c>. Nothing is looked for relative to the program.
/// </summary>
internal sealed record LibraryFolder(string Root)
{
    /// <summary>The shop files' folder; it exists.</summary>
    public string Templates => Path.Combine(Root, "templates");

    /// <summary>Where outputs go, a folder for each job; it may not exist yet.</summary>
    public string Out => Path.Combine(Root, "out");

    /// <summary>The library a file belongs to, or a finding that says where was looked.</summary>
    public static Stage<LibraryFolder> Find(string file)
    {
        string full = Path.GetFullPath(file);
        for (DirectoryInfo? d = Directory.GetParent(full); d is not null; d = d.Parent)
        {
            if (Directory.Exists(Path.Combine(d.FullName, "templates")))
            {
                return Stage.Answer(new LibraryFolder(d.FullName));
            }
        }
        return Stage.Failed<LibraryFolder>(
            new Finding(
                "templates-missing",
                Severity.Error,
                file,
                "no folder above it has a templates/ folder with the shop files",
                "put the job below a folder that has templates/ ('new OUTLINE.dxf --shop' puts the built-in one there to begin with)"
            )
        );
    }

    /// <summary>Reads a shop file by kind (plates, tools, ...) and name; a plate may be stood in for by another file.</summary>
    public ShopFiles Shop(string? plateFile) => ShopWith(StandIn.Plate(plateFile));

    /// <summary>The same with any one file stood in for.</summary>
    public ShopFiles ShopWith(StandIn? instead) =>
        new(
            (kind, name) =>
            {
                string path =
                    instead?.Is(kind, name) == true ? instead.File : Path.Combine(Templates, kind, name + ".toml");
                string shown = $"templates/{kind}/{name}.toml";
                return File.Exists(path) ? (shown, SourceText.Read(path)) : null;
            },
            kind =>
            {
                string folder = Path.Combine(Templates, kind);
                return Directory.Exists(folder)
                    ? Directory
                        .EnumerateFiles(folder, "*.toml")
                        .Select(f => Path.GetFileNameWithoutExtension(f)!)
                        .Order(StringComparer.Ordinal)
                    : [];
            }
        );

    /// <summary>The path as findings show it: relative to the library with forward slashes where it lies inside.</summary>
    public string Relative(string path)
    {
        string relative = Path.GetRelativePath(Root, path);
        return relative.StartsWith("..", StringComparison.Ordinal) ? path : relative.Replace('\\', '/');
    }
}
