using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Shop.Files;
using FixtureGen.Shop.Jobs;
using FixtureGen.Shop.Reading;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Shop;

/// <summary>What was once accepted in silence although the hold rests on it, each with what is said to it now.</summary>
public sealed class ImplausibleTest
{
    private const string Shell = """

        [shell]
        thickness = 1.5
        thickness_max = 1.65
        thickness_min = 1.35
        slack_max = 0.3
        """;

    /// <summary>The message and the remedy of each, word for word.</summary>
    [Theory]
    [InlineData(
        "materials",
        "pvc-acrylic",
        "",
        "specific_force_to",
        "20",
        "toml-out-of-range",
        "'specific_force_to' is 20; it must be from 40 to 600.",
        "Give a value from 40 to 600; usual is from 100 to 250: toughness model after Gent and Wang 1996; rigid plastics from memory."
    )]
    [InlineData(
        "materials",
        "hdpe",
        "",
        "shell_friction",
        "2.0",
        "toml-out-of-range",
        "'shell_friction' is 2; it must be from 0.05 to 0.6.",
        "Give a value from 0.05 to 0.6; usual is from 0.1 to 0.35: clean and dry sheet on HDPE or acetal, from memory."
    )]
    [InlineData(
        "materials",
        "hdpe",
        "",
        "shell_friction_from",
        "0.3",
        "shop-contradiction",
        "'shell_friction' is 0.2, less than 'shell_friction_from', 0.3.",
        "Exchange the two."
    )]
    [InlineData(
        "materials",
        "hdpe",
        "chip_load",
        "to",
        "0.02",
        "toml-out-of-range",
        "'chip_load[0].to' is 0.02 in (0.508 mm); it must be from 0.001 to 0.015 in (0.0127 to 0.381 mm).",
        "Give a value from 0.001 to 0.015 in (0.0127 to 0.381 mm); usual is from 0.001 to 0.006 in (0.02223 to 0.1524 mm): router and end-mill chip-load charts for a cutter of this size."
    )]
    [InlineData(
        "plates",
        "master",
        "machine",
        "vacuum_reaction_seconds",
        "0",
        "toml-out-of-range",
        "'machine.vacuum_reaction_seconds' is 0; it must be from 0.005 to 5.",
        "Give a value from 0.005 to 5; usual is from 0.03 to 0.5: common practice, no source."
    )]
    [InlineData(
        "plates",
        "master",
        "machine",
        "feed_hold_distance",
        "0",
        "toml-out-of-range",
        "'machine.feed_hold_distance' is 0 in (0 mm); it must be from 0.002 to 3.937 in (0.05 to 100 mm).",
        "Give a value from 0.002 to 3.937 in (0.05 to 100 mm); usual is from 0.008 to 0.393 in (0.2 to 10 mm): common practice, no source."
    )]
    [InlineData(
        "magnets",
        "disc-10x5",
        "",
        "plating",
        "0",
        "toml-out-of-range",
        "'plating' is 0 mm; it must be from 0.003 to 0.2 mm.",
        "Give a value from 0.003 to 0.2 mm; usual is from 0.008 to 0.05 mm: nickel, copper, nickel 0.010 to 0.025 mm, from memory."
    )]
    [InlineData(
        "magnets",
        "disc-10x5",
        "",
        "jacket_floor",
        "0",
        "toml-out-of-range",
        "'jacket_floor' is 0 mm; it must be from 0.1 to 5 mm.",
        "Give a value from 0.1 to 5 mm; usual is from 0.3 to 1.5 mm: two to six printed layers (common practice)."
    )]
    [InlineData(
        "magnets",
        "disc-10x5",
        "",
        "br_max_t",
        "1.45",
        "shop-contradiction",
        "'br_max_t' is 1.45 T, 0.13 T above its grade: N42 has 1.28 to 1.32 T (three trade lists).",
        "Correct the grade or the remanence."
    )]
    [InlineData(
        "magnets",
        "disc-10x5",
        "",
        "grade",
        "\"N24\"",
        "shop-outside-practice",
        "No published remanence is known for grade 'N24': 1.28 to 1.32 T is taken on trust.",
        "Did you mean \"N42\"? Known: N35, N38, N40, N42, N45, N48, N50, N52; else keep the maker's sheet with the file."
    )]
    [InlineData(
        "gaskets",
        "sponge-1-8",
        "",
        "p25_max_kpa",
        "250",
        "toml-out-of-range",
        "'p25_max_kpa' is 250; it must be from 1 to 172.4.",
        "Give a value from 1 to 172.4; usual is from 13.7 to 155: ASTM D1056 grades 0 to 5 reach 172.4 kPa (25 psi)."
    )]
    [InlineData(
        "gaskets",
        "sponge-1-8",
        "",
        "p25_max_kpa",
        "20",
        "shop-outside-practice",
        "13.8 to 20 kPa is less than the whole of grade 1, 13.8 to 34.5 kPa (ASTM D1056): a cord bought by grade may lie anywhere in it.",
        "Give the grade's ends, or measure your own roll and say so beside it in the file."
    )]
    [InlineData(
        "gaskets",
        "solid-1-8",
        "",
        "shore_a",
        "15",
        "toml-out-of-range",
        "'shore_a' is 15; it must be from 20 to 95.",
        "Give a value from 20 to 95; usual is from 30 to 90: hardnesses for which line forces are published (O-ring handbook; Gent 1958)."
    )]
    [InlineData(
        "plates",
        "master",
        "vacuum",
        "altitude",
        "\"2200 m\"",
        "shop-contradiction",
        "The alarm level of 67.7 kPa is 2.9 kPa deeper than the pump goes: the pump, 84.7 kPa at sea level, reaches 64.8 kPa at 2200 m, so it would never start.",
        "Set the alarm to 51.8 kPa or less, or use a stronger pump."
    )]
    [InlineData(
        "plates",
        "master",
        "vacuum",
        "altitude",
        "\"900 m\"",
        "shop-outside-practice",
        "The alarm level of 67.7 kPa is 89 % of what there is: the pump, 84.7 kPa at sea level, reaches 76 kPa at 900 m; 80 % is usual (common practice, no source).",
        "Set the alarm to 60.8 kPa or less."
    )]
    public void A_shop_file_says_what_cannot_be(
        string kind,
        string name,
        string table,
        string key,
        string literal,
        string code,
        string message,
        string remedy
    )
    {
        ShopFiles spoilt = With(kind, name, text => TomlLines.Set(text, table, key, literal));
        string job =
            kind == "magnets" ? DemoShop.PlainJob(more: Shell).Replace("disc-12-7x6-35", name, StringComparison.Ordinal)
            : kind == "gaskets" ? DemoShop.PlainJob(more: Shell).Replace("sponge-1-8", name, StringComparison.Ordinal)
            : DemoShop.PlainJob(more: Shell);
        Stage<Job> read = JobReader.Read(job, "outlines/x.toml", spoilt);

        Finding f = read.Findings.First(f =>
            f.Code == code && f.Where.StartsWith($"templates/{kind}/{name}", StringComparison.Ordinal)
        );
        Assert.Equal(message, f.Message);
        Assert.Equal(remedy, f.Remedy);
        Assert.Equal(code != "shop-outside-practice", read.Value is null);
    }

