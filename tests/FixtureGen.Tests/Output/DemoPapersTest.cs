using System.Globalization;
using System.Text.Json;
using FixtureGen.Model;
using FixtureGen.Output;
using FixtureGen.Output.Pictures;
using FixtureGen.Output.Reports;
using FixtureGen.Shop.Jobs;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Output;

/// <summary>The papers and the drawing of a real demo job, read back by programs that know nothing of how they were made.</summary>
public sealed class DemoPapersTest(DemoMade made) : IClassFixture<DemoMade>
{
    /// <summary>The report's digits stay in its file: a page of them on the wall is read by nobody.</summary>
    [Fact]
    public void The_sheet_has_no_page_of_raw_figures_but_one_to_write_on()
    {
        string text = string.Join(' ', Words(made.File("setup.pdf")));
        Assert.DoesNotContain("report.json", text, StringComparison.Ordinal);
        Assert.DoesNotContain("vacuumOnly", text, StringComparison.Ordinal);
        Assert.Contains("Record of the block", text, StringComparison.Ordinal);
        Assert.Contains("how far the level rises in one minute", text, StringComparison.Ordinal);
    }

    /// <summary>The control counts in inches, so the papers do; what is in brackets is the same length.</summary>
    [Fact]
    public void Papers_of_an_inch_control_say_inches_first()
    {
        Job job = made.Outcome.Job!;
        Assert.Equal(LengthUnit.Inch, job.Control.Unit);
        string size = FormattableString.Invariant(
            $"{job.Blank.Width / 25.4:0.000} x {job.Blank.Height / 25.4:0.000} in ({job.Blank.Width:0.00} x {job.Blank.Height:0.00} mm)"
        );
        Assert.Contains(
            size.Replace("(", "", StringComparison.Ordinal).Replace(")", "", StringComparison.Ordinal),
            string.Join(' ', Words(made.File("setup.pdf"))),
            StringComparison.Ordinal
        );
    }

    /// <summary>The first part is measured before the batch goes on, and the table says every size with its limits.</summary>
    [Fact]
    public void The_traveler_has_the_first_part_before_every_part()
    {
        string text = string.Join(' ', Words(made.File("traveler.pdf")));
        int first = text.IndexOf("First part before the batch", StringComparison.Ordinal);
        Assert.InRange(first, 1, text.IndexOf("Every part", StringComparison.Ordinal));
        Assert.Contains("ISO 2768-1", text, StringComparison.Ordinal);
    }

    /// <summary>The rows people read are rounded, but from the same figures: areas to 0.1, lengths to 0.01, factors to two figures.</summary>
    [Fact]
    public void Rounded_figures_stand_in_the_tables_too()
    {
        HashSet<string> words = [.. Words(made.File("setup.pdf"))];
        Report report = made.Outcome.Report;
        string[] rounded =
        [
            report.Part!.AreaMm2.ToString("0.0", CultureInfo.InvariantCulture),
            report.Features!.SealedAreaMm2.ToString("0.0", CultureInfo.InvariantCulture),
            report.Features.CordLengthMm.ToString("0.00", CultureInfo.InvariantCulture),
            FactorText.Two(report.Holding!.VacuumOnly.Factor),
            .. report.Features.Magnets.Select(m => m.XMm.ToString("0.00", CultureInfo.InvariantCulture)),
            .. made.Outcome.Verdict!.Programs.Select(p => p.Minutes.ToString("0.0", CultureInfo.InvariantCulture)),
        ];
        Assert.All(rounded, r => Assert.Contains(r, words));
    }

    /// <summary>Label on the block, first comment, number, file name, sheet and traveler are one and the same.</summary>
    [Fact]
    public void Label_comment_number_file_and_sheet_agree()
    {
        Job job = made.Outcome.Job!;
        FixtureDesign design = made.Outcome.Design!;
        string trim = System.Text.Encoding.ASCII.GetString(made.File("trim.nc"));
        string number = job.ProgramNumber!.Value.ToString(CultureInfo.InvariantCulture);
        string word = job.Control.ProgramNumberWord + number;
        string[] comments = [.. trim.Split('\n').Where(l => l.StartsWith('(')).Select(l => l.Trim().Trim('(', ')'))];
        string squeezed = design.Label.Replace(" ", "", StringComparison.Ordinal);

        Assert.StartsWith(
            squeezed,
            string.Concat(comments).Replace(" ", "", StringComparison.Ordinal),
            StringComparison.Ordinal
        );
        Assert.Contains(word, design.Label, StringComparison.Ordinal);
        Assert.Equal(word, trim.Split('\n').Select(l => l.Trim()).First(l => l.Length > 0 && l != "%"));
        EngravingFeature label = Assert.Single(
            design.Features.OfType<EngravingFeature>(),
            f => f.Kind == FeatureKind.Label
        );
        Assert.Equal(design.Label, label.Text);
        foreach (string paper in (string[])["setup.pdf", "traveler.pdf"])
        {
            string words = string.Concat(Words(made.File(paper)));
            Assert.Contains(squeezed, words, StringComparison.Ordinal);
            Assert.Contains(
                $"{number},{DemoMade.Name}.trim.nc".Replace(",", "", StringComparison.Ordinal),
                words,
                StringComparison.Ordinal
            );
        }
    }

    /// <summary>What the operator compares letter by letter: the lines that open each program, in their own case.</summary>
    [Theory]
    [InlineData("top.nc")]
    [InlineData("trim.nc")]
    public void The_first_lines_on_the_sheet_are_the_program_s(string program)
    {
        string[] head =
        [
            .. System
                .Text.Encoding.ASCII.GetString(made.File(program))
                .Split('\n')
                .SkipWhile(l => !l.StartsWith('('))
                .TakeWhile(l => l.StartsWith('(')),
        ];
        Assert.True(head.Length > 6);
        Assert.Contains(
            Letters(string.Concat(head)),
            Letters(string.Concat(Words(made.File("setup.pdf")))),
            StringComparison.Ordinal
        );
    }

