using System.Text.Json.Nodes;
using FixtureGen.App.Tests.Support;
using Xunit;

namespace FixtureGen.App.Tests.Regeneration;

[Trait("Speed", "Slow")]
public sealed class RegenerateTest
{
    private static readonly string[] Two = [.. TempLibrary.Demo.Take(2)];

    [Fact]
    public void What_is_up_to_date_keeps_its_bytes_and_times()
    {
        using TempLibrary library = new(Two);
        JsonObject first = Json(Cli.Run(library.Folder, "regenerate", ".", "--json"), 0);
        Assert.Equal(2, (int)first["made"]!);
        Dictionary<string, DateTime> times = Times(library);
        JsonObject second = Json(Cli.Run(library.Folder, "regenerate", ".", "--json"), 0);
        Assert.Equal(2, (int)second["unchanged"]!);
        Assert.Equal(times, Times(library));
    }

    [Fact]
    public void A_comment_in_a_shop_file_remakes_but_raises_no_revision()
    {
        using TempLibrary library = new(Two);
        int[] revisions = Revisions(Json(Cli.Run(library.Folder, "regenerate", "--json"), 0));
        string plate = Directory.EnumerateFiles(Path.Combine(library.Folder, "templates", "plates")).First();
        File.AppendAllText(plate, "\n# measured again, the same\n");
        JsonObject report = Json(Cli.Run(library.Folder, "regenerate", "--json"), 0);
        Assert.Equal(2, (int)report["made"]!);
        Assert.All(report["jobs"]!.AsArray(), j => Assert.Empty(j!["reload"]!.AsArray()));
        Assert.Equal(revisions, Revisions(report));
    }

    /// <summary>What the job leaves open is chosen among all that the shop has: one more may be the better choice.</summary>
    [Fact]
    public void A_cord_added_to_the_shop_remakes_a_job_that_leaves_its_cord_open()
    {
        using TempLibrary library = new(Two);
        string open = Path.Combine(library.Jobs, Two[0] + ".toml");
        File.WriteAllLines(
            open,
            File.ReadAllLines(open).Where(l => !l.StartsWith("gasket = ", StringComparison.Ordinal))
        );
        Json(Cli.Run(library.Folder, "regenerate", "--json"), 0);
        Assert.Equal(2, (int)Json(Cli.Run(library.Folder, "regenerate", "--json"), 0)["unchanged"]!);

        string cords = Path.Combine(library.Folder, "templates", "gaskets");
        File.Copy(Path.Combine(cords, "sponge-1-8.toml"), Path.Combine(cords, "sponge-1-8-second-roll.toml"));
        JsonObject report = Json(Cli.Run(library.Folder, "regenerate", "--json"), 0);
        Assert.Equal((1, 1), ((int)report["made"]!, (int)report["unchanged"]!));
    }

    [Fact]
    public void A_dry_run_writes_nothing()
    {
        using TempLibrary library = new(Two[0]);
        JsonObject report = Json(Cli.Run(library.Folder, "regenerate", "--dry-run", "--json"), 0);
        Assert.Equal(1, (int)report["made"]!);
        Assert.False(Directory.Exists(Path.Combine(library.Folder, "out")));
        Assert.False(File.Exists(Path.Combine(library.Jobs, "library.toml")));
    }

    [Fact]
    public void A_dry_run_tells_a_person_what_would_be_made()
    {
        using TempLibrary library = new(Two[0]);
        Ran dry = Cli.Run(library.Folder, "regenerate", "--dry-run");
        string row = Assert.Single(dry.Output.Split('\n'), l => l.StartsWith(Two[0], StringComparison.Ordinal));
        Assert.StartsWith($"{Two[0]}  would be made    1  ", row, StringComparison.Ordinal);
        Assert.StartsWith($"1/1 {Two[0]}: would be made (never made)", dry.Error, StringComparison.Ordinal);
        Ran made = Cli.Run(library.Folder, "regenerate");
        row = Assert.Single(made.Output.Split('\n'), l => l.StartsWith(Two[0], StringComparison.Ordinal));
        Assert.StartsWith($"{Two[0]}  made         1  ", row, StringComparison.Ordinal);
    }