    [Theory]
    [InlineData("[shell]\nfriction = 2.0", "toml-out-of-range", "'shell.friction' is 2; it must be from 0.05 to 0.6.")]
    [InlineData("[shell]\nfriction_to = 0.3", "shop-contradiction", "'friction_to' is given without 'friction'.")]
    [InlineData(
        "[shell]\nthickness = 1.5\nthickness_max = 1.5",
        "toml-out-of-range",
        "'shell.thickness_max' is 1.5 mm; it must be from 1.515 to 2.4 mm."
    )]
    [InlineData(
        "[shell]\nthickness = 1.5\nthickness_max = 1.53",
        "shop-outside-practice",
        "'shell.thickness_max' is 1.53 mm; usual is from 1.575 to 1.875 mm: sheet is sold 10 % either way and forms thinner (trade pages)."
    )]
    [InlineData(
        "[shell]\nthickness = 1.5\nthickness_min = 1.5",
        "toml-out-of-range",
        "'shell.thickness_min' is 1.5 mm; it must be from 0.375 to 1.485 mm."
    )]
    [InlineData(
        "[shell]\nslack_max = 0",
        "toml-out-of-range",
        "'shell.slack_max' is 0 mm; it must be from 0.02 to 5 mm."
    )]
    [InlineData("[trim]\ndull_factor = 0.9", "toml-out-of-range", "'trim.dull_factor' is 0.9; it must be from 1 to 5.")]
    [InlineData(
        "[trim]\ndull_factor = 1.2",
        "shop-outside-practice",
        "'trim.dull_factor' is 1.2; usual is from 1.5 to 2: common practice, no source."
    )]
    [InlineData(
        "[rules]\nmagnet_recess = 0",
        "toml-out-of-range",
        "'rules.magnet_recess' is 0 mm; it must be from 0.02 to 5 mm."
    )]
    [InlineData(
        "[limits]\nvacuum_factor = 0.5",
        "toml-out-of-range",
        "'limits.vacuum_factor' is 0.5; it must be from 1 to 100."
    )]
    [InlineData(
        "[block]\nthickness = 40",
        "shop-contradiction",
        "A measured thickness of 40 mm is 20.95 mm over the 19.05 mm of 'hdpe-8-5', whose tolerance is 0.381 mm: 20.569 mm beyond it."
    )]
    [InlineData(
        "[block]\nthickness = 19.6",
        "shop-outside-practice",
        "A measured thickness of 19.6 mm is 0.55 mm over the 19.05 mm of 'hdpe-8-5', whose tolerance is 0.381 mm: 0.169 mm beyond it."
    )]
    [InlineData(
        "[limits]\nbelow_is_error = false",
        "toml-key-gone",
        "'limits.below_is_error' is no key any more: a hold below a house limit is refused, and below 1 always."
    )]
    [InlineData("[hold]\naccept_low_hold = \"\"", "toml-missing-key", "'hold.accept_low_hold' is empty.")]
    [InlineData("[hold]\naccept_low_hold = \" \\t \"", "toml-missing-key", "'hold.accept_low_hold' is empty.")]
    public void A_job_says_what_cannot_be(string more, string code, string message)
    {
        Stage<Job> read = JobReader.Read(DemoShop.PlainJob(more: more), "outlines/x.toml", DemoShop.Files);

        Finding f = read.Findings.First(f => f.Code == code);
        Assert.Equal(message, f.Message);
        Assert.NotEmpty(f.Remedy);
        Assert.Equal(code != "shop-outside-practice", read.Value is null);
    }

