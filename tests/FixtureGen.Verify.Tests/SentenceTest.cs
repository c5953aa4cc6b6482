using FixtureGen.Model;
using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>
/// What a program tells people against the shop's own figures: 60 kPa alarm and a pump of 85, one M5 x 0.8 bolt B1 at 5 N.m with 3 mm
/// of key, one magnet, revision 1, a skirt of tabs, blanks of 18.3 to 20.5 mm.
/// </summary>
public sealed class SentenceTest
{
    private const string Bolts = "(FIT 1 BOLTS [B1], CAP SCREW M5, KEY 3.0 MM INTO THE HEAD, TO 5.0 NM)";

    private static VerifyResult Trim(string said) =>
        TestShop.Judge(
            TrimShop.Job with
            {
                Skirt = SkirtHold.None,
            },
            TrimShop.Design,
            TrimShop.Program(TrimShop.Once).Replace("(PINS IN, B", said + "\n(PINS IN, B", StringComparison.Ordinal),
            Setup.Trim
        );

    private static VerifyResult Top(string said) =>
        TestShop.Judge(
            PocketTest.Job,
            PocketTest.Design,
            TestShop.Program(PocketTest.Rings).Replace("(PINS OUT)", said + "\n(PINS OUT)", StringComparison.Ordinal)
        );

    [Theory]
    [InlineData("(VACUUM TO SEE 60 KPA [17.7 INHG], 600 MBAR)")]
    [InlineData("(1 MAGNET, N UP)")]
    [InlineData("(NEVER START WITHOUT VACUUM)")]
    [InlineData("(BOLTS: SEE THE SHEET. DO NOT START WITHOUT BOLTS)")]
    [InlineData("(NO SKIRT: CUT AWAY BEFORE)")]
    [InlineData("(REVISION 1, DRAWING REV B)")]
    [InlineData("(MADE ON MONDAY, 12 PIECES)")]
    public void True_and_other_sentences_pass_in_a_trim(string said) => Slip.Nothing(Trim(said));

    [Theory]
    [InlineData(Bolts)]
    [InlineData("(FIT 1 BOLTS [B1])\n(TO 44 LBF.IN)")]
    [InlineData("(RAW BLOCK, 18.30 TO 20.50 MM THICK IS SAFE)")]
    [InlineData("(TOP UP)")]
    [InlineData("(NO MAGNETS YET)")]
    public void True_sentences_pass_in_a_block(string said) => Slip.Nothing(Top(said));

    [Theory]
    [InlineData("vacuum-level", "(VACUUM TO SEE 50 KPA)")]
    [InlineData("vacuum-level", "(VACUUM TO SEE 6 KPA)")]
    [InlineData("vacuum-level", "(VACUUM TO SEE 600 KPA)")]
    [InlineData("vacuum-level", "(VACUUM TO SEE)\n(16.0 INHG)")]
    [InlineData("vacuum-level", "(VACUUM TO SEE 500 MBAR)")]
    [InlineData("magnet-count", "(PUT 2 MAGNETS ON)")]
    [InlineData("magnet-count", "(MAGNETS 3 N UP)")]
    [InlineData("label-mismatch", "(FIXTURE F001 REV 2)")]
    [InlineData("operator-line-false", "(PINS OUT)")]
    [InlineData("operator-line-false", "(BOLTS OUT)")]
    [InlineData("operator-line-false", "(NO BOLTS)")]
    [InlineData("operator-line-false", "(BOLTS NOT NEEDED)")]
    [InlineData("operator-line-false", "(WITHOUT MAGNETS)")]
    [InlineData("operator-line-false", "(VACUUM OFF)")]
    [InlineData("operator-line-false", "(NO PINS)")]
    [InlineData("operator-line-false", "(SKIRT HELD BY TABS)")]
    [InlineData("operator-line-false", "(SKIRT CLAMPED)")]
    public void A_false_sentence_of_a_trim_is_refused(string code, string said)
    {
        VerifyResult result = Trim(said);
        Assert.Contains(code, result.Findings.Select(f => f.Code));
        Assert.False(result.Ok);
    }

    [Theory]
    [InlineData("FIT 1 BOLTS", "FIT 4 BOLTS")]
    [InlineData("[B1]", "[B1 B2]")]
    [InlineData("M5", "M6")]
    [InlineData("M5", "1/4-20")]
    [InlineData("KEY 3.0", "KEY 1.0")]
    [InlineData("TO 5.0 NM", "TO 50.0 NM")]
    [InlineData("TO 5.0 NM", "TO 0.5 NM")]
    [InlineData("TO 5.0 NM", "TO 5.0 FT-LB")]
    public void A_false_word_about_the_bolts_is_refused(string good, string bad)
    {
        VerifyResult result = Top(Bolts.Replace(good, bad, StringComparison.Ordinal));
        Assert.Contains("operator-line-false", result.Findings.Select(f => f.Code));
        Assert.False(result.Ok);
    }

    [Theory]
    [InlineData("(UNDERSIDE UP)")]
    [InlineData("(RAW BLOCK, 15.30 TO 20.50 MM THICK IS SAFE)")]
    [InlineData("(RAW BLOCK, 18.30 TO 22.50 MM THICK IS SAFE)")]
    [InlineData("(22.50 MM THICK AS MEASURED)")]
    [InlineData("(VACUUM NOT NEEDED)")]
    public void A_false_sentence_of_a_block_is_refused(string said)
    {
        VerifyResult result = Top(said);
        Assert.Contains("operator-line-false", result.Findings.Select(f => f.Code));
        Assert.False(result.Ok);
    }

    /// <summary>A stop whose comment denies what it should ask for asks for nothing.</summary>
    [Theory]
    [InlineData("(CHECK VACUUM AND MAGNETS)", false)]
    [InlineData("(NO NEED TO CHECK MAGNETS)", true)]
    [InlineData("(CHECK VACUUM. MAGNETS NOT NEEDED)", true)]
    public void A_stop_that_denies_the_magnets_is_none_for_them(string said, bool told)
    {
        string text = TrimShop
            .Program(TrimShop.Once)
            .Replace("(CHECK VACUUM AND MAGNETS)", said, StringComparison.Ordinal);
        VerifyResult result = TestShop.Judge(TrimShop.Job, TrimShop.Design, text, Setup.Trim);
        Assert.Equal(told, result.Findings.Any(f => f.Code == "magnet-stop"));
    }
}
