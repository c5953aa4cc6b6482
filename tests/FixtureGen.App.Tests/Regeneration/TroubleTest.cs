using System.Diagnostics;
using System.Text.Json.Nodes;
using FixtureGen.App.Tests.Support;
using Xunit;

namespace FixtureGen.App.Tests.Regeneration;

/// <summary>A full disk, a folder that takes nothing, Ctrl-C: a finding, and what was there stays.</summary>
[Trait("Speed", "Slow")]
public sealed class TroubleTest
{
    private const string Job = "label-clip";

    /// <summary>A small file system of its own, which only root may mount; the library's out/ and jobs lie on it.</summary>
    [Fact]
    public void A_full_disk_keeps_the_old_files_and_the_register()
    {
        using TempLibrary library = new(Job);
        string disk = Directory.CreateDirectory(Path.Combine(library.Folder, "disk")).FullName;
        if (!OperatingSystem.IsLinux() || Tool("mount", "-t", "tmpfs", "-o", "size=2500k", "tmpfs", disk) != 0)
        {
            Assert.Skip("needs root on Linux: mount -t tmpfs");
        }
        try
        {
            Directory.Move(Path.Combine(library.Folder, "templates"), Path.Combine(library.Folder, "t"));
            Tool("cp", "-r", Path.Combine(library.Folder, "t"), Path.Combine(disk, "templates"));
            Tool("cp", "-r", library.Jobs, disk);
            Assert.Equal(0, Cli.Run(disk, "regenerate").Exit);
            Dictionary<string, string> before = Hashes(disk);

            using (FileStream full = File.Create(Path.Combine(disk, "full")))
            {
                FillUp(full);
            }
            File.AppendAllText(Path.Combine(library.Folder, "plate.toml"), Plate(library) + "\n# another\n");
            Ran again = Cli.Run(disk, "regenerate", "--force", "--plate", Path.Combine(library.Folder, "plate.toml"));
            Assert.Equal(1, again.Exit);
            Assert.Contains("not-writable", again.Error, StringComparison.Ordinal);
            Assert.Equal(1, Cli.Run(disk, "make", $"outlines/{Job}.toml").Exit);
            Assert.Equal(1, Cli.Run(disk, "register", "outlines", "--cut", Job).Exit);
            File.Delete(Path.Combine(disk, "full"));
            Assert.Equal(before, Hashes(disk));
            Assert.Equal(0, Cli.Run(disk, "regenerate").Exit);
        }
        finally
        {
            Tool("umount", disk);
        }
    }

    /// <summary>A file system turned read-only under the library: root is refused there too.</summary>
    [Fact]
    public void A_read_only_disk_is_told_and_keeps_the_old_files()
    {
        using TempLibrary library = new(Job);
        string disk = Directory.CreateDirectory(Path.Combine(library.Folder, "disk")).FullName;
        if (!OperatingSystem.IsLinux() || Tool("mount", "-t", "tmpfs", "tmpfs", disk) != 0)
        {
            Assert.Skip("needs root on Linux: mount -t tmpfs");
        }
        try
        {
            Tool("cp", "-r", Path.Combine(library.Folder, "templates"), Path.Combine(disk, "templates"));
            Tool("cp", "-r", library.Jobs, disk);
            Assert.Equal(0, Cli.Run(disk, "regenerate").Exit);
            Dictionary<string, string> before = Hashes(disk);

            Assert.Equal(0, Tool("mount", "-o", "remount,ro", disk));
            string[][] writers =
            [
                ["regenerate", "--force"],
                ["make", $"outlines/{Job}.toml"],
                ["register", "outlines", "--cut", Job],
            ];
            foreach (string[] command in writers)
            {
                Ran refused = Cli.Run(disk, command);
                Assert.Equal(1, refused.Exit);
                Assert.Contains("not-writable", refused.Error, StringComparison.Ordinal);
                Assert.DoesNotContain("   at FixtureGen", refused.Error, StringComparison.Ordinal);
            }
            Assert.Equal(0, Cli.Run(disk, "check", $"outlines/{Job}.toml").Exit);
            Assert.Equal(0, Cli.Run(disk, "regenerate", "--force", "--dry-run").Exit);
            Assert.Equal(before, Hashes(disk));
        }
        finally
        {
            Tool("umount", disk);
        }
    }

    [Fact]
    public void Ctrl_C_stops_cleanly_and_the_next_run_goes_on()
    {
        if (OperatingSystem.IsWindows())
        {
            Assert.Skip("needs kill -INT");
        }
        string[] jobs = [.. TempLibrary.Demo.Take(4)];
        using TempLibrary library = new(jobs);
        using Process run = Process.Start(
            Interrupt.Heeded(Cli.Start(library.Folder, "regenerate", "--jobs", "1", "--json"))
        )!;
        Task<string> told = run.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        Assert.NotNull(run.StandardError.ReadLine());
        Tool("kill", "-INT", run.Id.ToString(System.Globalization.CultureInfo.InvariantCulture));
        run.StandardError.ReadToEnd();
        run.WaitForExit();
        Assert.Equal(1, run.ExitCode);
        JsonObject report = JsonNode.Parse(told.GetAwaiter().GetResult())!.AsObject();
        Assert.InRange((int)report["made"]!, 1, 3);
        Assert.Equal(4, (int)report["made"]! + (int)report["stopped"]!);
        Assert.DoesNotContain(
            Directory.EnumerateDirectories(Path.Combine(library.Folder, "out")),
            d => Path.GetFileName(d).StartsWith('.')
        );

        JsonObject next = Cli.Run(library.Folder, "regenerate", "--json").Json;
        Assert.Equal((int)report["stopped"]!, (int)next["made"]!);
        Assert.Equal((int)report["made"]!, (int)next["unchanged"]!);
    }

    [Fact]
    public void What_a_killed_run_left_beside_the_jobs_is_swept_away()
    {
        using TempLibrary library = new(Job);
        string left = Path.Combine(library.Folder, "out", $".{Job}.next-999999999-a");
        Directory.CreateDirectory(left);
        Assert.Equal(0, Cli.Run(library.Folder, "regenerate").Exit);
        Assert.False(Directory.Exists(left));
    }

    private static string Plate(TempLibrary library) =>
        File.ReadAllText(Path.Combine(library.Folder, "t", "plates", "master.toml"));

    private static void FillUp(FileStream file)
    {
        byte[] block = new byte[4096];
        try
        {
            while (true)
            {
                file.Write(block);
                file.Flush(flushToDisk: true);
            }
        }
        catch (IOException)
        {
            // Full: what the test wants.
        }
    }

    private static Dictionary<string, string> Hashes(string disk) =>
        Directory
            .EnumerateFiles(Path.Combine(disk, "out", Job))
            .Append(Path.Combine(disk, "outlines", "library.toml"))
            .ToDictionary(
                f => Path.GetRelativePath(disk, f),
                f => Convert.ToHexString(System.Security.Cryptography.SHA256.HashData(File.ReadAllBytes(f)))
            );

    private static int Tool(string name, params string[] args)
    {
        using Process? process = Process.Start(new ProcessStartInfo(name, args) { RedirectStandardError = true });
        process!.WaitForExit();
        return process.ExitCode;
    }
}