    [Fact]
    public void The_key_that_is_gone_names_what_took_its_place()
    {
        Finding f = Assert.Single(
            JobReader
                .Read(DemoShop.PlainJob(more: "[limits]\nbelow_is_error = true"), "outlines/x.toml", DemoShop.Files)
                .Findings
        );
        Assert.Equal("outlines/x.toml:14:1", f.Where);
        Assert.Equal(
            "Take the line out; where a job is to be made all the same, write [hold] accept_low_hold = \"reason\", which stands on every paper and program.",
            f.Remedy
        );
    }

    [Fact]
    public void A_reason_is_one_line_whatever_its_blanks()
    {
        Job job = DemoShop.Job(
            DemoShop.PlainJob(more: "[hold]\naccept_low_hold = \"\"\"\n  first   trial,\n\ttwo parts \"\"\"")
        );
        Assert.Equal("first trial, two parts", job.AcceptLowHold);
    }

    [Fact]
    public void A_thickness_within_the_stock_s_tolerance_is_taken_as_measured()
    {
        Job silent = DemoShop.Job(DemoShop.PlainJob());
        Job measured = DemoShop.Job(DemoShop.PlainJob(more: "[block]\nthickness = 19.3" + Shell));

        Assert.Equal((19.05, false), (Math.Round(silent.BlankThickness, 9), silent.BlockMeasured));
        Assert.Equal((19.3, true), (measured.BlankThickness, measured.BlockMeasured));
    }

