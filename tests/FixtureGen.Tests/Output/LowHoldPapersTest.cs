using System.Globalization;
using FixtureGen.Model;
using FixtureGen.Output.Papers;
using FixtureGen.Output.Pictures;
using FixtureGen.Output.Reports;
using FixtureGen.Output.Scenes;
using FixtureGen.Toolpaths;
using Xunit;

namespace FixtureGen.Tests.Output;

/// <summary>A hold below a house limit is said first on every paper; hold, stops, pins and drill guide are read back by poppler's pdftotext.</summary>
public sealed class LowHoldPapersTest
{
    private static readonly PaperFacts Low = SampleLowHold.Create("A4", LengthUnit.Millimetre);

    public static TheoryData<string, string> Looks() =>
        new()
        {
            { "A4", "mm" },
            { "A4", "in" },
            { "Letter", "mm" },
            { "Letter", "in" },
        };

    [Theory]
    [MemberData(nameof(Looks))]
    [Trait("Speed", "Slow")]
    public void The_same_facts_give_the_same_bytes_and_the_traveler_is_two_pages_at_most(string paper, string unit)
    {
        PaperFacts facts = SampleLowHold.Create(paper, unit == "in" ? LengthUnit.Inch : LengthUnit.Millimetre);
        byte[] sheet = SetupSheet.Pdf(facts);
        byte[] traveler = Traveler.Pdf(facts);
        Looked.At($"setup-low.{paper}.{unit}.pdf", sheet);
        Looked.At($"traveler-low.{paper}.{unit}.pdf", traveler);
        Looked.At($"holding-low.png", HoldingPicture.Png(facts.Design, facts.Holding, facts.Job.Limits));
        Assert.Equal(sheet, SetupSheet.Pdf(facts));
        Assert.Equal(traveler, Traveler.Pdf(facts));
        Assert.InRange(Traveler.Draw(facts).Count, 1, 2);
    }

