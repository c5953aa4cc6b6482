using System.Collections.Immutable;
using FixtureGen.Holding.Block;
using FixtureGen.Model;
using FixtureGen.Programs;
using FixtureGen.Tests.Support;
using FixtureGen.Toolpaths;
using FixtureGen.Verify.Tests.Damage;
using Xunit;

namespace FixtureGen.Tests.Verify;

/// <summary>
/// Demo programs damaged in what they mean: sections shifted, turned, dropped, for another control, of another job. FIXTUREGEN_CASES
/// sets how many (2000 for the figure that is reported), DAMAGE_SEED the seed; DAMAGE_KEEP names a folder that takes what passed.
/// </summary>
[Trait("Speed", "Slow")]
public sealed class SemanticDamageTest
{
    /// <summary>At least this share is refused; of a few dozen one may pass by chance.</summary>
    private const double Wanted = 0.995;

    private static readonly string[] Controls =
    [
        "inch-centre-arcs",
        "inch-quadrant-arcs",
        "mm-canned-cycles",
        "mm-radius-arcs",
        "mm-three-decimals",
    ];

    private readonly Dictionary<(string, Setup), IReadOnlyList<string>> _written = [];

    [Fact]
    public void Damaged_programs_are_refused()
    {
        bool all = Environment.GetEnvironmentVariable("FIXTUREGEN_CASES") is not null;
        IEnumerable<string> names = all
            ? DemoPrograms.Names()
            : ["dibber-sheath", "tape-cradle", "trowel-sheath", "prism-pouch"];
        GoodProgram[] good =
        [
            .. names
                .Select(DemoPrograms.Of)
                .SelectMany(d => d.Texts.Select(t => new GoodProgram(HeldJobs.Nominal(d.Job), d.Design, t, d.Drawing))),
        ];
        SemanticRun run = new(good, Written, Limits.House with { Cell = 0.2 });
        run.Go(LongRun.Cases(30), LongRun.Setting("DAMAGE_SEED", 4711));
        Keep(run);
        TestContext.Current.TestOutputHelper?.WriteLine(run.Table());
        Assert.True(run.Tried - run.Refused <= Math.Max(1, (1 - Wanted) * run.Tried), run.Table());
    }

    /// <summary>The same moves as every other control of the shop would be given them.</summary>
    private IReadOnlyList<string> Written(GoodProgram good)
    {
        (string, Setup) key = (good.Job.Name, good.Program.Setup);
        if (_written.TryGetValue(key, out IReadOnlyList<string>? known))
        {
            return known;
        }
        Job job = good.Job;
        ImmutableArray<ProgramPlan> plans = OperationPlanner
            .Plan(good.Design, job, new BlockHolding(good.Design, job), Tolerances.House)
            .Value!;
        ProgramPlan plan = plans.Single(p => p.Setup == good.Program.Setup);
        return _written[key] = [
            .. Controls
                .Where(c => c != job.Control.Name)
                .Select(c => DemoShop.Control(c))
                .Select(c => ProgramWriter.Write(plan, c, job with { Control = c }))
                .Where(s => s.Ok)
                .Select(s => s.Value!.Text),
        ];
    }

    private static void Keep(SemanticRun run)
    {
        if (Environment.GetEnvironmentVariable("DAMAGE_KEEP") is not { Length: > 0 } folder)
        {
            return;
        }
        Directory.CreateDirectory(folder);
        foreach ((string name, string text, _) in run.Misses)
        {
            File.WriteAllText(Path.Combine(folder, name), text);
        }
        File.WriteAllText(Path.Combine(folder, "table.txt"), run.Table());
    }
}
