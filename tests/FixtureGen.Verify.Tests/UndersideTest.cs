using FixtureGen.Model;
using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>
/// A pocket of 40 x 20 x 3 mm in the block's underside, X 15..55 of the plate. Turned over about X 50 it is cut at X 45..85.
/// </summary>
public sealed class UndersideTest
{
    private static FixtureDesign Design { get; } =
        TestShop.Design(
            TestShop.Pocket("below", FeatureKind.Channel, Setup.Underside, TestShop.Rounded(15, 40, 55, 60, 4), 3, 0)
        );

    /// <summary>The pocket's rings, 15 mm farther in X than on top.</summary>
    private static string Rings { get; } = Moved(PocketTest.Rings, 15);

    internal static string Program(string body) =>
        TestShop.Program(body).Replace("BLOCK TOP", "BLOCK UNDERSIDE", StringComparison.Ordinal);

    [Fact]
    public void A_pocket_cut_into_the_turned_block_passes_and_is_seen_from_the_plate_where_the_design_has_it()
    {
        VerifyResult result = TestShop.Judge(PocketTest.Job, Design, Program(Rings), Setup.Underside);
        Slip.Nothing(result);
        Assert.True(result.Ok);
        Assert.Equal(3, Bottom(result, 20, 50), 4);
        Assert.Equal(3, Bottom(result, 50, 50), 4);
        Assert.Equal(0, Bottom(result, 60, 50), 4);
        Assert.Equal(0, Bottom(result, 10, 50), 4);
    }

    /// <summary>A side without a program of its own is taken from the design.</summary>
    [Fact]
    public void A_top_program_alone_is_judged_over_the_underside_of_the_design()
    {
        VerifyResult result = TestShop.Judge(PocketTest.Job, Design, TestShop.Program(""));
        Assert.Equal(3, Bottom(result, 20, 50), 4);
        Assert.Equal(0, Bottom(result, 80, 50), 4);
        VerifyResult trim = TestShop.Judge(TrimShop.Job, Design, TrimShop.Program(""), Setup.Trim);
        Assert.Equal(3, Bottom(trim, 20, 50), 4);
    }

    [Theory]
    [InlineData("gouge", "G1 X55. Z17.", "G1 X55. Z16.9")]
    [InlineData("gouge-side", "G1 X79.", "G1 X79.5 Y42.9")]
    public void A_slip_below_is_told_at_its_line(string code, string good, string bad)
    {
        (string text, int line) = Slip.Make(Program(Rings), good, bad);
        Slip.Found(TestShop.Judge(PocketTest.Job, Design, text, Setup.Underside), text, line, code);
    }

    [Fact]
    public void A_program_that_forgot_to_turn_is_refused()
    {
        VerifyResult result = TestShop.Judge(
            PocketTest.Job,
            Design,
            Program(Moved(PocketTest.Rings, -15)),
            Setup.Underside
        );
        Assert.Contains("gouge", result.Findings.Select(f => f.Code));
        Assert.Contains("left-over", result.Findings.Select(f => f.Code));
    }

    /// <summary>A pocket from above over the one from below leaves 2 mm, under the job's 3; beside it there is no such floor.</summary>
    [Theory]
    [InlineData(15, true)]
    [InlineData(56, false)]
    public void The_floor_over_what_the_top_will_take_is_kept_from_below_too(double x, bool thin)
    {
        FixtureDesign design = Design with
        {
            Features = Design.Features.Add(
                TestShop.Pocket("above", FeatureKind.Relief, Setup.Top, TestShop.Rounded(x, 40, x + 30, 60, 4), 20, 5)
            ),
        };
        string text = Program(Rings);
        VerifyResult result = TestShop.Judge(PocketTest.Job, design, text, Setup.Underside);
        Assert.Equal(thin ? ["floor-left"] : [], result.Findings.Select(f => f.Code).Distinct());
    }

    /// <summary>What was really cut from below counts for the top, not what the design wanted: a channel 2 mm too deep thins its floor.</summary>
    [Fact]
    public void The_top_is_judged_over_the_underside_as_it_was_cut()
    {
        FixtureDesign design = Design with
        {
            Features = Design.Features.Add(
                TestShop.Pocket("above", FeatureKind.Relief, Setup.Top, TestShop.Rounded(30, 40, 70, 60, 4), 20, 17)
            ),
        };
        string deep = Program(Rings)
            .Replace("Z18.5", "Z14.", StringComparison.Ordinal)
            .Replace("Z17.", "Z5.", StringComparison.Ordinal);
        string top = TestShop.Program(PocketTest.Rings);
        VerifyResult result = Verifier.Judge(
            new VerifyRequest(
                PocketTest.Job,
                design,
                [
                    new ProgramText(Setup.Top, 1001, "top.nc", top),
                    new ProgramText(Setup.Underside, 1001, "under.nc", deep),
                ],
                Limits.House
            )
            {
                Drawing = null,
            }
        );
        Assert.Equal(["under.nc", "top.nc"], result.Programs.Select(p => p.FileName));
        Assert.Contains("floor-left", result.Programs[1].Findings.Select(f => f.Code));
        Slip.Nothing(TestShop.Judge(PocketTest.Job, design, top));
    }

    private static double Bottom(VerifyResult result, double x, double y)
    {
        BlockGrid block = result.Block;
        int column = (int)((x - block.Box.MinX) / block.Cell);
        int row = (int)((y - block.Box.MinY) / block.Cell);
        return block.BottomHeights.HeightAt(row, column);
    }

    private static string Moved(string body, double dx) =>
        string.Join(
            ' ',
            body.Split(' ')
                .Select(w =>
                    w.StartsWith('X')
                        ? FormattableString
                            .Invariant(
                                $"X{double.Parse(w.Split('\n')[0][1..], System.Globalization.CultureInfo.InvariantCulture) + dx:0.0##}"
                            )
                            .Replace(".0", ".", StringComparison.Ordinal)
                            + (w.Contains('\n', StringComparison.Ordinal) ? "\n" + w.Split('\n', 2)[1] : "")
                        : w
                )
        );
}
