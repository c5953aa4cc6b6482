using FixtureGen.Model;
using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>Bolts long enough for the plate's thread, and a nest as loose as the shell asks for: the judge's own sums.</summary>
public sealed class FitTest
{
    private static readonly FixtureDesign Bolted = TestShop.Design(
        Hole("bolt", FeatureKind.BoltHole, 5.5, 0),
        Hole("counterbore", FeatureKind.Counterbore, 11, 10)
    );

    private static HoleFeature Hole(string name, FeatureKind kind, double diameter, double floor) =>
        new()
        {
            Name = name,
            Kind = kind,
            Setup = Setup.Top,
            At = new Point2(10, 10),
            Diameter = diameter,
            TopZ = 18,
            FloorZ = floor,
            SlotLength = 0,
            SlotAngleDeg = 0,
            BreaksThrough = true,
            Opening = null,
            Removals = [],
        };

    private static Finding[] Told(string stop)
    {
        string text = TestShop.Program($"G0 Z40.\nM5\n{stop}\nM0\nS8000 M3");
        return [.. TestShop.Judge(PocketTest.Job, Bolted, text).Findings.Where(f => f.Code == "screw-length")];
    }

    /// <summary>Seat 10 and washer 1; relief 6 and M5: 22.0 mm. Plate 25 less a pitch of 0.8: 35.2 mm.</summary>
    [Theory]
    [InlineData("(FIT 1 BOLT M5, 22.0 TO 35.2 MM LONG)")]
    [InlineData("(FIT 1 BOLT M5, 25 TO 30 MM LONG)")]
    [InlineData("(FIT 1 BOLT M5, 21.95 TO)\n(35.2 MM LONG)")]
    [InlineData("(FIT 1 BOLT M5)")]
    public void Bolts_that_reach_into_the_thread_and_not_through_it_pass(string stop) => Assert.Empty(Told(stop));

    [Theory]
    [InlineData("(FIT 1 BOLT M5, 20.0 TO 35.2 MM LONG)", "20.0 to 35.2")]
    [InlineData("(FIT 1 BOLT M5, 22.0 TO 36.0 MM LONG)", "22.0 to 36.0")]
    [InlineData("(FIT 1 BOLT M5, 12.0 TO)\n(16.0 MM LONG)", "12.0 to 16.0")]
    public void Bolts_that_are_too_short_or_come_through_are_refused(string stop, string said)
    {
        Finding f = Assert.Single(Told(stop));
        Assert.Equal(Severity.Error, f.Severity);
        Assert.Equal(
            $"the comment asks for bolts {said} mm long; one diameter of thread takes 22.0 mm, and above 35.2 mm they come through the plate",
            f.Message
        );
        Assert.Equal("Write 22.0 TO 35.2 MM LONG", f.Remedy);
    }

    /// <summary>A cup of radius 10 in a pocket of radius 10.3 has 0.3 mm all round.</summary>
    [Theory]
    [InlineData(0, false)]
    [InlineData(0.3, false)]
    [InlineData(0.4, true)]
    public void A_nest_tighter_than_the_least_slack_is_refused(double slackMin, bool told)
    {
        Job job = PocketTest.Job with { Shell = PocketTest.Job.Shell with { SlackMin = slackMin, SlackMax = 1 } };
        FixtureDesign design = TestShop.Design(
            TestShop.Pocket("form pocket 1", FeatureKind.FormPocket, Setup.Top, TestShop.Circle(50, 50, 10.3), 18, 10)
        );
        design = design with
        {
            Part = design.Part with { Forms = [new(TestShop.Circle(50, 50, 10), FormDirection.Down, 7, 3)] },
        };
        VerifyResult result = TestShop.Judge(job, design, TestShop.Program("G0 Z40."));
        Finding[] tight = [.. result.Findings.Where(f => f.Code == "nest-too-tight")];
        Assert.Equal(told ? 1 : 0, tight.Length);
        Assert.All(
            tight,
            f =>
                Assert.Equal(
                    "the pocket leaves 0.3 mm round the form, less than the shell's least slack of 0.4 mm",
                    f.Message
                )
        );
    }
}
