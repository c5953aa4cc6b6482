using System.Diagnostics;
using System.Globalization;
using System.Text.Json.Nodes;
using FixtureGen.App.Tests.Support;
using Xunit;

namespace FixtureGen.App.Tests.Regeneration;

/// <summary>
/// kill -9 while a library is remade: at random moments, and just when a job's folder, the register or the change report
/// is being written. FIXTUREGEN_KILLS says how many runs (4 by default, more in the long run);
/// the bench's <c>library kills</c> aims at the writing alone.
/// </summary>
[Trait("Speed", "Slow")]
public sealed class KillTest(ITestOutputHelper output)
{
    private static readonly string[] Jobs = ["hook-cradle", "label-clip"];
    private static readonly string[] Written = ["out/.*.next-*", "outlines/library.toml.next", "out/regenerate.*.next"];

    [Fact]
    public void A_killed_run_leaves_no_torn_file_and_the_next_one_ends_alike()
    {
        int kills = int.Parse(
            Environment.GetEnvironmentVariable("FIXTUREGEN_KILLS") ?? "4",
            CultureInfo.InvariantCulture
        );
        using TempLibrary calm = new(Jobs);
        Assert.Equal(0, Cli.Run(calm.Folder, "regenerate").Exit);
        using TempLibrary library = new(Jobs);
        Assert.Equal(0, Cli.Run(library.Folder, "regenerate").Exit);
        Random random = new(20261126);
        int[] caught = new int[Written.Length];
        for (int i = 0; i < kills; i++)
        {
            int aim = i % (Written.Length + 1);
            Kill(library, aim < Written.Length ? Written[aim] : null, random);
            for (int w = 0; w < Written.Length; w++)
            {
                caught[w] += Left(library, Written[w]) ? 1 : 0;
            }
            Assert.All(Jobs, job => Whole(library.Out(job), job));
            Ran register = Cli.Run(library.Folder, "register", library.Jobs, "--json");
            Assert.True(register.Exit == 0, register.Error);
            Assert.Equal(Jobs.Length, register.Json["fixtures"]!.AsArray().Count);
        }
        output.WriteLine(
            FormattableString.Invariant(
                $"{kills} kills; caught writing a folder {caught[0]}, the register {caught[1]}, the report {caught[2]}"
            )
        );
        Assert.Equal(0, Cli.Run(library.Folder, "regenerate", "--force").Exit);
        Assert.Equal(Bytes(calm), Bytes(library));
        Assert.All(Written, w => Assert.False(Left(library, w), w));
    }

    /// <summary>Starts a remake and kills it: at any moment, or up to 5 ms after a name of this pattern has come up.</summary>
    private static void Kill(TempLibrary library, string? written, Random random)
    {
        using Process process = Process.Start(Cli.Start(library.Folder, "regenerate", "--force", "--jobs", "2"))!;
        Task<string> drained = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        if (written is null)
        {
            Thread.Sleep(random.Next(150, 6000));
        }
        else
        {
            string[] before = Names(library, written);
            SpinWait.SpinUntil(() => process.HasExited || Names(library, written).Except(before).Any());
            double wait = random.NextDouble() * 5;
            Stopwatch since = Stopwatch.StartNew();
            SpinWait.SpinUntil(() => since.Elapsed.TotalMilliseconds >= wait);
        }
        process.Kill(entireProcessTree: true);
        process.WaitForExit();
    }

    private static bool Left(TempLibrary library, string pattern) => Names(library, pattern).Length > 0;

    private static string[] Names(TempLibrary library, string pattern) =>
        Directory.GetFileSystemEntries(
            Path.Combine(library.Folder, Path.GetDirectoryName(pattern)!),
            Path.GetFileName(pattern)
        );

    private static void Whole(string folder, string job)
    {
        JsonObject report = JsonNode.Parse(File.ReadAllText(Path.Combine(folder, job + ".report.json")))!.AsObject();
        foreach (JsonNode? file in report["files"]!.AsArray())
        {
            FileInfo info = new(Path.Combine(folder, (string)file!["file"]!));
            Assert.True(info.Exists && info.Length == (long)file["bytes"]!, info.FullName);
        }
    }

    private static Dictionary<string, string> Bytes(TempLibrary library) =>
        Jobs.SelectMany(job => Directory.EnumerateFiles(library.Out(job)))
            .Append(Path.Combine(library.Jobs, "library.toml"))
            .ToDictionary(
                f => Path.GetRelativePath(library.Folder, f),
                f => Convert.ToHexString(System.Security.Cryptography.SHA256.HashData(File.ReadAllBytes(f)))
            );
}
