namespace FixtureGen.App.Files;

/// <summary>Which files are drawings, by the end of their names, letter case aside; the one place that says so.</summary>
internal static class DrawingFiles
{
    /// <summary>The ends of drawings' names, with their dots; where a job has two drawings, the first of these counts.</summary>
    private static readonly string[] Extensions = [".dxf", ".svg"];

    /// <summary>True for a name that a drawing has.</summary>
    public static bool Is(string path) =>
        Array.Exists(Extensions, e => path.EndsWith(e, StringComparison.OrdinalIgnoreCase));

    /// <summary>The name that a job's drawing has beside it; there need be no such file.</summary>
    public static string NameFor(string jobPath) => Path.ChangeExtension(jobPath, Extensions[0]);

    /// <summary>The drawing beside a job: the like-named one, else the first by name that differs in letter case alone; null where there is none.</summary>
    public static string? Beside(string jobPath)
    {
        foreach (string extension in Extensions)
        {
            string wanted = Path.ChangeExtension(jobPath, extension);
            string? found = File.Exists(wanted)
                ? wanted
                : Directory
                    .EnumerateFiles(Path.GetDirectoryName(Path.GetFullPath(jobPath))!)
                    .Order(StringComparer.Ordinal)
                    .FirstOrDefault(f =>
                        string.Equals(Path.GetFileName(f), Path.GetFileName(wanted), StringComparison.OrdinalIgnoreCase)
                    );
            if (found is not null)
            {
                return found;
            }
        }
        return null;
    }
}
