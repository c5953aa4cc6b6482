using System.IO.Compression;
using FixtureGen.App.Files;
using FixtureGen.App.Page.Serving;

namespace FixtureGen.App.Page.Overview;

/// <summary>A job's output files: to look at, to print, to take along one by one or all. A name is served only where the folder's own list has it.</summary>
internal static class Outputs
{
    private static readonly (string End, string Kind, string Type)[] Kinds =
    [
        (".nc", "program", "text/plain; charset=utf-8"),
        (".pdf", "paper", "application/pdf"),
        (".png", "picture", "image/png"),
        (".svg", "picture", "image/svg+xml"),
        (".dxf", "drawing", "text/plain; charset=utf-8"),
        (".csv", "table", "text/csv; charset=utf-8"),
        (".json", "report", "application/json; charset=utf-8"),
        (".stl", "model", "model/stl"),
        (".3mf", "model", "model/3mf"),
    ];

    /// <summary>The list, programs first; empty where the job was never made.</summary>
    public static PageAnswer List(string jobPath)
    {
        string folder = Folder(jobPath);
        OutputLine[] files =
        [
            .. Files(jobPath)
                .Select(f => new OutputLine(
                    Path.GetFileName(f),
                    KindOf(f)!.Value.Kind,
                    new FileInfo(f).Length,
                    LibraryRows.Time(File.GetLastWriteTimeUtc(f))
                )),
        ];
        return PageAnswer.Json(
            200,
            new OutputsAnswer(folder, files, LibraryRows.Stale(jobPath)),
            OverviewJson.Default.OutputsAnswer
        );
    }

    /// <summary>One file; 404 for a name that the list has not.</summary>
    public static PageAnswer Read(string jobPath, string name) =>
        Files(jobPath).FirstOrDefault(f => Path.GetFileName(f) == name) is { } path
            ? new PageAnswer(200, KindOf(path)!.Value.Type, File.ReadAllBytes(path))
            : PageAnswer.Say(404, $"there is no output file '{name}'");

    /// <summary>All of them in one archive; 404 where there is none.</summary>
    public static PageAnswer Archive(string jobPath)
    {
        string[] files = [.. Files(jobPath)];
        if (files.Length == 0)
        {
            return PageAnswer.Say(404, "this job was never made");
        }
        using MemoryStream bytes = new();
        using (ZipArchive archive = new(bytes, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (string file in files)
            {
                ZipArchiveEntry entry = archive.CreateEntry(Path.GetFileName(file), CompressionLevel.Fastest);
                entry.LastWriteTime = File.GetLastWriteTime(file);
                using Stream to = entry.Open();
                to.Write(File.ReadAllBytes(file));
            }
        }
        return new PageAnswer(200, "application/zip", bytes.ToArray());
    }

    private static IEnumerable<string> Files(string jobPath)
    {
        string job = Path.GetFileNameWithoutExtension(jobPath);
        string folder = Folder(jobPath);
        return Directory.Exists(folder)
            ? Directory
                .EnumerateFiles(folder, job + ".*")
                .Where(f => KindOf(f) is not null)
                .OrderBy(f => Array.FindIndex(Kinds, k => f.EndsWith(k.End, StringComparison.Ordinal)))
                .ThenBy(f => f, StringComparer.Ordinal)
            : [];
    }

    private static string Folder(string jobPath) =>
        LibraryFolder.Find(jobPath).Value is { } library
            ? Path.Combine(library.Out, Path.GetFileNameWithoutExtension(jobPath))
            : "";

    private static (string End, string Kind, string Type)? KindOf(string file) =>
        Kinds
            .Where(k => file.EndsWith(k.End, StringComparison.Ordinal))
            .Select(k => ((string, string, string)?)k)
            .FirstOrDefault();
}
