using System.CommandLine;
using System.Diagnostics;
using System.Globalization;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using FixtureGen.App.Files;
using FixtureGen.App.Terminal;
using FixtureGen.App.Tests.Support;
using Xunit;

namespace FixtureGen.App.Tests;

/// <summary>Exit codes and streams of every command: 0 made, 1 refused, 2 usage; one JSON object on standard output.</summary>
public sealed class CommandsTest
{
    private const string Job = "pruner-sheath";

    [Theory]
    [InlineData("make", "nothing-here.toml")]
    [InlineData("check", "nothing-here.toml")]
    [InlineData("check", "nothing-here.dxf")]
    [InlineData("verify", "nothing-here.toml", "x.nc")]
    [InlineData("new", "nothing-here.dxf")]
    [InlineData("regenerate", "no-such-folder")]
    [InlineData("register", "no-such-folder")]
    [Trait("Speed", "Slow")]
    public void A_missing_input_is_refused_with_a_finding(params string[] args)
    {
        using TempLibrary library = new(Job);
        Ran ran = Cli.Run(library.Folder, [.. args, "--json"]);
        Assert.Equal(1, ran.Exit);
        Assert.False((bool)ran.Json["ok"]!);
        JsonNode finding = ran.Json["findings"]!.AsArray()[0]!;
        foreach (string key in new[] { "code", "severity", "where", "message", "remedy" })
        {
            Assert.NotEmpty((string)finding[key]!);
        }
        Assert.False(Directory.Exists(Path.Combine(library.Folder, "out")));
    }

    [Theory]
    [InlineData]
    [InlineData("mak")]
    [InlineData("make")]
    [InlineData("make", "--jsn", "x.toml")]
    [InlineData("make", "--outpt", "x")]
    [InlineData("regenerate", "--jobs", "1,5")]
    [InlineData("regenerate", "--jobs", "0")]
    [InlineData("check", "x.dxf", "--unit", "furlong")]
    [InlineData("verify", "x.toml", "y.nc", "--setup", "sideways")]
    [InlineData("layout", "x.toml", "--port", "99999")]
    [Trait("Speed", "Slow")]
    public void Wrong_usage_is_exit_two_and_says_so_on_the_error_stream(params string[] args)
    {
        using TempLibrary library = new(Job);
        Ran ran = Cli.Run(library.Folder, args);
        Assert.Equal((2, ""), (ran.Exit, ran.Output));
        Assert.Contains("usage", ran.Error, StringComparison.OrdinalIgnoreCase);
        Ran asked = Cli.Run(library.Folder, [.. args, "--json"]);
        Assert.Equal((2, 2, false), (asked.Exit, (int)asked.Json["exit"]!, (bool)asked.Json["ok"]!));
        Assert.All(
            asked.Json["messages"]!.AsArray(),
            m => Assert.Contains($"usage: {(string)m!}", asked.Error, StringComparison.Ordinal)
        );
    }

    [Theory]
    [InlineData("usage: there is no command 'mak'; did you mean 'make'?", "mak")]
    [InlineData("usage: there is no command 'xyzzy'", "xyzzy")]
    [InlineData("usage: name a command")]
    [InlineData("usage: '--foo' is not an option of this command", "check", "--foo", "x")]
    [InlineData("usage: Argument 'fisch' not recognized. Must be one of: 'bash' 'zsh' 'fish'", "completion", "fisch")]
    [Trait("Speed", "Slow")]
    public void Wrong_usage_is_told_in_one_line(string says, params string[] args)
    {
        string[] lines = Cli.Run(Cli.Root, args).Error.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal([says, "usage: see 'fixturegen --help'"], lines.Select(l => l.TrimEnd('\r')));
    }

