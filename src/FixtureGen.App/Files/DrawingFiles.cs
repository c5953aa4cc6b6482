using FixtureGen.Drawing;

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

    /// <summary>Its bytes; of one that is longer than any drawing that is read, so many as show that.</summary>
    /// <exception cref="IOException">It cannot be read.</exception>
    /// <exception cref="UnauthorizedAccessException">It cannot be read.</exception>
    public static byte[] Read(string path)
    {
        using FileStream file = File.OpenRead(path);
        byte[] bytes = new byte[Math.Min(file.Length, DxfReader.MostBytes + 1L)];
        int read = file.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false);
        return read == bytes.Length ? bytes : bytes[..read];
    }

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
