using FixtureGen.Geometry;
using FixtureGen.Tests.Hostile;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Damage;

/// <summary>
/// Right results of random offsets and hostile combinations, damaged once each: the proof must stop 999 of 1,000 of every
/// kind and let the right ones pass. 400 results by default, as many as FIXTUREGEN_DAMAGE says in a long run, which prints
/// the table.
/// </summary>
public sealed class ProofDamageTest(ITestOutputHelper output)
{
    private static readonly Slack House = Slack.From(Tolerances.House);

    [Fact]
    public void Damaged_offsets_are_stopped()
    {
        Table table = new();
        Offsetter offsetter = new(House);
        OffsetProof proof = new(House);
        OffsetSource source = new(House);
        for (int i = 0; i < LongRun.Setting("FIXTUREGEN_DAMAGE", 400); i++)
        {
            OffsetCase c = RandomRegions.Make(i);
            double d = Math.Abs(c.Distance);
            source.Begin(reversed: c.Distance > 0);
            source.AddAll(c.Regions);
            source.End();
            List<Loop>? right = offsetter.Run(source, d, OffsetWay.Plain);
            if (right is null || !proof.Proves(offsetter, source, d, right))
            {
                table.Refused++;
                continue;
            }
            table.Try(right, new Random(i), loops => proof.Proves(offsetter, source, d, loops));
        }
        table.Judge(output);
    }

    /// <summary>
    /// One parallel or arc about a corner is lost before anything is cut, and said to be there: whatever loops come of it are
    /// wrong together, as long as their runs and at the distance from what they name. Where it was buried nothing is damaged.
    /// </summary>
    [Fact]
    public void Offsets_that_lost_a_parallel_before_cutting_are_stopped()
    {
        Offsetter offsetter = new(House);
        OffsetProof proof = new(House);
        OffsetSource source = new(House);
        RawCurves whole = new();
        int damaged = 0;
        List<int> passed = [];
        for (int i = 0; i < LongRun.Setting("FIXTUREGEN_DAMAGE", 400); i++)
        {
            OffsetCase c = RandomRegions.Make(i);
            double d = Math.Abs(c.Distance);
            source.Begin(reversed: c.Distance > 0);
            source.AddAll(c.Regions);
            source.End();
            if (offsetter.Run(source, d, OffsetWay.Plain) is not { Count: > 0 } right)
            {
                continue;
            }
            new RawOffset(House).Build(source, d, whole);
            ResultDamage.Lose(whole, new Random(i).Next(whole.Count), source.Count, offsetter.Raw);
            List<Loop>? loops = offsetter.Follow(source, d, OffsetWay.Plain);
            if (loops is not null && Math.Abs(loops.Sum(l => l.Area) - right.Sum(l => l.Area)) < 1e-4)
            {
                continue;
            }
            damaged++;
            if (loops is not null && proof.Proves(offsetter, source, d, loops))
            {
                passed.Add(i);
            }
        }
        output.WriteLine(
            FormattableString.Invariant($"{passed.Count} of {damaged} passed: {string.Join(" ", passed)}")
        );
        Assert.True(damaged > 50);
        Assert.True(passed.Count * 1000 <= damaged);
    }

    /// <summary>By distance alone 221 of 2,947 lost loops passed.</summary>
    [Fact]
    [Trait("Speed", "Slow")]
    public void Damaged_offsets_by_definition_are_stopped()
    {
        Table table = new();
        SweptOffset swept = new(House);
        OffsetProof proof = new(House);
        OffsetSource source = new(House);
        for (int i = 0; i < LongRun.Setting("FIXTUREGEN_DAMAGE", 400); i++)
        {
            OffsetCase c = RandomRegions.Make(i);
            double d = Math.Abs(c.Distance);
            source.Begin(reversed: c.Distance > 0);
            source.AddAll(c.Regions);
            source.End();
            bool Proves(List<Loop> loops) => swept.Proves(loops) && proof.ProvesAlone(source, d, loops, swept.Moved);
            List<Loop>? right = swept.Run(source, d, band: false, 1);
            if (right is null || !Proves(right))
            {
                table.Refused++;
                continue;
            }
            table.Try(right, new Random(i), Proves);
        }
        table.Judge(output);
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void Damaged_combinations_are_stopped()
    {
        Table table = new();
        Overlay overlay = new(House);
        CombinationProof proof = new(House);
        for (int i = 0; i < LongRun.Setting("FIXTUREGEN_DAMAGE", 400); i++)
        {
            HostilePair pair = HostilePair.Make(i);
            Func<int, int, bool> wanted = (i % 4) switch
            {
                0 => (a, b) => a > 0 || b > 0,
                1 => (a, b) => a > 0 && b > 0,
                2 => (a, b) => a > 0 && b <= 0,
                _ => (a, b) => a > 0 != b > 0,
            };
            List<Loop>? right = overlay.Run(pair.A, pair.B, wanted, 1);
            if (right is null || !proof.Proves(overlay, wanted, right))
            {
                table.Refused++;
                continue;
            }
            // Loops and arcs thinner than the proof promises are left as they are.
            List<Loop> thick = right.FindAll(l => Math.Abs(l.Area) > 1e-5 * l.Sums.Length);
            if (thick.Count == right.Count)
            {
                table.Try(right, new Random(i), loops => proof.Proves(overlay, wanted, loops));
            }
        }
        table.Judge(output);
    }

    private sealed class Table
    {
        private readonly int[] _damaged = new int[ResultDamage.Kinds.Length];
        private readonly int[] _passed = new int[ResultDamage.Kinds.Length];

        public int Refused { get; set; }

        public void Try(List<Loop> right, Random random, Func<List<Loop>, bool> proves)
        {
            for (int k = 0; k < _damaged.Length; k++)
            {
                if (ResultDamage.Make(ResultDamage.Kinds[k], right, random) is { } loops)
                {
                    _damaged[k]++;
                    _passed[k] += proves(loops) ? 1 : 0;
                }
            }
        }

        public void Judge(ITestOutputHelper output)
        {
            for (int k = 0; k < _damaged.Length; k++)
            {
                output.WriteLine(
                    FormattableString.Invariant($"{ResultDamage.Kinds[k]}: {_passed[k]} of {_damaged[k]} passed")
                );
            }
            output.WriteLine(FormattableString.Invariant($"{Refused} right ones refused"));
            Assert.Equal(0, Refused);
            Assert.All(Enumerable.Range(0, _damaged.Length), k => Assert.True(_passed[k] * 1000 <= _damaged[k]));
            Assert.All(_damaged, n => Assert.True(n > 50));
        }
    }
}