    /// <summary>A command that breaks, in the place of ours: the last line of defence tells what to report.</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_fault_of_our_own_is_exit_three_and_with_json_one_object(bool json)
    {
        using StringWriter output = new();
        using StringWriter error = new();
        Command broken = new("make") { new Option<bool>("--json") };
        broken.SetAction((Func<ParseResult, int>)(_ => throw new InvalidOperationException("no zone holds the part")));
        string[] args = json ? ["make", "--json"] : ["make"];
        using TempLibrary library = new(Job);
        FaultLog faults = new([library.Jobs]);
        int exit = Program.Run(args, new Say(output, error), _ => new RootCommand { broken }, faults);
        Assert.Equal(3, exit);
        string log = Path.Combine(library.Folder, "out", FaultLog.FileName);
        string said = error.ToString();
        Match fault = Regex.Match(
            said,
            "^fixturegen: (our own fault (F[0-9A-F]{8}): InvalidOperationException: no zone holds the part)\r?\n"
        );
        Assert.True(fault.Success, said);
        Assert.Contains($"please report it with the job, the drawing and {log}", said, StringComparison.Ordinal);
        string entry = File.ReadAllText(log);
        Assert.StartsWith($"== fault {fault.Groups[2].Value}\n", entry, StringComparison.Ordinal);
        Assert.Contains($"\ndoing: {string.Join(' ', args)}\n", entry, StringComparison.Ordinal);
        Assert.Contains("   at FixtureGen.App.Tests.CommandsTest", entry, StringComparison.Ordinal);
        if (!json)
        {
            Assert.Equal("", output.ToString());
            return;
        }
        JsonNode told = JsonNode.Parse(output.ToString())!;
        Assert.Equal((3, false), ((int)told["exit"]!, (bool)told["ok"]!));
        Assert.Equal(fault.Groups[1].Value, (string)told["messages"]![0]!);
        Assert.Contains(log, (string)told["messages"]![1]!, StringComparison.Ordinal);
    }