    [Fact]
    public void One_bad_job_never_stops_the_rest()
    {
        using TempLibrary library = new(Two);
        File.WriteAllText(library.Job(Two[0]), "this is no job\n");
        Ran ran = Cli.Run(library.Folder, "regenerate", "--json");
        JsonObject report = Json(ran, 1);
        Assert.Equal(1, (int)report["made"]!);
        Assert.Equal(1, (int)report["refused"]!);
    }

    [Fact]
    public void Any_number_of_workers_gives_the_same_bytes()
    {
        string[] jobs = [.. TempLibrary.Demo.Take(4)];
        Dictionary<string, string>[] runs = [.. new[] { "1", "2", "7" }.Select(n => Bytes(jobs, n))];
        Assert.Equal(runs[0], runs[1]);
        Assert.Equal(runs[0], runs[2]);
    }

    [Fact]
    public void A_cut_fixture_is_frozen_and_its_remake_is_a_new_revision_with_a_new_number()
    {
        string job = Two[0];
        using TempLibrary library = new(job);
        int number = (int)Json(Cli.Run(library.Folder, "regenerate", "--json"), 0)["jobs"]![0]!["programNumber"]!;
        Assert.Equal(0, Cli.Run(library.Folder, "register", library.Jobs, "--cut", job).Exit);
        string frozen = Path.Combine(library.Folder, "out", job + ".r1", job + ".trim.nc");
        string before = File.ReadAllText(frozen);

        string text = File.ReadAllText(library.Job(job));
        File.WriteAllText(library.Job(job), text + "\n[rules]\nlead_radius = \"4 mm\"\n");
        JsonObject report = Json(Cli.Run(library.Folder, "regenerate", "--json"), 0);
        JsonNode row = report["jobs"]![0]!;
        Assert.Equal(2, (int)row["revision"]!);
        Assert.NotEqual(number, (int)row["programNumber"]!);
        JsonObject made = JsonNode
            .Parse(File.ReadAllText(Path.Combine(library.Out(job), job + ".report.json")))!
            .AsObject();
        Assert.Contains(made["programs"]!.AsArray(), p => (int)p!["programNumber"]! == (int)row["programNumber"]!);
        Assert.NotEmpty(row["reload"]!.AsArray());
        Assert.Equal(before, File.ReadAllText(frozen));

        JsonArray fixtures = Cli.Run(library.Folder, "register", library.Jobs, "--json").Json["fixtures"]!.AsArray();
        Assert.Equal([(1, "cut"), (2, "planned")], fixtures.Select(f => ((int)f!["revision"]!, (string)f["state"]!)));
        Assert.All(fixtures, f => Assert.Contains($"fixture = \"{f!["id"]}\"", text, StringComparison.Ordinal));
    }

    [Fact]
    public void Without_the_register_a_block_that_was_cut_is_not_remade()
    {
        string job = Two[0];
        using TempLibrary library = new(Two);
        Assert.Equal(0, Cli.Run(library.Folder, "regenerate").Exit);
        Assert.Equal(0, Cli.Run(library.Folder, "register", library.Jobs, "--cut", job).Exit);
        string register = Path.Combine(library.Jobs, "library.toml");
        Dictionary<string, string> before = Hashes(library);
        string database = Path.Combine(library.Jobs, "library.db");
        File.Move(register, register + ".bak");
        File.Move(database, database + ".bak");

        string[][] commands =
        [
            ["regenerate", "--force"],
            ["make", library.Job(job)],
            ["register", library.Jobs],
        ];
        foreach (string[] command in commands)
        {
            Ran refused = Cli.Run(library.Folder, command);
            Assert.Equal(1, refused.Exit);
            Assert.Contains("error register-lost: revision 1 of " + job, refused.Error, StringComparison.Ordinal);
        }

        File.Move(register + ".bak", register);
        File.Move(database + ".bak", database);
        Assert.Equal(before, Hashes(library));
        Assert.Equal(2, (int)Json(Cli.Run(library.Folder, "regenerate", "--json"), 0)["unchanged"]!);
    }

