using System.Runtime.CompilerServices;
using Xunit;

namespace FixtureGen.Tests.Support;

/// <summary>The folder of drawings from other programs with an independent reading of each; it lies outside the repository.</summary>
internal static class Drawings
{
    /// <summary>The folder that holds files/ and oracle/: FIXTUREGEN_DRAWINGS, else ../shared/dxf beside the repository; null without one.</summary>
    public static string? Folder { get; } = Find();

    public static IReadOnlyList<string> Files =>
        Folder is null
            ? []
            : [.. Directory.EnumerateFiles(Path.Combine(Folder, "files")).Order(StringComparer.Ordinal)];

    /// <summary>A row for each file; without the folder one row that <see cref="Need"/> skips, since a theory without rows fails.</summary>
    public static TheoryData<string> Names => Folder is null ? ["none"] : [.. Files.Select(f => Path.GetFileName(f))];

    public static string Need()
    {
        Assert.SkipWhen(Folder is null, "no drawings of other programs here: set FIXTUREGEN_DRAWINGS to their folder");
        return Folder!;
    }

    public static string Oracle(string file) => Path.Combine(Folder!, "oracle", Path.GetFileName(file) + ".json");

    private static string? Find([CallerFilePath] string here = "")
    {
        string? told = Environment.GetEnvironmentVariable("FIXTUREGEN_DRAWINGS");
        string repository = Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "..", "..", ".."));
        string folder = told ?? Path.Combine(repository, "..", "shared", "dxf");
        return Directory.Exists(Path.Combine(folder, "files")) ? folder : null;
    }
}
