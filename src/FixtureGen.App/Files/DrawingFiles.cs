namespace FixtureGen.App.Files;

/// <summary>Which files are drawings, by the end of their names, letter case aside; the one place that says so.</summary>
internal static class DrawingFiles
{
    /// <summary>The end of a drawing's name, with its dot.</summary>
    public const string Extension = ".dxf";

    /// <summary>True for a name that a drawing has.</summary>
    public static bool Is(string path) => path.EndsWith(Extension, StringComparison.OrdinalIgnoreCase);

    /// <summary>The name that a job's drawing has beside it; there need be no such file.</summary>
    public static string NameFor(string jobPath) => Path.ChangeExtension(jobPath, Extension);

    /// <summary>The drawing beside a job: the like-named one, else the first by name that differs in letter case alone; null where there is none.</summary>
    public static string? Beside(string jobPath)
    {
        string wanted = NameFor(jobPath);
        return File.Exists(wanted)
            ? wanted
            : Directory
                .EnumerateFiles(Path.GetDirectoryName(Path.GetFullPath(jobPath))!)
                .Order(StringComparer.Ordinal)
                .FirstOrDefault(f =>
                    string.Equals(Path.GetFileName(f), Path.GetFileName(wanted), StringComparison.OrdinalIgnoreCase)
                );
    }
}
