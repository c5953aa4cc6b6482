using System.Diagnostics;
using FixtureGen.Geometry;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Hostile;

/// <summary>
/// Hostile pairs: 600 by default, as many as FIXTUREGEN_HOSTILE says (with FIXTUREGEN_HOSTILE_FROM as the first number) in
/// a long run, which prints by family: cases, wrong, unproven, told, fall-backs, slowest.
/// </summary>
public sealed class HostileCombineTest(ITestOutputHelper output)
{
    private sealed class Tally
    {
        public int Cases;
        public int Wrong;
        public int Unproven;
        public int Told;
        public int FallBacks;
        public double Slowest;
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void Hostile_pairs_are_combined_rightly()
    {
        int count = LongRun.Setting("FIXTUREGEN_HOSTILE", 600);
        int from = LongRun.Setting("FIXTUREGEN_HOSTILE_FROM", 0);
        SortedDictionary<string, Tally> tallies = new(StringComparer.Ordinal);
        List<string> complaints = [];
        for (int i = from; i < from + count; i++)
        {
            HostilePair pair = HostilePair.Make(i);
            Tally tally = tallies.TryGetValue(pair.Family, out Tally? known) ? known : tallies[pair.Family] = new();
            Check(pair, tally, complaints);
        }
        foreach ((string family, Tally t) in tallies)
        {
            output.WriteLine(
                FormattableString.Invariant(
                    $"{family}: {t.Cases} cases, {t.Wrong} wrong, {t.Unproven} unproven, {t.Told} told, {t.FallBacks} fall-backs, slowest {t.Slowest:F1} ms"
                )
            );
        }
        complaints.Take(30).ToList().ForEach(output.WriteLine);
        Assert.Empty(complaints);
    }

    /// <summary>Unproven or not commutative once, by a piece's source or a crossing's last digit.</summary>
    [Theory]
    [InlineData(120482)]
    [InlineData(129219)]
    [InlineData(129999)]
    [InlineData(145983)]
    [InlineData(275174)]
    [InlineData(298850)]
    [InlineData(311871)]
    [InlineData(403082)]
    [InlineData(538023)]
    [InlineData(652238)]
    public void Pairs_that_failed_once_are_right(int number) =>
        Assert.Null(HostileCheck.Complaint(HostilePair.Make(number), new Kernel(Tolerances.House)));

    private static void Check(HostilePair pair, Tally tally, List<string> complaints)
    {
        tally.Cases++;
        Kernel kernel = new(Tolerances.House);
        try
        {
            long start = Stopwatch.GetTimestamp();
            string? complaint = HostileCheck.Complaint(pair, kernel);
            tally.Slowest = Math.Max(tally.Slowest, Stopwatch.GetElapsedTime(start).TotalMilliseconds);
            if (complaint is not null)
            {
                tally.Wrong++;
                complaints.Add(FormattableString.Invariant($"{pair.Number} {pair.Family}: ") + complaint);
            }
        }
        catch (KernelException e)
        {
            tally.Unproven++;
            complaints.Add(FormattableString.Invariant($"{pair.Number} {pair.Family}: ") + e.Message);
        }
        tally.Told += kernel.Repairs.IsEmpty ? 0 : 1;
        tally.FallBacks += kernel.Repairs.Any(r => r.Kind == RepairKind.FallBack) ? 1 : 0;
    }
}