    [Fact]
    public void Every_paper_says_it_first_with_factors_limits_and_reason()
    {
        foreach (byte[] pdf in (byte[][])[SetupSheet.Pdf(Low), Traveler.Pdf(Low)])
        {
            string text = Text(pdf);
            int banner = text.IndexOf("BELOW HOUSE LIMIT", StringComparison.Ordinal);
            Assert.InRange(banner, 0, 120);
            Assert.Contains("vacuum alone 2.9, limit 5.5", text, StringComparison.Ordinal);
            Assert.Contains("magnets alone while the machine stops 1.1, limit 1.2", text, StringComparison.Ordinal);
            Assert.Contains(SampleLowHold.Reason, text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Every_page_of_every_paper_carries_it()
    {
        Assert.All(
            SetupSheet.Draw(Low).Concat(Traveler.Draw(Low)),
            page =>
                Assert.Contains(
                    page.Inks.OfType<TextInk>(),
                    t => t.Text.Contains(LowHold.Words, StringComparison.Ordinal)
                )
        );
    }

    [Fact]
    public void The_holding_picture_is_marked()
    {
        Scene low = HoldingPicture.Draw(Low.Design, Low.Holding, Low.Job.Limits);
        Scene good = HoldingPicture.Draw(Low.Design, Low.Holding, new HouseLimits(2, 1, 2));
        Assert.Contains(low.Inks.OfType<TextInk>(), t => t.Text == LowHold.Words);
        Assert.DoesNotContain(good.Inks.OfType<TextInk>(), t => t.Text == LowHold.Words);
    }

    [Fact]
    public void A_hold_within_the_limits_is_said_nowhere_to_be_below_them()
    {
        PaperFacts good = Low with { Job = Low.Job with { Limits = new HouseLimits(2, 1, 2) } };
        string text = Text(SetupSheet.Pdf(good)) + Text(Traveler.Pdf(good));
        Assert.DoesNotContain("In the worst case vacuum", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Made all the same", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Worst_case_nominal_stops_and_shift_stand_side_by_side()
    {
        string text = Text(SetupSheet.Pdf(Low));
        HoldAnswer vacuum = Low.Holding.VacuumOnly;
        Assert.Contains(
            $"{FactorText.Two(vacuum.Factor)} {FactorText.Two(vacuum.Nominal)} {FactorText.Two(vacuum.Stays)} 5.5",
            text,
            StringComparison.Ordinal
        );
        string[] said =
        [
            "least friction, hardest cord",
            "pin locator pin 1 24.00 (0.945) 108.00 (4.252) 0.10 (0.004) 201.6 every way",
            "slot locator pin 2 192.00 (7.559) 112.00 (4.409) 0.10 (0.004) 201.6 across the slot",
            "may shift up to 0.21 mm (0.008 in) before these hold it; its stated slack on the block is 0.40 mm (0.016 in)",
            "sinks 0.012 mm into magnet pocket M2",
            "holds 3.4 times against the wind of the tool",
        ];
        Assert.All(said, s => Assert.Contains(s, text, StringComparison.Ordinal));
    }

    /// <summary>By hand: pin 5, clearance 0.2; 168.05 mm apart; PETG's shrinkage 0.003 to 0.005, so 0.34 mm longer; 8 + 1.6 + 2 mm long.</summary>
    [Fact]
    public void Pin_holes_slot_and_pin_length_are_those_of_a_calculation_by_hand()
    {
        LocatorGuide guide = LocatorGuide.For(Low.Job, Low.Design)!;
        Assert.Equal(11.6, guide.PinLength, 9);
        Assert.Equal((5.2, 5.2, false), (guide.Holes[0].Width, guide.Holes[0].Length, guide.Holes[0].IsSlot));
        double apart = Math.Sqrt((168 * 168) + (4 * 4));
        Assert.Equal(5.2, guide.Holes[1].Width, 9);
        Assert.Equal(5.2 + (0.002 * apart), guide.Holes[1].Length, 9);
        Assert.Equal(Math.Atan2(4, 168) * 180 / Math.PI, guide.Holes[1].AngleDeg, 9);

        string text = Text(SetupSheet.Pdf(Low));
        string[] said =
        [
            "2 pins of 5.00 mm (0.197 in), 11.60 mm (0.457 in) long",
            "1, locator pin 1 round 5.20 (0.205) 5.20 (0.205) -14.00 (-0.551) 56.00 (2.205) 0.00 (0.000)",
            "2, locator pin 2 slot at 1.36° 5.20 (0.205) 5.54 (0.218) 154.00 (6.063) 60.00 (2.362) 168.05 (6.616)",
            "longer by 0.2 % of its distance",
            "Datum: the lower left corner of the box round the finished edge",
        ];
        Assert.All(said, s => Assert.Contains(s, text, StringComparison.Ordinal));
    }

    [Fact]
    public void Round_holes_are_all_alike_and_say_what_may_go_wrong()
    {
        PaperFacts round = Low with { Job = Low.Job with { LocatorHoles = LocatorHoles.Round } };
        LocatorGuide guide = LocatorGuide.For(round.Job, round.Design)!;
        Assert.All(guide.Holes, h => Assert.Equal((5.2, 5.2), (h.Width, h.Length)));
        Assert.Contains("All holes round", Text(SetupSheet.Pdf(round)), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(
        false,
        "Measure the blank: ____________ mm. 18.80 to 19.60 mm (0.740 to 0.772 in) is safe; do not cut one that is thinner or thicker."
    )]
    [InlineData(true, "19.20 mm (0.756 in), measured; 18.80 to 19.30 mm (0.740 to 0.760 in) is safe")]
    public void The_sheet_says_measured_only_where_somebody_measured(bool measured, string said)
    {
        PaperFacts facts = Low with { Job = Low.Job with { BlockMeasured = measured } };
        string words = string.Concat(Text(SetupSheet.Pdf(facts)).Where(c => !char.IsWhiteSpace(c)));
        string pages = string.Join(
            ' ',
            SetupSheet.Draw(facts).SelectMany(p => p.Inks).OfType<TextInk>().Select(t => t.Text)
        );
        Assert.Contains(said, pages, StringComparison.Ordinal);
        Assert.Equal(!measured, pages.Contains("Measure the blank", StringComparison.Ordinal));
        Assert.Equal(measured, words.Contains("in),measured", StringComparison.Ordinal));
    }

    [Fact]
    public void Report_has_four_figures_where_the_paper_has_two()
    {
        HoldingFacts report = ReportBuilder.Holding(Low.Holding);
        Assert.Equal(Math.Round(Low.Holding.VacuumOnly.Nominal, 4), report.VacuumOnly.Nominal);
        Assert.Equal((1.13, "stop"), (report.MagnetsStopping.Stays, report.MagnetsStopping.StaysMode));
        Assert.Equal(new StopFacts("slot", "locator pin 2", 192, 112, 0.1, 201.6), report.Stops[1]);
        Assert.Equal((0.21, 3.47), (report.ShiftMm, report.JacketGrip));
        Assert.Equal(new DimpleFacts("magnet pocket M2", 10.2, 0.012, 0.2, 1.9), report.Dimples[0]);
        string json = ReportJson.Text(ReportBuilder.Refused("x", [], "") with { Holding = report });
        string[] keys =
        [
            "nominal",
            "stays",
            "staysMode",
            "corner",
            "stops",
            "xMm",
            "clearanceMm",
            "strengthN",
            "shiftMm",
            "dimples",
            "stressMPa",
            "jacketGrip",
        ];
        Assert.All(keys, k => Assert.Contains($"\"{k}\":", json, StringComparison.Ordinal));
    }

    /// <summary>Two figures, never above what the factor is.</summary>
    [Theory]
    [InlineData(1.4, "1.4")]
    [InlineData(1.96, "1.9")]
    [InlineData(1.9999999999, "2.0")]
    [InlineData(0.868, "0.86")]
    [InlineData(0.57, "0.57")]
    [InlineData(12.9, "12")]
    [InlineData(9.99, "9.9")]
    [InlineData(999, "999")]
    [InlineData(0, "0.00")]
    [InlineData(0.999999, "0.99")]
    public void Factors_are_printed_with_two_figures_rounded_down(double factor, string printed)
    {
        Assert.Equal(printed, FactorText.Two(factor));
        Assert.True(double.Parse(printed, CultureInfo.InvariantCulture) <= factor * (1 + 1e-8));
    }

    private static string Text(byte[] pdf) =>
        string.Join(
            ' ',
            Tools
                .Run("pdftotext", "poppler-utils", "-layout in.pdf -", ("in.pdf", pdf))
                .Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)
        );
}
