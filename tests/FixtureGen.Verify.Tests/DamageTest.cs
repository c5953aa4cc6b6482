using FixtureGen.Model;
using FixtureGen.Verify.Tests.Damage;
using FixtureGen.Verify.Tests.Support;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>A hand-written program spoiled one slip at a time; the demo programs get the same in the generator's tests.</summary>
public sealed class DamageTest
{
    [Fact]
    [Trait("Speed", "Slow")]
    public void Slips_in_a_hand_written_pocket_are_found()
    {
        ProgramText good = new(Setup.Top, 1001, "pocket.top.nc", TestShop.Program(PocketTest.Rings));
        GoodProgram program = new(PocketTest.Job, PocketTest.Design, good);
        DamageRun run = new([program], Limits.House with { Cell = 0.25 });
        run.Go(60, 7);
        TestContext.Current.TestOutputHelper?.WriteLine(run.Table());
        Assert.True(run.Share >= 0.9, run.Table());
    }

    [Fact]
    public void Slips_are_the_same_for_the_same_seed()
    {
        string text = TestShop.Program(PocketTest.Rings);
        foreach (DamageKind kind in Enum.GetValues<DamageKind>())
        {
            Edit? one = Damager.Make(text, kind, new Random(3));
            Assert.Equal(one, Damager.Make(text, kind, new Random(3)));
            Assert.NotEqual(text, one?.Text);
        }
    }
}
