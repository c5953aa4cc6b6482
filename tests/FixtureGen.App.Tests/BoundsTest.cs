using System.Diagnostics;
using FixtureGen.App.Files;
using FixtureGen.App.Tests.Support;
using Xunit;

namespace FixtureGen.App.Tests;

/// <summary>No file, link, folder or pipe is a fault of ours (exit 3), and each is answered with a finding before it can keep a run busy.</summary>
[Trait("Speed", "Slow")]
public sealed class BoundsTest
{
    private const string Job = "label-clip";

    [Theory]
    [InlineData("x = ", 100_000)]
    [InlineData("x = ", 40)]
    public void Deep_lists_are_refused_in_a_job_and_in_a_plate(string key, int depth)
    {
        using TempLibrary library = new(Job);
        string deep = key + new string('[', depth) + new string(']', depth) + "\n";
        string plate = Path.Combine(library.Folder, "templates", "plates", "master.toml");
        string job = File.ReadAllText(library.Job(Job));
        File.WriteAllText(library.Job(Job), deep);
        Refused(library, "file-unreadable", "check", library.Job(Job));
        Refused(library, "file-unreadable", "regenerate");
        File.WriteAllText(library.Job(Job), job);
        File.WriteAllText(plate, deep + File.ReadAllText(plate));
        Refused(library, "file-unreadable", "check", library.Job(Job));
        Refused(library, "file-unreadable", "make", library.Job(Job));
        Refused(library, "file-unreadable", "check", library.Jobs);
        Refused(library, "file-unreadable", "regenerate");
    }

    /// <summary>Brackets in strings and comments nest nothing.</summary>
    [Fact]
    public void Brackets_that_are_text_are_none()
    {
        string path = Path.GetTempFileName();
        try
        {
            string text =
                "title = \""
                + new string('[', 100)
                + "\" # "
                + new string('{', 100)
                + "\nb = '"
                + new string('[', 100)
                + "'\n";
            File.WriteAllText(path, text);
            Assert.Equal(text, SourceText.Read(path));
        }
        finally
        {
            File.Delete(path);
        }
    }

    [Fact]
    public void A_title_of_sixteen_megabytes_is_refused_at_once()
    {
        using TempLibrary library = new(Job);
        library.Edit($"outlines/{Job}.toml", "Label clip", new string('L', 16_000_000));
        Refused(library, "file-unreadable", "check", library.Job(Job));
    }

    [Theory]
    [InlineData(1_000)]
    [InlineData(10_000)]
    public void Thousands_of_pins_are_refused_at_once(int pins)
    {
        using TempLibrary library = new(Job);
        string places = string.Join(
            ", ",
            Enumerable.Range(0, pins).Select(i => FormattableString.Invariant($"[{i % 90}, 31]"))
        );
        library.Edit($"outlines/{Job}.toml", "pins = [[-14, 31], [94, 31]]", $"pins = [{places}]");
        Refused(library, "toml-out-of-range", "check", library.Job(Job));
    }

    [Fact]
    public void Links_that_lead_nowhere_or_in_a_circle_are_told()
    {
        using TempLibrary library = new(Job);
        if (OperatingSystem.IsWindows())
        {
            Assert.Skip("needs links without rights");
        }
        string job = Path.Combine(library.Jobs, "gone.toml");
        File.Copy(Path.ChangeExtension(library.Job(Job), ".dxf"), Path.ChangeExtension(job, ".dxf"));
        File.CreateSymbolicLink(job, "nowhere.toml");
        Refused(library, "file-unreadable", "check", job);
        Refused(library, "file-unreadable", "check", library.Jobs);
        Refused(library, "file-unreadable", "make", job);
        File.Delete(job);
        File.CreateSymbolicLink(job, "gone.toml");
        Assert.InRange(Cli.Run(library.Folder, "check", job).Exit, 1, 1);
        File.Delete(job);
        File.Delete(Path.ChangeExtension(job, ".dxf"));

        Directory.CreateSymbolicLink(Path.Combine(library.Jobs, "self"), ".");
        Directory.CreateSymbolicLink(Path.Combine(library.Jobs, "up"), "..");
        Assert.Equal([library.Job(Job)], JobFiles.Below(library.Jobs));
        Directory.CreateSymbolicLink(Path.Combine(library.Jobs, "loop"), "loop");
        Assert.Equal([library.Job(Job)], JobFiles.Below(library.Jobs));

        string plate = Path.Combine(library.Folder, "templates", "plates", "master.toml");
        File.Delete(plate);
        File.CreateSymbolicLink(plate, "nowhere.toml");
        Refused(library, "file-unreadable", "check", library.Job(Job));
        Refused(library, "file-unreadable", "regenerate");
    }

    /// <summary>/dev/full takes nothing, as a full disk; the files are made all the same.</summary>
    [Theory]
    [InlineData("check", "outlines/label-clip.toml")]
    [InlineData("check", "outlines/label-clip.toml", "--json")]
    [InlineData("register", "outlines")]
    [InlineData("register", "nowhere", "--json")]
    public void Standard_output_that_takes_nothing_is_told(params string[] args)
    {
        if (!OperatingSystem.IsLinux())
        {
            Assert.Skip("needs /dev/full");
        }
        using TempLibrary library = new(Job);
        ProcessStartInfo plain = Cli.Start(library.Folder, args);
        ProcessStartInfo start = new("sh")
        {
            WorkingDirectory = library.Folder,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        start.ArgumentList.Add("-c");
        start.ArgumentList.Add("exec \"$0\" \"$@\" >/dev/full");
        start.ArgumentList.Add(plain.FileName);
        foreach (string arg in plain.ArgumentList)
        {
            start.ArgumentList.Add(arg);
        }
        Ran ran = Cli.Run(start);
        Assert.Equal(1, ran.Exit);
        Assert.Contains("standard output: ", ran.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("our own fault", ran.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void What_a_run_on_another_machine_writes_is_left_alone()
    {
        using TempLibrary library = new(Job);
        string outputs = Directory.CreateDirectory(Path.Combine(library.Folder, "out")).FullName;
        string theirs = Directory.CreateDirectory(Path.Combine(outputs, ".clip.next-999999999-elsewhere-a")).FullName;
        string old = Directory.CreateDirectory(Path.Combine(outputs, ".clip.next-999999999-elsewhere-b")).FullName;
        string before = Directory.CreateDirectory(Path.Combine(outputs, ".clip.next-999999999-c")).FullName;
        Directory.SetLastWriteTimeUtc(old, DateTime.UtcNow.AddDays(-3));
        OutputFolder.Sweep(outputs);
        Assert.Equal((true, false, false), (Directory.Exists(theirs), Directory.Exists(old), Directory.Exists(before)));
    }

    private static void Refused(TempLibrary library, string code, params string[] args)
    {
        Ran ran = Cli.Run(library.Folder, args);
        Assert.True(
            ran.Exit == 1,
            FormattableString.Invariant($"{string.Join(' ', args)} ended with {ran.Exit}: {ran.Error}")
        );
        Assert.Contains(code, ran.Error + ran.Output, StringComparison.Ordinal);
    }
}
