using FixtureGen.Shop.Reading;

namespace FixtureGen.Bench;

/// <summary>The demo jobs as requests, read from the folders above the bench.</summary>
internal static class DemoRequests
{
    /// <summary>The job files with these names, all when there are none, in order of name.</summary>
    public static IEnumerable<string> Files(string[] names) =>
        Directory
            .EnumerateFiles(Path.Combine(Root(), "outlines"), "*.toml")
            .Order(StringComparer.Ordinal)
            .Where(f => names.Length == 0 || names.Contains(Path.GetFileNameWithoutExtension(f)));

    public static Request Of(string file)
    {
        string root = Root();
        ShopFiles shop = new(
            (kind, name) =>
            {
                string path = Path.Combine(root, "templates", kind, name + ".toml");
                return File.Exists(path) ? (path, File.ReadAllText(path)) : null;
            },
            kind =>
                Directory
                    .EnumerateFiles(Path.Combine(root, "templates", kind), "*.toml")
                    .Select(f => Path.GetFileNameWithoutExtension(f)!)
                    .Order(StringComparer.Ordinal)
        );
        string drawing = Path.ChangeExtension(file, ".dxf");
        string name = Path.GetFileNameWithoutExtension(file);
        return new Request
        {
            JobName = name,
            JobFile = file,
            JobText = File.ReadAllText(file),
            DrawingFile = drawing,
            Drawing = File.ReadAllBytes(drawing),
            Shop = shop,
            Registered = new Registered(1000, name, 1, Overrules: false),
            Version = "bench",
            Progress = static _ => { },
        };
    }

    private static string Root()
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !Directory.Exists(Path.Combine(folder.FullName, "templates")))
        {
            folder = folder.Parent;
        }
        return folder?.FullName ?? throw new InvalidOperationException("No templates folder above the bench.");
    }
}
