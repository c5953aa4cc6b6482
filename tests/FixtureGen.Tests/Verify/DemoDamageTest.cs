using System.Globalization;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using FixtureGen.Verify.Tests.Damage;
using Xunit;

namespace FixtureGen.Tests.Verify;

/// <summary>
/// Demo programs spoiled one slip at a time. DAMAGE_COUNT sets how many real slips (2000 for the figure that is reported); the
/// table and every miss are printed. DAMAGE_SEED sets the seed; DAMAGE_KEEP names a folder that takes every missed program.
/// </summary>
[Trait("Speed", "Slow")]
public sealed class DemoDamageTest
{
    /// <summary>At least this share of real slips is found; of a few dozen two may be missed by chance.</summary>
    private const double Wanted = 0.99;

    [Fact]
    public void Slips_are_refused_or_warned_about()
    {
        string? asked = Environment.GetEnvironmentVariable("DAMAGE_COUNT");
        int count = asked is null ? 80 : int.Parse(asked, CultureInfo.InvariantCulture);
        IEnumerable<string> names = asked is null
            ? ["dibber-sheath", "tape-cradle", "trowel-sheath"]
            : DemoPrograms.Names();
        GoodProgram[] good =
        [
            .. names
                .Select(DemoPrograms.Of)
                .SelectMany(d => d.Texts.Select(t => new GoodProgram(HeldJobs.Nominal(d.Job), d.Design, t, d.Drawing))),
        ];
        DamageRun run = new(good, Limits.House with { Cell = 0.2 });
        run.Go(count, LongRun.Setting("DAMAGE_SEED", 12345));
        Keep(run);
        TestContext.Current.TestOutputHelper?.WriteLine(run.Table());
        int missed = run.Real - run.Caught;
        Assert.True(missed <= Math.Max(2, (1 - Wanted) * run.Real), run.Table());
        Assert.True(run.Small <= 0.2 * (run.Real + run.Small), run.Table());
    }

    private static void Keep(DamageRun run)
    {
        if (Environment.GetEnvironmentVariable("DAMAGE_KEEP") is not { Length: > 0 } folder)
        {
            return;
        }
        Directory.CreateDirectory(folder);
        foreach ((int i, (GoodProgram good, Edit edit)) in run.Missed.Index())
        {
            string name = FormattableString.Invariant($"{i:00}.{edit.Kind}.{good.Program.FileName}");
            File.WriteAllText(Path.Combine(folder, name), edit.Text);
        }
        File.WriteAllText(Path.Combine(folder, "table.txt"), run.Table());
    }
}
