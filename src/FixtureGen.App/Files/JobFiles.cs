using System.Collections.Immutable;

namespace FixtureGen.App.Files;

/// <summary>Which files are jobs: a .toml with a like-named .dxf or .svg beside it, letter case aside as JobSource reads them.</summary>
internal static class JobFiles
{
    /// <summary>The jobs of one folder, sorted.</summary>
    public static ImmutableArray<string> In(string folder)
    {
        string[] files = [.. Directory.EnumerateFiles(folder)];
        HashSet<string> drawings = new(
            files.Where(DrawingFiles.Is).Select(f => Path.GetFileNameWithoutExtension(f)!),
            StringComparer.OrdinalIgnoreCase
        );
        return
        [
            .. files
                .Where(f => Is(f) && drawings.Contains(Path.GetFileNameWithoutExtension(f)))
                .Order(StringComparer.Ordinal),
        ];
    }

    /// <summary>The jobs of a folder and of all below it, sorted; hidden folders and out/ are not entered.</summary>
    public static ImmutableArray<string> Below(string folder) =>
        [.. Folders(folder).SelectMany(f => In(f)).Order(StringComparer.Ordinal)];

    private static IEnumerable<string> Folders(string folder) =>
        Directory
            .EnumerateDirectories(folder)
            .Where(f => Path.GetFileName(f) is { } name && !name.StartsWith('.') && name != "out")
            .SelectMany(Folders)
            .Prepend(folder);

    /// <summary>True for a name that a job has.</summary>
    public static bool Is(string file) => file.EndsWith(".toml", StringComparison.OrdinalIgnoreCase);
}
