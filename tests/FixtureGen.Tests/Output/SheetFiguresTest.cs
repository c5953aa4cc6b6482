using System.Globalization;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Output.Papers;
using FixtureGen.Output.Pictures;
using FixtureGen.Output.Scenes;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Tests.Output;

/// <summary>The sheet read back by poppler's pdftotext, which knows nothing of how it was drawn.</summary>
public sealed class SheetFiguresTest
{
    private static readonly PaperFacts Facts = SampleFacts.Create();

    [Fact]
    public void Every_figure_of_the_report_is_on_the_sheet()
    {
        string text = Text(SetupSheet.Pdf(Facts));
        Assert.All(Expected(Facts), figure => Assert.Contains(figure, text, StringComparison.Ordinal));
    }

    [Fact]
    public void Sheet_says_pins_bolts_torque_alarm_stops_and_the_three_signal_words()
    {
        string text = Text(SetupSheet.Pdf(Facts));
        string[] words =
        [
            "Pins OUT",
            "pins IN",
            "5.6 N·m",
            "ALARM LEVEL 60.0 kPa",
            "STOP:",
            "WARNING",
            "CAUTION",
            "NOTICE",
            "chip filter",
            "Leak check",
            "First article",
            "north up",
            "215.90 mm (8.500 in) - X",
            "H5",
            "312 mm (13 in) away",
        ];
        Assert.All(words, word => Assert.Contains(word, text, StringComparison.OrdinalIgnoreCase));
    }

    [Fact]
    public void Cut_list_is_in_the_sheet_and_quoted_by_rfc_4180()
    {
        string text = Text(SetupSheet.Pdf(Facts));
        string[] lines = CutList.Csv(Facts).Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal("what,pieces,size,note", lines[0]);
        Assert.Contains("blank,1,215.90 x 215.90 x 19.20 mm (8.500 x 8.500 x 0.756 in),\"8.5 in HDPE, HDPE\"", lines);
        Assert.Contains("cord,1,436.60 mm (17.189 in),\"3 mm sponge, loop J1\"", lines);
        Assert.Contains(lines, l => l.StartsWith("magnet in the block,4,", StringComparison.Ordinal));
        // a size that runs over two lines of its cell stands in pieces: its words are all there
        Assert.All(
            CutList.Rows(Facts).SelectMany(r => r.Size.Split(' ')),
            word => Assert.Contains(word, text, StringComparison.Ordinal)
        );
    }

    [Fact]
    public void No_text_of_the_papers_lacks_a_glyph()
    {
        IEnumerable<Scene> pages = SetupSheet
            .Draw(Facts)
            .Concat(Traveler.Draw(Facts))
            .Append(Preview.Draw(Facts.Design, Facts.Job));
        Assert.All(pages.SelectMany(p => p.Inks).OfType<TextInk>(), t => Assert.Empty(Typefaces.Missing(t.Text)));
        PaperFacts strange = Facts with { Job = Facts.Job with { Title = "Sheath 漢" } };
        Assert.Equal("paper-character", Assert.Single(strange.Unprintable()).Code);
    }

    private static IEnumerable<string> Expected(PaperFacts facts)
    {
        FixtureDesign d = facts.Design;
        yield return One(Measure.Area(d.Part.Outer) + d.Part.Cutouts.Sum(Measure.Area));
        yield return Two(Measure.Length(d.Part.Outer));
        yield return Two(d.Placement.Pose.X);
        yield return Two(d.Placement.Pose.Y);
        yield return One(d.Zones.SelectMany(z => z.Sealed).Sum(Measure.Area));
        foreach (double length in d.Cords.Select(c => c.Length).Append(d.Cords.Sum(c => c.Length)))
        {
            yield return Two(length);
        }
        foreach (
            Point2 at in d
                .Magnets.Select(m => m.At)
                .Concat(facts.Job.Plate.Bolts.Select(b => b.At))
                .Append(d.Zones[0].PortAt)
        )
        {
            yield return Two(at.X);
            yield return Two(at.Y);
        }
        HoldingResult h = facts.Holding;
        foreach (
            double force in new[]
            {
                h.VacuumKPa,
                h.PumpKPa,
                h.SealedForceN,
                h.GasketForceN,
                h.MagnetForceN,
                h.CuttingForceN,
            }
        )
        {
            yield return One(force);
        }
        foreach (HoldAnswer a in new[] { h.VacuumOnly, h.MagnetsOnly, h.MagnetsStopping, h.Both })
        {
            yield return FactorText.Two(a.Factor);
            yield return $"X {Two(a.At.X)} Y {Two(a.At.Y)}";
        }
        foreach (ProgramVerdict p in facts.Verdict.Programs)
        {
            yield return p.FileName;
            yield return p.ProgramNumber!.Value.ToString(CultureInfo.InvariantCulture);
            yield return p.Lines.ToString(CultureInfo.InvariantCulture);
            yield return p.Arcs.ToString(CultureInfo.InvariantCulture);
            yield return One(p.Minutes);
            yield return One(p.CutMm / 1000);
            yield return One(p.RapidMm / 1000);
        }
        VerifyResult v = facts.Verdict;
        foreach (double error in new[] { v.MaxGougeDepthMm, v.MaxGougeSideMm, v.MaxLeftoverMm })
        {
            yield return error.ToString("0.000", CultureInfo.InvariantCulture);
        }
    }

    private static string One(double v) => v.ToString("0.0", CultureInfo.InvariantCulture);

    private static string Two(double v) => v.ToString("0.00", CultureInfo.InvariantCulture);

    /// <summary>The words with single spaces, as a reader of the page sees them.</summary>
    private static string Text(byte[] pdf) =>
        string.Join(
            ' ',
            Tools
                .Run("pdftotext", "poppler-utils", "-layout in.pdf -", ("in.pdf", pdf))
                .Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)
        );

    /// <summary>A spreadsheet works out what begins with one of these signs; RFC 4180 knows no such thing.</summary>
    [Theory]
    [InlineData("=A1+1", "'=A1+1")]
    [InlineData("@SUM, all", "\"'@SUM, all\"")]
    [InlineData("cord \"soft\"", "\"cord \"\"soft\"\"\"")]
    [InlineData("3.2 mm", "3.2 mm")]
    public void A_field_is_text_to_a_spreadsheet(string text, string field) => Assert.Equal(field, CutList.Field(text));
}
