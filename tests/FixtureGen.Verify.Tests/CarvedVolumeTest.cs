using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>What carving comes to, whatever the cells: volumes of known solids, and the verdict on a program.</summary>
public sealed class CarvedVolumeTest
{
    /// <summary>Volumes from the solids' own formulas (cone, sphere's half, cylinder), within half a cell round the rim.</summary>
    [Fact]
    public void Volumes_are_the_solids_own_within_the_grids_bound()
    {
        double Removed(Cutter cutter, params Motion[] motions)
        {
            BlockGrid grid = RandomMotions.Grid(0.05);
            Carver carver = new(grid);
            return motions.Sum(m => carver.Cut(m, cutter, 9).Removed);
        }
        Motion down = new(1, MotionKind.Line, new(20.013, 20.027, 12), new(20.013, 20.027, 7.5), default, 100, 1);
        double ball = Math.PI * 2.5 * 2.5 * 2.5 * 2 / 3;
        Assert.Equal(ball, Removed(RandomMotions.Cutters[1], down), 2 * Math.PI * 2.5 * 2.5 * 0.05 / 2);
        double tip = 2.5 / Math.Tan(59 * Math.PI / 180);
        double drill = Math.PI * 2.5 * 2.5 * ((tip / 3) + (2.5 - tip));
        Assert.Equal(drill, Removed(RandomMotions.Cutters[3], down), 2 * Math.PI * 2.5 * 2.5 * 0.05 / 2);
        double bore = Math.PI * 4.5 * 4.5 * 3;
        Motion[] helix =
        [
            .. Enumerable
                .Range(0, 3)
                .Select(i => RandomMotions.Arc(20.013, 20.027, 1.5, 0.4, 2 * Math.PI, 10 - i, 9 - i)),
            RandomMotions.Arc(20.013, 20.027, 1.5, 0.4, 2 * Math.PI, 7, 7),
        ];
        Assert.Equal(bore, Removed(RandomMotions.Cutters[0], helix), 2 * Math.PI * 4.5 * 3 * 0.05 / 2);
    }

    /// <summary>Good stays good and every spoiled pocket stays refused for the same reasons, whatever the grid.</summary>
    [Theory]
    [InlineData("", "", "")]
    [InlineData("G1 X40. Z17.", "G1 X40. Z16.9", "gouge")]
    [InlineData("G1 X66.\n", "G1 X66.3\n", "gouge-side")]
    [InlineData("G3 X34. Y43. I1. J0.", "G2 X34. Y43. I1. J0.", "left-over")]
    public void Refined_grid_keeps_the_verdict(string good, string bad, string code)
    {
        string text = TestShop.Program(
            good.Length > 0 ? PocketTest.Rings.Replace(good, bad, StringComparison.Ordinal) : PocketTest.Rings
        );
        foreach (double cell in (double[])[0.2, 0.1, 0.07, 0.05])
        {
            VerifyResult result = Verifier.Judge(
                new VerifyRequest(
                    PocketTest.Job,
                    PocketTest.Design,
                    [new ProgramText(Setup.Top, 1001, "test.top.nc", text)],
                    Limits.House with
                    {
                        Cell = cell,
                    }
                )
                {
                    Drawing = null,
                }
            );
            Assert.Equal(code.Length == 0, result.Ok);
            Assert.True(
                code.Length == 0 || result.Findings.Any(f => f.Code == code),
                string.Join(' ', result.Findings.Select(f => f.Code))
            );
        }
    }
}
