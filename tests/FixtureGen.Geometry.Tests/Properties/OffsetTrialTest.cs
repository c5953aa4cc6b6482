using System.Diagnostics;
using System.Globalization;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Properties;

/// <summary>
/// The random trial: 300 cases by default, as many as FIXTUREGEN_TRIAL says (with FIXTUREGEN_TRIAL_FROM as the first number)
/// in a long run, which prints wrong, repaired and slowest.
/// </summary>
[Trait("Speed", "Slow")]
public sealed class OffsetTrialTest(ITestOutputHelper output)
{
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Random_offsets_agree_with_the_definition_and_with_the_polygon_library(bool byFallBack)
    {
        int count = LongRun.Setting("FIXTUREGEN_TRIAL", 300);
        int from = LongRun.Setting("FIXTUREGEN_TRIAL_FROM", 0);
        List<string> wrong = [];
        SortedDictionary<string, int> repairs = new(StringComparer.Ordinal);
        (double Ms, string Case) slowest = (0, "");
        for (int i = from; i < from + count; i++)
        {
            OffsetCase c = RandomRegions.Make(i);
            var kernel = new Kernel(Tolerances.House, distrust: byFallBack);
            long start = Stopwatch.GetTimestamp();
            IReadOnlyList<Region> result;
            try
            {
                result = kernel.Offset(c.Regions, c.Distance);
            }
            catch (KernelException e)
            {
                wrong.Add(Name(c) + ": " + e.Message);
                continue;
            }
            double ms = Stopwatch.GetElapsedTime(start).TotalMilliseconds;
            slowest = ms > slowest.Ms && i > from ? (ms, Name(c)) : slowest;
            foreach (KernelRepair r in kernel.Repairs)
            {
                repairs[r.Kind + " in " + c.Kind] = repairs.GetValueOrDefault(r.Kind + " in " + c.Kind) + 1;
            }
            if (Complaint(c, result) is { } complaint)
            {
                wrong.Add(Name(c) + ": " + complaint + " " + string.Join(",", kernel.Repairs));
            }
        }
        foreach ((string kind, int n) in repairs)
        {
            output.WriteLine(kind + ": " + n.ToString(CultureInfo.InvariantCulture));
        }
        output.WriteLine(
            FormattableString.Invariant(
                $"{count} cases, {wrong.Count} wrong, slowest {slowest.Ms:F1} ms {slowest.Case}"
            )
        );
        wrong.Take(40).ToList().ForEach(output.WriteLine);
        Assert.Empty(wrong);
    }

    private static string? Complaint(OffsetCase c, IReadOnlyList<Region> result)
    {
        if (OffsetOracle.ByDefinition(c.Regions, c.Distance, result, OffsetOracle.Slack) is { } wrong)
        {
            return wrong;
        }
        (double difference, double allowed) = OffsetOracle.ByBuffer(c.Regions, c.Distance, result);
        return difference > allowed
            ? FormattableString.Invariant($"area off by {difference:F4} where {allowed:F4} is allowed")
            : null;
    }

    private static string Name(OffsetCase c) =>
        FormattableString.Invariant($"case {c.Number} ({c.Kind}) by {c.Distance}");
}
