using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>
/// Times of single motions by hand: v = 250 mm/s rapid, a = 2000 mm/s2; a stretch from rest to rest takes v/a + s/v where it reaches v,
/// else 2 sqrt(s/a) (uniform acceleration). Corners are passed as fast as an arc that leaves the corner by 0.01 mm bears that acceleration.
/// </summary>
public sealed class TimingTest
{
    private const double A = 2000;

    [Theory]
    [InlineData("G0 X100.", 0.125 + (100 / 250.0))]
    [InlineData("G0 X40.", 0.125 + (40 / 250.0))]
    [InlineData("G0 X10.", 0.14142136)]
    [InlineData("G0 Z20.\nG4 P0.\nG0 Z40.", 2 * 0.2)]
    [InlineData("G0 X30. Z0.\nG4 P0.\nG0 X0. Z40.", 2 * (0.125 + (50 / 250.0)))]
    [InlineData("G1 X60. F6000.", 0.05 + 0.6)]
    [InlineData("G1 X60. F60000.", 0.125 + (60 / 250.0))]
    [InlineData("G4 P2.5", 2.5)]
    public void A_motion_from_rest_to_rest_takes_its_time(string line, double seconds) =>
        Assert.Equal(seconds, Seconds(line), 5);

    /// <summary>Split where it goes straight on, a stretch takes no longer.</summary>
    [Fact]
    public void A_stretch_in_two_pieces_takes_no_longer() =>
        Assert.Equal(Seconds("G1 X60. F6000."), Seconds("G1 X20. F6000.\nX60."), 6);

    [Fact]
    public void A_way_back_stops_between() =>
        Assert.Equal(2 * Seconds("G1 X20. F6000."), Seconds("G1 X20. F6000.\nX0."), 6);

    /// <summary>At a right angle an arc that leaves the corner by d has the radius d s / (1 - s), s = sin 45 degrees.</summary>
    [Fact]
    public void A_right_angle_is_passed_at_its_corner_speed()
    {
        double s = Math.Sqrt(0.5);
        double corner = Math.Sqrt(A * 0.01 * s / (1 - s));
        const double v = 100;
        double ramps = ((v / A) + ((v - corner) / A)) * 2;
        double way = ((v * v) + (v * v) - (corner * corner)) / (2 * A);
        Assert.Equal(ramps + (2 * (30 - way) / v), Seconds("G1 X30. F6000.\nY30."), 6);
        double into = Math.Sqrt(((2 * A * 0.5) + (corner * corner)) / 2);
        Assert.Equal(2 * ((2 * into) - corner) / A, Seconds("G1 X0.5 F6000.\nY0.5"), 6);
    }

    /// <summary>A full turn of 2 mm radius is held to sqrt(a R), 63.2 mm/s.</summary>
    [Fact]
    public void An_arc_is_no_faster_than_its_centripetal_acceleration()
    {
        double v = Math.Sqrt(A * 2);
        double length = 4 * Math.PI;
        Assert.Equal((v / A) + (length / v), Seconds("G3 X4. Y0. I2. J0. F6000.\nG3 X0. Y0. I-2. J0."), 5);
    }

    /// <summary>What is fed faster than a rapid takes a rapid's time; the tools' own times leave out the changes.</summary>
    [Fact]
    public void Minutes_are_told_by_tool_without_the_change()
    {
        ProgramVerdict verdict = Judge("G0 X10.\nG4 P60.");
        ToolTime only = Assert.Single(verdict.Tools);
        Assert.Equal((1, "end mill 6"), (only.Tool, only.Name));
        Assert.InRange(only.Minutes, 1, verdict.Minutes - (5.0 / 60));
    }

    [Fact]
    public void Lengths_and_arcs_are_summed()
    {
        ProgramVerdict with = Judge("G1 X3. Z36.\nG3 X7. Y0. I2. J0.\nG0 Z40.\nX0. Y0.");
        ProgramVerdict without = Judge("");
        Assert.Equal(5 + (2 * Math.PI), with.CutMm - without.CutMm, 6);
        Assert.Equal(4 + 7, with.RapidMm - without.RapidMm, 6);
        Assert.Equal(1, with.Arcs - without.Arcs);
    }

    [Fact]
    public void The_share_cut_in_air_is_told_by_length()
    {
        ProgramVerdict good = Pocket(PocketTest.Rings);
        ProgramVerdict more = Pocket(PocketTest.Rings + "\nG0 Z30.\nG1 Y64.");
        Assert.Equal(20, more.CutMm - good.CutMm, 6);
        Assert.Equal(20, (more.AirCutShare * more.CutMm) - (good.AirCutShare * good.CutMm), 6);
        Assert.InRange(good.AirCutShare * good.CutMm, 0.99, 0.5 * good.CutMm);
    }

    private static ProgramVerdict Pocket(string body) =>
        TestShop.Judge(PocketTest.Job, PocketTest.Design, TestShop.Program(body)).Programs[0];

    /// <summary>What some lines add that end at Z 40; the dwells of no time bring the machine to rest before and after.</summary>
    private static double Seconds(string lines) =>
        60 * (Judge("G4 P0.\n" + lines + "\nG4 P0.").Minutes - Judge("G4 P0.\nG4 P0.").Minutes);

    private static ProgramVerdict Judge(string body) =>
        TestShop
            .Judge(TestShop.Job(TestShop.EndMill(1, 6)), TestShop.Design(), TestShop.Program("G0 X0. Y0.\n" + body))
            .Programs[0];
}