    [Fact]
    public void A_block_that_was_scrapped_stays_listed_beside_its_successor()
    {
        string job = Two[0];
        using TempLibrary library = new(job);
        Assert.Equal(0, Cli.Run(library.Folder, "regenerate").Exit);
        Assert.Equal(0, Cli.Run(library.Folder, "register", library.Jobs, "--cut", job).Exit);
        Assert.Equal(0, Cli.Run(library.Folder, "register", library.Jobs, "--scrapped", job).Exit);
        File.AppendAllText(library.Job(job), "\n[rules]\nlead_radius = \"4 mm\"\n");
        Assert.Equal(0, Cli.Run(library.Folder, "regenerate").Exit);

        Assert.Equal(0, Cli.Run(library.Folder, "regenerate").Exit);

        JsonArray fixtures = Cli.Run(library.Folder, "register", library.Jobs, "--json").Json["fixtures"]!.AsArray();
        Assert.Equal(
            [(1, "scrapped"), (2, "planned")],
            fixtures.Select(f => ((int)f!["revision"]!, (string)f["state"]!))
        );
    }

    [Theory]
    [InlineData("", true)]
    [InlineData("revision = 4 ", false)]
    public void A_plate_changed_under_its_old_revision_is_told(string raised, bool told)
    {
        using TempLibrary library = new(Two);
        const string Plate = "templates/plates/master.toml";
        Assert.Equal(0, Cli.Run(library.Folder, "regenerate").Exit);
        library.Edit(Plate, "at = [4.25, 4.25]", "at = [4.30, 4.25]");
        if (raised.Length > 0)
        {
            library.Edit(Plate, raised, "revision = 5 ");
        }

        Ran ran = Cli.Run(library.Folder, "regenerate");

        Assert.Equal(0, ran.Exit);
        Assert.Equal(
            told,
            ran.Error.Contains(Plate + ": warning plate-unrevised: the plate's file changed", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Two_runs_at_once_lose_nothing()
    {
        using TempLibrary library = new(Two);
        string path = Path.Combine(library.Jobs, "library.toml.lock");
        using (FileStream held = new(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None))
        {
            Ran busy = Cli.Run(library.Folder, "regenerate", "--json");
            Assert.Equal(1, busy.Exit);
            Assert.Contains("register-busy", busy.Error, StringComparison.Ordinal);
        }
        Assert.Equal(0, Cli.Run(library.Folder, "regenerate").Exit);
    }

    private static int[] Revisions(JsonObject report) =>
        [.. report["jobs"]!.AsArray().Select(j => (int)j!["revision"]!)];

    private static Dictionary<string, string> Bytes(string[] jobs, string workers)
    {
        using TempLibrary library = new(jobs);
        Ran ran = Cli.Run(library.Folder, "regenerate", "--jobs", workers);
        Assert.True(ran.Exit == 0, ran.Error);
        return Hashes(library);
    }

    private static Dictionary<string, string> Hashes(TempLibrary library) =>
        Made(library)
            .Append(Path.Combine(library.Jobs, "library.toml"))
            .ToDictionary(
                f => Path.GetRelativePath(library.Folder, f),
                f => Convert.ToHexString(System.Security.Cryptography.SHA256.HashData(File.ReadAllBytes(f)))
            );

    private static Dictionary<string, DateTime> Times(TempLibrary library) =>
        Made(library).ToDictionary(f => f, File.GetLastWriteTimeUtc);

    private static IEnumerable<string> Made(TempLibrary library) =>
        Directory
            .EnumerateFiles(Path.Combine(library.Folder, "out"), "*", SearchOption.AllDirectories)
            .Select(f => (Path: f, Inside: Path.GetRelativePath(Path.Combine(library.Folder, "out"), f)))
            .Where(f => !f.Inside.StartsWith("regenerate.", StringComparison.Ordinal) && !f.Inside.StartsWith('.'))
            .Select(f => f.Path)
            .Order(StringComparer.Ordinal);

    private static JsonObject Json(Ran ran, int exit)
    {
        Assert.True(ran.Exit == exit, ran.Error);
        return ran.Json;
    }
}
