using System.Diagnostics;
using System.Security.Cryptography;
using System.Text.Json.Nodes;
using FixtureGen.App.Tests.Support;
using Xunit;

namespace FixtureGen.App.Tests;

/// <summary>The main job on every demo outline, through the real program.</summary>
[Trait("Speed", "Slow")]
public sealed class MakeTest
{
    public static TheoryData<string> Jobs => [.. TempLibrary.Demo];

    [Fact]
    [Trait("Speed", "Slow")]
    public void Every_file_is_the_same_bytes_in_every_time_zone()
    {
        using TempLibrary library = new("twine-lid");
        Dictionary<string, string>[] made =
        [
            .. new[] { "Asia/Tokyo", "America/New_York" }.Select(zone =>
            {
                ProcessStartInfo start = Cli.Start(library.Folder, "make", library.Job("twine-lid"), "-o", zone[..4]);
                start.Environment["TZ"] = zone;
                Ran ran = Cli.Run(start);
                Assert.True(ran.Exit == 0, ran.Error);
                return Directory
                    .EnumerateFiles(Path.Combine(library.Folder, zone[..4]))
                    .ToDictionary(
                        f => Path.GetFileName(f),
                        f => Convert.ToHexString(SHA256.HashData(File.ReadAllBytes(f)))
                    );
            }),
        ];
        Assert.Contains("twine-lid.setup.pdf", made[0].Keys);
        Assert.Equal(made[0], made[1]);
    }

    [Theory]
    [MemberData(nameof(Jobs))]
    public void Every_demo_job_is_made_and_judged_sound(string job)
    {
        using TempLibrary library = new(job);
        Ran ran = Cli.Run(library.Folder, "make", library.Job(job), "--json");
        Assert.True(ran.Exit == 0, ran.Error);
        JsonObject report = ran.Json;
        Assert.True((bool)report["ok"]!);
        JsonNode verify = report["verify"]!;
        Assert.True((bool)verify["ok"]!);
        Assert.InRange((double)verify["maxGougeDepthMm"]!, 0, 0.02);
        Assert.InRange((double)verify["maxGougeSideMm"]!, 0, 0.02);
        Assert.InRange((double)verify["maxLeftoverMm"]!, 0, 0.1);
        // the limit of staying put is for what holds the shell
        string holds = (string)report["holding"]!["heldBy"]! == "magnets" ? "magnetsOnly" : "vacuumOnly";
        Assert.InRange((double)report["holding"]![holds]!["factor"]!, 2, 999);
        Assert.InRange((double)report["holding"]!["magnetsStopping"]!["stays"]!, 1, 999);
        Assert.NotEmpty(report["features"]!["magnets"]!.AsArray());
        foreach (JsonNode? program in report["programs"]!.AsArray().Where(p => (string)p!["setup"]! == "top"))
        {
            // An 8.5 in HDPE fixture takes at most a quarter of an hour: common practice, no source. The reel cover's is raised by a plug.
            bool small =
                (double)report["placement"]!["blankWidthMm"]! < 220
                && (string)report["placement"]!["blankMaterial"]! == "hdpe";
            Assert.InRange((double)program!["minutes"]!, 0.1, small && job != "reel-cover" ? 15 : 40);
        }
        string[] expected =
        [
            .. new[]
            {
                "block.png",
                "cutlist.csv",
                "fixture.dxf",
                "holding.png",
                "preview.png",
                "preview.svg",
                "report.json",
                "setup.pdf",
                "top.nc",
                "traveler.pdf",
                "trim.nc",
            }.Select(e => $"{job}.{e}"),
        ];
        string?[] made =
        [
            .. Directory
                .EnumerateFiles(library.Out(job))
                .Select(Path.GetFileName)
                .Where(f => !f!.EndsWith(".underside.nc", StringComparison.Ordinal))
                .Order(StringComparer.Ordinal),
        ];
        Assert.Equal(expected, made);
    }

    [Fact]
    public void Programs_of_all_demo_jobs_hold_true_arcs()
    {
        int arcs = 0;
        foreach (string job in TempLibrary.Demo.Take(3))
        {
            using TempLibrary library = new(job);
            Ran ran = Cli.Run(library.Folder, "make", library.Job(job), "--json");
            arcs += ran.Json["programs"]!.AsArray().Sum(p => (int)p!["arcs"]!);
        }
        Assert.InRange(arcs, 21, int.MaxValue);
    }

    [Fact]
    public void A_comma_locale_makes_the_same_bytes()
    {
        string job = TempLibrary.Demo.First();
        Assert.Equal(Hashes(job, "C.UTF-8"), Hashes(job, "de_DE.UTF-8"));
    }

    private static IEnumerable<(string Name, string Hash)> Hashes(string job, string locale)
    {
        using TempLibrary library = new(job);
        System.Diagnostics.ProcessStartInfo start = Cli.Start(library.Folder, "make", library.Job(job));
        start.Environment["LC_ALL"] = locale;
        Ran ran = Cli.Run(start);
        Assert.True(ran.Exit == 0, ran.Error);
        return
        [
            .. Directory
                .EnumerateFiles(library.Out(job))
                .Order(StringComparer.Ordinal)
                .Select(f => (Path.GetFileName(f), Convert.ToHexString(SHA256.HashData(File.ReadAllBytes(f))))),
        ];
    }
}
