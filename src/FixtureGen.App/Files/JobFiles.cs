using System.Collections.Immutable;
using FixtureGen.Model;

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
        [.. FoldersBelow(folder).SelectMany(f => In(f)).Order(StringComparer.Ordinal)];

    /// <summary>The folder and all below it that may hold jobs; hidden folders and out/ are not entered, and none twice, whatever links lead to it.</summary>
    public static IEnumerable<string> FoldersBelow(string folder)
    {
        HashSet<string> seen = new(StringComparer.Ordinal);
        Stack<string> left = new([folder]);
        while (left.TryPop(out string? next))
        {
            if (RealPath(next) is not { } real || !seen.Add(real))
            {
                continue;
            }
            yield return next;
            string[] inside =
            [
                .. Directory
                    .EnumerateDirectories(next)
                    .Where(f => Path.GetFileName(f) is { } name && !name.StartsWith('.') && name != "out"),
            ];
            foreach (string f in inside.OrderDescending(StringComparer.Ordinal))
            {
                left.Push(f);
            }
        }
    }

    /// <summary>Where a folder really lies; null where its links lead nowhere or round in a circle.</summary>
    private static string? RealPath(string folder)
    {
        try
        {
            DirectoryInfo info = new(Path.GetFullPath(folder));
            return info.LinkTarget is null
                ? info.Parent is { } parent && parent.LinkTarget is not null
                    ? Path.Combine(RealPath(parent.FullName) ?? parent.FullName, info.Name)
                    : info.FullName
                : info.ResolveLinkTarget(returnFinalTarget: true) is DirectoryInfo { Exists: true } target
                    ? target.FullName
                    : null;
        }
        catch (IOException)
        {
            return null;
        }
    }

    /// <summary>A finding for each name that two jobs have: both would share one folder of out/.</summary>
    public static IEnumerable<Finding> SharingOutputs(ImmutableArray<string> jobs) =>
        jobs.GroupBy(j => Path.GetFileNameWithoutExtension(j), StringComparer.Ordinal)
            .Where(g => g.Skip(1).Any())
            .Select(g => new Finding(
                "job-twice",
                Severity.Error,
                g.Last(),
                $"{g.Key} is the name of {g.First()} too, and both would share out/{g.Key}",
                "give one of them another file name"
            ));

    /// <summary>True for a name that a job has.</summary>
    public static bool Is(string file) => file.EndsWith(".toml", StringComparison.OrdinalIgnoreCase);
}