    /// <summary>The whole way from a job's reason to what hangs at the machine.</summary>
    [Theory]
    [InlineData("top.nc")]
    [InlineData("trim.nc")]
    [InlineData("setup.pdf")]
    [InlineData("traveler.pdf")]
    [Trait("Speed", "Slow")]
    public void A_low_hold_that_the_job_accepts_is_said_on_every_paper_and_program(string file)
    {
        HoldAnswer vacuum = made.Outcome.Holding!.VacuumOnly;
        Assert.True(vacuum.Factor < 3);
        string text = file.EndsWith(".pdf", StringComparison.Ordinal)
            ? string.Concat(Words(made.File(file)))
            : System.Text.Encoding.ASCII.GetString(made.File(file));
        string letters = Letters(text).ToUpperInvariant();
        Assert.Contains("BELOWHOUSELIMIT", letters, StringComparison.Ordinal);
        Assert.Contains(
            Letters($"VACUUMALONE{FactorText.Two(vacuum.Factor)}LIMIT3.0"),
            letters,
            StringComparison.Ordinal
        );
        Assert.Contains("TOSEETHEPAPERSOFALOWHOLD", letters, StringComparison.Ordinal);
    }

    [Fact]
    public void The_list_has_every_pin_that_the_trim_needs()
    {
        Job job = made.Outcome.Job!;
        int pins = made.Outcome.Design!.Features.Count(f => f.Kind == FeatureKind.LocatorHole);
        string csv = System.Text.Encoding.UTF8.GetString(made.File("cutlist.csv"));
        Assert.Equal(
            pins > 0,
            csv.Contains(
                FormattableString.Invariant($"locator pin,{pins},{job.Rules.LocatorPinDiameter / 25.4:0.000} x "),
                StringComparison.Ordinal
            )
        );
        Assert.Equal(job.Locator == LocatorKind.Pins, pins > 0);
    }

    private static string Letters(string text) => string.Concat(text.Where(char.IsAsciiLetterOrDigit));

    [Fact]
    [Trait("Speed", "Slow")]
    public void Qr_code_says_job_and_revision()
    {
        Tools.Run("zbarimg", "zbar-tools", "--version");
        byte[] page = Tools.Picture(made.File("traveler.pdf"), 150);
        string words = Tools.Run("zbarimg", "zbar-tools", "-q --raw page.png", ("page.png", page)).Trim();
        Assert.Equal(QrMark.Words(made.Outcome.Job!), words);
        Assert.StartsWith(DemoMade.Name + " ", words, StringComparison.Ordinal);
        Assert.EndsWith("rev 1", words, StringComparison.Ordinal);
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void Another_reader_finds_no_fault_in_the_drawing_and_the_report_s_areas()
    {
        JsonElement read = Ezdxf.Read(made.File("fixture.dxf"));
        Assert.Empty(read.GetProperty("errors").EnumerateArray());
        double Sum(string layer) =>
            read.GetProperty("areas")
                .EnumerateArray()
                .Zip(read.GetProperty("areaLayers").EnumerateArray())
                .Where(p => p.Second.GetString() == layer)
                .Sum(p => p.First.GetDouble());
        Assert.Equal(made.Outcome.Report.Part!.AreaMm2, Sum("PART_OUTLINE") - Sum("PART_CUTOUT"), 1e-3);
        Assert.Equal(
            made.Outcome.Design!.Magnets.Length,
            read.GetProperty("areaLayers").EnumerateArray().Count(l => l.GetString() == "MAGNET")
        );
    }

    private static IEnumerable<string> Words(byte[] pdf) =>
        Tools
            .Run("pdftotext", "poppler-utils", "-layout in.pdf -", ("in.pdf", pdf))
            .Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)
            .Select(w => w.Trim(',', ';', ')', '('));
}

/// <summary>One demo job made once for all tests of the class.</summary>
public sealed class DemoMade
{
    public const string Name = "pruner-sheath";

    public DemoMade()
    {
        string outlines = Path.Combine(DemoShop.Root, "outlines");
        string text = System.IO.File.ReadAllText(DemoShop.StatedJob(Name));
        // how well shell and block are held is other tests' business; papers are wanted of any fixture
        text = Set(text, "limits.vacuum_factor", "3");
        text = Set(text, "limits.block_factor", "1");
        text = Set(text, "hold.accept_low_hold", "\"to see the papers of a low hold\"");
        Request request = new()
        {
            JobName = Name,
            JobFile = $"outlines/{Name}.toml",
            JobText = text,
            DrawingFile = $"outlines/{Name}.dxf",
            Drawing = System.IO.File.ReadAllBytes(Path.Combine(outlines, Name + ".dxf")),
            Shop = DemoShop.Files,
            Registered = new Registered(1170, "F-017", 1, false),
            Version = "0",
            Progress = _ => { },
        };
        Outcome = Delivery.Make(request);
        Assert.True(
            Outcome.Report.Ok,
            string.Join('\n', Outcome.Findings.Where(f => f.Severity == Severity.Error).Select(f => f.Message))
        );
    }

    private static string Set(string text, string key, string literal) =>
        JobEdit.Set(text, $"outlines/{Name}.toml", key, literal).Value
        ?? throw new InvalidOperationException($"{key} cannot be set");

    public Outcome Outcome { get; }

    /// <summary>The bytes of JOB.<paramref name="ending"/>.</summary>
    public byte[] File(string ending) => [.. Outcome.Files.Single(f => f.Name == $"{Name}.{ending}").Bytes];
}
