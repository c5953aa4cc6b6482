namespace FixtureGen.App.Tests.Support;

/// <summary>A library in a temporary folder: the project's templates and, of its outlines, the named ones (all when none is named) with every key stated.</summary>
public sealed class TempLibrary : IDisposable
{
    public TempLibrary(params string[] jobs)
    {
        CopyTree(Path.Combine(Cli.Root, "templates"), Path.Combine(Folder, "templates"));
        Directory.CreateDirectory(Jobs);
        foreach (string file in Directory.EnumerateFiles(Path.Combine(Cli.Root, "outlines")))
        {
            string name = Path.GetFileNameWithoutExtension(file);
            if (Path.GetExtension(file) is ".dxf" or ".toml" && (jobs.Length == 0 || jobs.Contains(name)))
            {
                string from =
                    Path.GetExtension(file) == ".toml"
                        ? Path.Combine(Cli.Root, "tests", "stated", name + ".toml")
                        : file;
                File.Copy(from, Path.Combine(Jobs, Path.GetFileName(file)));
            }
        }
    }

    public string Folder { get; } = Directory.CreateTempSubdirectory("fixturegen-lib-").FullName;

    public string Jobs => Path.Combine(Folder, "outlines");

    public string Job(string name) => Path.Combine(Jobs, name + ".toml");

    public string Out(string name) => Path.Combine(Folder, "out", name);

    /// <summary>Every demo job of the project, by name.</summary>
    public static IEnumerable<string> Demo =>
        Directory
            .EnumerateFiles(Path.Combine(Cli.Root, "outlines"), "*.toml")
            .Where(f => File.Exists(Path.ChangeExtension(f, ".dxf")))
            .Select(f => Path.GetFileNameWithoutExtension(f)!)
            .Order(StringComparer.Ordinal);

    /// <summary>Replaces text in a file of the library and fails where the text is not there.</summary>
    public void Edit(string relative, string from, string to)
    {
        string path = Path.Combine(Folder, relative);
        string text = File.ReadAllText(path);
        if (!text.Contains(from, StringComparison.Ordinal))
        {
            throw new InvalidOperationException($"{relative} does not contain '{from}'");
        }
        File.WriteAllText(path, text.Replace(from, to, StringComparison.Ordinal));
    }

    public void Dispose() => Directory.Delete(Folder, recursive: true);

    private static void CopyTree(string from, string to)
    {
        Directory.CreateDirectory(to);
        foreach (string folder in Directory.EnumerateDirectories(from))
        {
            CopyTree(folder, Path.Combine(to, Path.GetFileName(folder)));
        }
        foreach (string file in Directory.EnumerateFiles(from))
        {
            File.Copy(file, Path.Combine(to, Path.GetFileName(file)));
        }
    }
}
