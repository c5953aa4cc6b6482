using FixtureGen.Model;
using FixtureGen.Tests.Support;
using FixtureGen.Tests.Verify.Designs;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Tests.Verify;

/// <summary>
/// Designs spoiled after they were finished, their programs planned and written from them: program and design agree, and only the shop's
/// own facts can tell (that none of the others is refused <see cref="DemoVerdictTest"/> shows). FIXTUREGEN_CASES sets how many are judged (2000 for the figure that is reported), FIXTUREGEN_DESIGN_SEED the seed.
/// </summary>
[Trait("Speed", "Slow")]
public sealed class DesignDamageTest
{
    /// <summary>At least this share of spoiled designs is refused.</summary>
    private const double Wanted = 0.995;

    /// <summary>Each of these passed with "judged: ok" while the judge believed the design.</summary>
    public static TheoryData<string, string> Found =>
        new()
        {
            { "pins moved 0.8", "hole-off-place" },
            { "bolts moved 1.0", "hole-off-place" },
            { "magnet pockets 0.6 tighter", "fit-off" },
            { "magnet pockets 2.0 shallower", "floor-off" },
            { "grooves 0.8 deeper", "floor-off" },
            { "locators moved 1.0", "hole-off-place" },
            { "PinHole tighter", "fit-off" },
        };

    /// <summary>Every finding of the facts by a damage that raises it.</summary>
    public static TheoryData<string, string> Told =>
        new()
        {
            { "PinHole dropped", "feature-missing" },
            { "bolt hole doubled", "feature-unasked" },
            { "relief wider", "wall-off" },
            { "blank moved", "design-off-job" },
            { "part turned over", "design-off-drawing" },
            { "zone shrunk round a sharp corner", "cord-bend" },
            { "cord longer", "cord-length" },
            { "port blind", "port-off-plate" },
            { "net dropped", "zone-unfed" },
            { "zone and groove moved", "wall-left" },
            { "trim into the part", "edge-cut-into" },
            { "trim off the part", "edge-left" },
            { "trim reversed", "trim-off-job" },
            { "label of another job", "label-off-job" },
            { "magnet forgotten", "magnets-off-job" },
        };

    [Theory]
    [MemberData(nameof(Found))]
    [MemberData(nameof(Told))]
    public void Spoiled_design_is_refused_for_what_is_wrong(string kind, string code)
    {
        VerifyResult result = ((string[])["trowel-sheath", "tape-cradle", "hook-cradle"])
            .Select(n => new DesignRun([]).Try(kind, DemoPrograms.Of(n), new Random(5)))
            .First(r => r is not null)!;
        Assert.False(result.Ok);
        Assert.Contains(code, result.Findings.Where(f => f.Severity == Severity.Error).Select(f => f.Code));
    }

    [Fact]
    public void At_least_forty_kinds_of_spoiled_designs_are_refused()
    {
        int count = LongRun.Cases(24);
        DesignRun run = new([.. Jobs(count).Select(DemoPrograms.Of)]);
        run.Spoil(count, LongRun.Setting("FIXTUREGEN_DESIGN_SEED", 22));
        TestContext.Current.TestOutputHelper?.WriteLine(run.Table());
        Assert.True(DesignDamage.Kinds.Count >= 40);
        Assert.True(run.Judged >= count, run.Table());
        Assert.True(run.Refused >= Wanted * run.Judged, run.Table());
    }

    private static IEnumerable<string> Jobs(int count) =>
        count >= 400 ? DemoPrograms.Names() : ["tape-cradle", "trowel-sheath", "hook-cradle"];
}
