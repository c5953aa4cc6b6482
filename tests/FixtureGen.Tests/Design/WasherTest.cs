using System.Collections.Immutable;
using FixtureGen.Design.Block;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Design;

/// <summary>A washer presses no harder on the block than it bears for long: else the clamp goes by creep.</summary>
public sealed class WasherTest
{
    /// <summary>
    /// T = K D F and the ring's area (handbooks, from memory): 1/4-20 to 30 lbf in, K 0.2: 600 lbf, over a type A N washer .625/.281 16.90 N/mm2;
    /// M6 to 3.5 N m over 12 mm and a hole of 6.6: 2917 N, 36.97 N/mm2; over 18 mm 13.24.
    /// </summary>
    [Theory]
    [InlineData(6.35, 30 * 0.112985, 15.875, 7.1374, 16.90)]
    [InlineData(6, 3.5, 12, 6.6, 36.97)]
    [InlineData(6, 3.5, 18, 6.6, 13.24)]
    public void The_ring_under_the_washer_bears_the_screw_s_pull(
        double body,
        double torque,
        double washer,
        double hole,
        double pressure
    )
    {
        Screw screw = DesignBench.Job.Bolt with
        {
            Body = body,
            TorqueNm = torque,
            WasherDiameter = washer,
            HeadDiameter = 10,
            ClearanceHole = hole,
            NutFactor = 0.2,
        };
        Assert.Equal(pressure, screw.WasherMPa, 0.03);
    }

    [Fact]
    public void Thirty_pounds_on_HDPE_are_warned_of_with_what_would_do()
    {
        Job job = DesignBench.Job;
        Assert.Equal(6, job.BlockMaterial.SustainedMPa);
        Assert.DoesNotContain(Found(job), f => f.Code == "washer-presses");

        Job hard = job with { Bolt = job.Bolt with { TorqueNm = 30 * 0.112985 } };
        Finding finding = Assert.Single(Found(hard), f => f.Code == "washer-presses");
        Assert.Equal(Severity.Warning, finding.Severity);
        Assert.Equal(
            "tightened to 3.4 N.m the washer presses 15.9 N/mm2 on the block, hdpe bears 6.0 for long: the clamp goes by creep within hours",
            finding.Message
        );
        Assert.StartsWith(
            "tighten to at most 1.2 N.m, fit washers of 25 mm or wider",
            finding.Remedy,
            StringComparison.Ordinal
        );
        Job metal = hard with { BlockMaterial = hard.BlockMaterial with { SustainedMPa = null } };
        Assert.DoesNotContain(Found(metal), f => f.Code == "washer-presses");
    }

    private static ImmutableArray<Finding> Found(Job job) =>
        Bolts.Bore(job, new Box2(0, 0, job.Blank.Width, job.Blank.Height), Levels.From(job)).Findings;
}