    [Fact]
    public void What_a_job_leaves_open_is_said_with_the_numbers_taken()
    {
        Finding f = JobReader
            .Read(DemoShop.PlainJob(), "outlines/x.toml", DemoShop.Files)
            .Findings.Single(f => f.Code == "shop-range-assumed");

        Assert.Equal((Severity.Note, "outlines/x.toml"), (f.Severity, f.Where));
        Assert.Equal(
            "Not stated, so assumed: shell.thickness 2.36 mm, shell.thickness_max 2.596 mm, shell.slack_max 0.3 mm, shell.thickness_min 2.124 mm.",
            f.Message
        );
        Assert.Empty(JobReader.Read(DemoShop.PlainJob(more: Shell), "outlines/x.toml", DemoShop.Files).Findings);
    }

    [Theory]
    [InlineData("materials", "hdpe", "shell_friction_", "shell_friction_from 0.1, shell_friction_to 0.3")]
    [InlineData("gaskets", "sponge-1-8", "friction_shell_on_cord_from", "friction_shell_on_cord_from 0.2")]
    [InlineData("gaskets", "sponge-1-8", "groove_depth_tolerance", "groove_depth_tolerance 0.1 mm")]
    [InlineData("gaskets", "solid-1-8", "shore_a_tolerance", "shore_a_tolerance 5")]
    [InlineData("plates", "master", "alarm_tolerance", "vacuum.alarm_tolerance 2 kPa")]
    public void A_shop_file_without_a_range_is_read_on_the_safe_side_and_says_so(
        string kind,
        string name,
        string key,
        string assumed
    )
    {
        (string path, string text) = DemoShop.Files.Find(kind, name)!.Value;
        string silent = string.Join('\n', text.Split('\n').Where(l => !l.StartsWith(key, StringComparison.Ordinal)));
        ImmutableArray<Finding> findings = kind switch
        {
            "materials" => MaterialReader.Read(silent, path, name).Findings,
            "gaskets" => GasketReader.Read(silent, path, name).Findings,
            _ => PlateReader.Read(silent, path, name).Findings,
        };

        Finding f = Assert.Single(findings);
        Assert.Equal(("shop-range-assumed", Severity.Note), (f.Code, f.Severity));
        Assert.Equal($"Not stated, so assumed: {assumed}.", f.Message);
    }

    [Fact]
    public void A_shell_without_sheet_data_says_that_stops_count_for_nothing()
    {
        ShopFiles silent = With(
            "materials",
            "pvc-acrylic",
            text => text[..text.IndexOf("[sheet]", StringComparison.Ordinal)]
        );
        Stage<Job> read = JobReader.Read(DemoShop.PlainJob(more: Shell), "outlines/x.toml", silent);

        Finding f = Assert.Single(read.Findings);
        Assert.Equal(("shop-sheet-unstated", Severity.Note), (f.Code, f.Severity));
        Assert.Contains("count for nothing", f.Message, StringComparison.Ordinal);
        Assert.Null(read.Value!.ShellMaterial.Sheet);
    }

    private static ShopFiles With(string kind, string name, Func<string, string> change) =>
        DemoShop.Files with
        {
            Find = (k, n) =>
                DemoShop.Files.Find(k, n) is { } found
                    ? (found.Path, k == kind && n == name ? change(found.Text) : found.Text)
                    : null,
        };
}
