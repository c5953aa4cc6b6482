using System.Collections.Immutable;
using System.Text;
using FixtureGen.App.Files;
using FixtureGen.Model;
using FixtureGen.Output;
using Xunit;

namespace FixtureGen.App.Tests;

public sealed class OutputFolderTest : IDisposable
{
    private readonly string _root = Directory.CreateTempSubdirectory("fixturegen-test-").FullName;

    public void Dispose() => Directory.Delete(_root, recursive: true);

    private static OutputFile File(string name, string text) => new(name, [.. Encoding.UTF8.GetBytes(text)]);

    [Fact]
    public void A_new_folder_holds_just_the_files()
    {
        string folder = Path.Combine(_root, "a", "b");
        Assert.Empty(OutputFolder.Replace(folder, "job", [File("job.top.nc", "1"), File("job.report.json", "{}")]));
        Assert.Equal(["job.report.json", "job.top.nc"], Names(folder));
        Assert.Equal(["b"], Directory.EnumerateFileSystemEntries(Path.Combine(_root, "a")).Select(Path.GetFileName));
    }

    [Fact]
    public void Files_of_the_last_run_go_and_foreign_ones_stay()
    {
        Assert.Empty(OutputFolder.Replace(_root, "job", [File("job.top.nc", "1"), File("job.underside.nc", "2")]));
        System.IO.File.WriteAllText(Path.Combine(_root, "notes.txt"), "mine");
        Assert.Empty(OutputFolder.Replace(_root, "job", [File("job.top.nc", "3")]));
        Assert.Equal(["job.top.nc", "notes.txt"], Names(_root));
        Assert.Equal("3", System.IO.File.ReadAllText(Path.Combine(_root, "job.top.nc")));
    }

    /// <summary>With such a file counted as somebody else's, the folder would no longer be replaced in one step.</summary>
    [Fact]
    public void What_a_killed_run_left_in_the_folder_goes_with_the_next_one()
    {
        string folder = Path.Combine(_root, "out");
        Assert.Empty(OutputFolder.Replace(folder, "job", [File("job.top.nc", "1")]));
        System.IO.File.WriteAllBytes(Path.Combine(folder, ".probe-0123456789abcdef"), []);
        Assert.Empty(OutputFolder.Replace(folder, "job", [File("job.top.nc", "2")]));
        Assert.Equal(["job.top.nc"], Names(folder));
    }

    [Fact]
    public void An_unchanged_file_keeps_its_time()
    {
        string folder = Path.Combine(_root, "out");
        ImmutableArray<OutputFile> files = [File("job.top.nc", "same"), File("job.trim.nc", "old")];
        Assert.Empty(OutputFolder.Replace(folder, "job", files));
        DateTime past = new(2001, 2, 3, 4, 5, 6, DateTimeKind.Utc);
        foreach (string path in Directory.EnumerateFiles(folder))
        {
            System.IO.File.SetLastWriteTimeUtc(path, past);
        }
        Assert.Empty(OutputFolder.Replace(folder, "job", [files[0], File("job.trim.nc", "new")]));
        Assert.Equal(past, System.IO.File.GetLastWriteTimeUtc(Path.Combine(folder, "job.top.nc")));
        Assert.NotEqual(past, System.IO.File.GetLastWriteTimeUtc(Path.Combine(folder, "job.trim.nc")));
    }

    [Fact]
    public void A_file_in_the_folders_place_is_a_finding_and_stays()
    {
        string folder = Path.Combine(_root, "out");
        System.IO.File.WriteAllText(folder, "a file");
        Finding f = Assert.Single(OutputFolder.Replace(folder, "job", [File("job.top.nc", "1")]));
        Assert.Equal("out-not-writable", f.Code);
        Assert.Equal("a file", System.IO.File.ReadAllText(folder));
    }

    private static IEnumerable<string?> Names(string folder) =>
        Directory.EnumerateFiles(folder).Select(Path.GetFileName).Order(StringComparer.Ordinal);
}
