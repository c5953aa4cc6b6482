using FixtureGen.App.Commands;
using FixtureGen.App.Files;
using FixtureGen.App.Library;
using FixtureGen.App.Tests.Support;
using Xunit;

namespace FixtureGen.App.Tests;

/// <summary>The one place where a fault of our own ends: an id, a log that stays bounded, and exit 3.</summary>
public sealed class FaultLogTest
{
    [Fact]
    public void The_log_stands_in_out_of_the_library_that_a_path_lies_in()
    {
        using TempLibrary library = new("label-clip");
        string expected = Path.Combine(library.Folder, "out", FaultLog.FileName);
        foreach (
            string path in new[] { library.Job("label-clip"), library.Jobs, library.Folder, library.Job("not-there") }
        )
        {
            Fault fault = new FaultLog(["check", "--json", path]).Record(Broken(), "check");
            Assert.Equal(expected, fault.Log);
            string log = File.ReadAllText(expected);
            Assert.Contains($"== fault {fault.Id}\ntime: 20", log, StringComparison.Ordinal);
            Assert.Contains($"\nversion: {ProductVersion.Text}\n", log, StringComparison.Ordinal);
            Assert.Contains("   at FixtureGen.App.Tests.FaultLogTest.Broken()", log, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Where_out_cannot_be_written_it_is_the_temporary_folder()
    {
        using TempLibrary library = new("label-clip");
        File.WriteAllText(Path.Combine(library.Folder, "out"), "a file in the way");
        Fault fault = new FaultLog([library.Jobs]).Record(Broken(), "check");
        Assert.Equal(Path.Combine(Path.GetTempPath(), FaultLog.FileName), fault.Log);
        Assert.Contains(fault.Id, File.ReadAllText(fault.Log!), StringComparison.Ordinal);
    }

    [Fact]
    public void The_log_stays_within_its_bound_and_keeps_the_newest()
    {
        using TempLibrary library = new("label-clip");
        FaultLog log = new([library.Jobs]);
        string[] ids =
        [
            .. Enumerable
                .Range(0, 60)
                .Select(_ => log.Record(new InvalidOperationException(new string('x', 70_000)), "check").Id),
        ];
        string path = Path.Combine(library.Folder, "out", FaultLog.FileName);
        Assert.InRange(new FileInfo(path).Length, FaultLog.MostBytes / 4, FaultLog.MostBytes);
        string text = File.ReadAllText(path);
        Assert.StartsWith("== fault F", text, StringComparison.Ordinal);
        Assert.All(ids[^5..], id => Assert.Contains(id, text, StringComparison.Ordinal));
        Assert.DoesNotContain(ids[0], text, StringComparison.Ordinal);
    }

    [Fact]
    public void Faults_at_the_same_time_all_stand_in_the_log()
    {
        using TempLibrary library = new("label-clip");
        string[] ids =
        [
            .. Enumerable
                .Range(0, 40)
                .AsParallel()
                .WithDegreeOfParallelism(8)
                .Select(_ => new FaultLog([library.Jobs]).Record(Broken(), "check").Id),
        ];
        string text = File.ReadAllText(Path.Combine(library.Folder, "out", FaultLog.FileName));
        Assert.Equal(40, ids.Distinct(StringComparer.Ordinal).Count());
        Assert.All(ids, id => Assert.Equal(2, text.Split($"== fault {id}\n").Length));
    }

    /// <summary>A regeneration goes on to the next job, and ends as our fault.</summary>
    [Fact]
    public void A_job_that_breaks_makes_the_regeneration_end_with_three()
    {
        Assert.Equal(3, RegenerateCommand.Exit([Row(JobChange.FaultCode)], ok: false));
        Assert.Equal(1, RegenerateCommand.Exit([Row("hold-vacuum-low")], ok: false));
        Assert.Equal(0, RegenerateCommand.Exit([], ok: true));
    }

    private static JobChange Row(string code) =>
        new()
        {
            Job = "a",
            JobFile = "outlines/a.toml",
            Result = JobResult.Refused,
            Why = "",
            Revision = 1,
            Program = 1000,
            FixtureId = "A",
            Plate = "master",
            PlateRevision = 1,
            Before = null,
            After = null,
            Moved = [],
            Reload = [],
            Misfits = [],
            Trim = 1,
            PictureBefore = null,
            PictureAfter = null,
            Findings = [new(code, "error", "outlines/a.toml", "message", "remedy", null)],
        };

    private static InvalidOperationException Broken()
    {
        try
        {
            throw new InvalidOperationException("broken for the test");
        }
        catch (InvalidOperationException e)
        {
            return e;
        }
    }
}