    /// <summary>Without the right to the ports of the system, which root is made to drop.</summary>
    [Fact]
    [Trait("Speed", "Slow")]
    public void A_port_that_may_not_be_used_is_refused_with_a_finding()
    {
        const string first = "/proc/sys/net/ipv4/ip_unprivileged_port_start";
        Assert.SkipUnless(
            File.Exists(first) && int.Parse(File.ReadAllText(first), CultureInfo.InvariantCulture) > 81,
            "every port may be used here"
        );
        Assert.SkipUnless(File.Exists("/usr/bin/setpriv"), "setpriv is not installed");
        using TempLibrary library = new(Job);
        ProcessStartInfo start = Cli.Start(library.Folder, "layout", library.Job(Job), "--port", "81", "--json");
        if (Environment.IsPrivilegedProcess)
        {
            string[] rest = [start.FileName, .. start.ArgumentList];
            start.FileName = "setpriv";
            start.ArgumentList.Clear();
            foreach (string arg in (string[])["--bounding-set", "-net_bind_service", .. rest])
            {
                start.ArgumentList.Add(arg);
            }
        }
        Ran ran = Cli.Run(start);
        Assert.Equal((1, false), (ran.Exit, (bool)ran.Json["ok"]!));
        Assert.Contains("127.0.0.1:81: error port-busy:", ran.Error, StringComparison.Ordinal);
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void Check_prints_the_report_without_programs()
    {
        using TempLibrary library = new(Job);
        Ran ran = Cli.Run(library.Folder, "check", library.Job(Job), "--json");
        Assert.Equal(0, ran.Exit);
        Assert.Null(ran.Json["programs"]);
        Assert.Null(ran.Json["verify"]);
        Assert.True(
            (double)ran.Json["holding"]!["both"]!["factor"]! >= (double)ran.Json["holding"]!["vacuumOnly"]!["factor"]!
        );
        Assert.False(Directory.Exists(Path.Combine(library.Folder, "out")));
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void New_writes_a_job_once_and_never_again()
    {
        using TempLibrary library = new(Job);
        File.Copy(Path.Combine(library.Jobs, Job + ".dxf"), Path.Combine(library.Jobs, "mine.dxf"));
        Assert.Equal(0, Cli.Run(library.Folder, "new", library.Jobs + "/mine.dxf").Exit);
        string text = File.ReadAllText(library.Job("mine"));
        Ran again = Cli.Run(library.Folder, "new", library.Jobs + "/mine.dxf", "--json");
        Assert.Equal(1, again.Exit);
        Assert.Equal("job-exists", (string)again.Json["findings"]![0]!["code"]!);
        Assert.Equal(text, File.ReadAllText(library.Job("mine")));
    }

    /// <summary>It guessed a material, a thickness and a locator, and gave every seed tray of a folder the fixture ST-1.</summary>
    [Fact]
    [Trait("Speed", "Slow")]
    public void New_leaves_open_what_it_was_not_told_and_takes_what_it_was()
    {
        using TempLibrary library = new(Job);
        foreach (string name in new[] { "my-part", "more-parts", "my-plate" })
        {
            File.Copy(Path.Combine(library.Jobs, Job + ".dxf"), Path.Combine(library.Jobs, name + ".dxf"));
        }
        Ran open = Cli.Run(library.Folder, "new", library.Jobs + "/my-part.dxf", "--json");
        Assert.Equal(0, open.Exit);
        Assert.Equal(
            ["shop.shell", "shell.thickness", "shell.slack_max", "locator.by"],
            open.Json["unanswered"]!.AsArray().Select(n => (string)n!)
        );
        Ran refused = Cli.Run(library.Folder, "check", library.Job("my-part"), "--json");
        Assert.Equal(1, refused.Exit);
        Assert.All(refused.Json["findings"]!.AsArray(), f => Assert.Equal("key-unanswered", (string)f!["code"]!));

        string[] answers = ["--shell", "petg", "--thickness", "1.2", "--slack", "0.4 mm", "--locator", "pins"];
        Ran told = Cli.Run(library.Folder, ["new", library.Jobs + "/more-parts.dxf", .. answers, "--json"]);
        Assert.Empty(told.Json["unanswered"]!.AsArray());
        string text = File.ReadAllText(library.Job("more-parts"));
        Assert.Contains("fixture = \"MP-2\"", text, StringComparison.Ordinal);
        Assert.Contains("thickness = 1.2 ", text, StringComparison.Ordinal);

        Ran wrong = Cli.Run(library.Folder, "new", library.Jobs + "/my-plate.dxf", "--shell", "petgg", "--json");
        Assert.Equal(1, wrong.Exit);
        Assert.Equal("shop-name-unknown", (string)wrong.Json["findings"]![0]!["code"]!);
        Assert.False(File.Exists(library.Job("my-plate")));
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void New_lays_the_built_in_shop_only_where_it_is_asked_to_and_none_is_there()
    {
        using TempLibrary library = new(Job);
        string folder = Directory.CreateTempSubdirectory("fixturegen-new-").FullName;
        string drawing = Path.Combine(folder, "mine.dxf");
        File.Copy(Path.ChangeExtension(library.Job(Job), ".dxf"), drawing);

        Ran refused = Cli.Run(folder, "new", "mine.dxf");
        Assert.Equal(1, refused.Exit);
        Assert.Contains("--shop", refused.Error, StringComparison.Ordinal);
        Assert.Equal([drawing], Directory.GetFileSystemEntries(folder));

        Assert.Equal(0, Cli.Run(folder, "new", "mine.dxf", "--shop").Exit);
        string templates = Path.Combine(Cli.Root, "templates");
        string[] shop = [.. Files(templates).Where(f => f.EndsWith(".toml", StringComparison.Ordinal))];
        Assert.Equal(shop, Files(Path.Combine(folder, "templates")));
        Assert.All(
            shop,
            f =>
                Assert.Equal(
                    File.ReadAllBytes(Path.Combine(templates, f)),
                    File.ReadAllBytes(Path.Combine(folder, "templates", f))
                )
        );

        File.Delete(Path.Combine(folder, "mine.toml"));
        string plate = Path.Combine(
            folder,
            "templates",
            shop.First(f => f.StartsWith("plates", StringComparison.Ordinal))
        );
        File.AppendAllText(plate, "# ours\n");
        Assert.Equal(0, Cli.Run(folder, "new", "mine.dxf", "--shop").Exit);
        Assert.EndsWith("# ours\n", File.ReadAllText(plate), StringComparison.Ordinal);
        Directory.Delete(folder, recursive: true);
    }

    private static string[] Files(string folder) =>
        [
            .. Directory
                .EnumerateFiles(folder, "*", SearchOption.AllDirectories)
                .Select(f => Path.GetRelativePath(folder, f))
                .Order(StringComparer.Ordinal),
        ];

    [Fact]
    [Trait("Speed", "Slow")]
    public void An_output_folder_that_cannot_be_written_is_a_finding_and_nothing_is_lost()
    {
        using TempLibrary library = new(Job);
        string blocked = Path.Combine(library.Folder, "blocked");
        File.WriteAllText(blocked, "a file in the way");
        Ran ran = Cli.Run(library.Folder, "make", library.Job(Job), "-o", blocked, "--json");
        Assert.Equal(1, ran.Exit);
        Assert.False((bool)ran.Json["ok"]!);
        Assert.Contains(ran.Json["findings"]!.AsArray(), f => (string)f!["code"]! == "out-not-writable");
        Assert.Equal("a file in the way", File.ReadAllText(blocked));
    }

    /// <summary>A warning lets a program pass unless it is asked for strictly; bytes that are no ASCII and files that are no programs are refused.</summary>
    [Fact]
    [Trait("Speed", "Slow")]
    public void Verify_counts_warnings_and_reads_bytes()
    {
        using TempLibrary library = new(Job);
        Assert.Equal(0, Cli.Run(library.Folder, "make", library.Job(Job)).Exit);
        string text = File.ReadAllText(Path.Combine(library.Out(Job), Job + ".trim.nc"));
        string edited = Path.Combine(library.Folder, Job + ".trim.nc");
        File.WriteAllText(edited, text.Replace("M8\n", "", StringComparison.Ordinal));
        Ran warned = Cli.Run(library.Folder, "verify", library.Job(Job), edited);
        Assert.Equal(0, warned.Exit);
        Assert.Matches("ok, 0 error\\(s\\), [1-9][0-9]* warning\\(s\\)", warned.Output.Split('\n')[0]);
        Ran strict = Cli.Run(library.Folder, "verify", library.Job(Job), edited, "--strict", "--json");
        Assert.Equal((1, false, 0), (strict.Exit, (bool)strict.Json["ok"]!, (int)strict.Json["warnings"]!));

        File.WriteAllBytes(edited, [.. System.Text.Encoding.UTF8.GetBytes("\u00ef\u00bb\u00bf" + text)]);
        Ran marked = Cli.Run(library.Folder, "verify", library.Job(Job), edited, "--json");
        Assert.Contains("not-plain-text", marked.Json["findings"]!.AsArray().Select(f => (string)f!["code"]!));

        File.WriteAllBytes(edited, new byte[12_000_000]);
        Ran zeros = Cli.Run(library.Folder, "verify", library.Job(Job), edited, "--json");
        Assert.Equal((1, "program-too-long"), (zeros.Exit, (string)zeros.Json["findings"]![0]!["code"]!));
        Assert.Equal("file-unreadable", Code("verify", library.Job(Job), library.Folder));

        string Code(params string[] args) =>
            (string)Cli.Run(library.Folder, [.. args, "--json"]).Json["findings"]![0]!["code"]!;
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void A_made_program_passes_verify_and_a_hand_broken_one_fails_at_its_line()
    {
        using TempLibrary library = new(Job);
        Assert.Equal(0, Cli.Run(library.Folder, "make", library.Job(Job)).Exit);
        string program = Path.Combine(library.Out(Job), Job + ".top.nc");
        Ran good = Cli.Run(library.Folder, "verify", library.Job(Job), program, "--json");
        Assert.True(good.Exit == 0, good.Output);
        Assert.Empty(good.Json["findings"]!.AsArray());

        string[] lines = File.ReadAllLines(program);
        int cut = Array.FindLastIndex(
            lines,
            l => l.Contains("G1", StringComparison.Ordinal) && l.Contains('Z', StringComparison.Ordinal)
        );
        lines[cut] = System.Text.RegularExpressions.Regex.Replace(lines[cut], "Z-?[0-9.]+", "Z-5.");
        string broken = Path.Combine(library.Folder, "broken.nc");
        File.WriteAllLines(broken, lines);
        Ran bad = Cli.Run(library.Folder, "verify", library.Job(Job), broken, "--json");
        Assert.Equal(1, bad.Exit);
        Assert.Contains(
            bad.Json["findings"]!.AsArray(),
            f => (string)f!["severity"]! == "error" && (int?)f["line"] == cut + 1
        );
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void Demo_needs_no_library()
    {
        string folder = Directory.CreateTempSubdirectory("fixturegen-demo-").FullName;
        Ran ran = Cli.Run(folder, "demo");
        Assert.True(ran.Exit == 0, ran.Error);
        Assert.True(File.Exists(Path.Combine(folder, "out", "demo", Job + ".top.nc")));
        Directory.Delete(folder, recursive: true);
    }
}
