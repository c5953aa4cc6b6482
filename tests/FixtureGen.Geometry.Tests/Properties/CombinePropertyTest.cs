using CsCheck;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Properties;

/// <summary>
/// Two random sets of regions, near each other or one made from the other, so that edges and arcs often coincide.
/// </summary>
[Trait("Speed", "Slow")]
public sealed class CombinePropertyTest(ITestOutputHelper output)
{
    private static readonly (string Name, Func<bool, bool, bool> Wanted)[] Operations =
    [
        ("union", (a, b) => a || b),
        ("intersect", (a, b) => a && b),
        ("difference", (a, b) => a && !b),
    ];

    [Fact]
    public void Combinations_agree_with_the_definition_and_their_areas_add_up()
    {
        int repaired = 0;
        Gen.Int[0, 2_000_000_000]
            .Sample(
                n =>
                {
                    (Region[] a, Region[] b) = Pair(n);
                    var kernel = new Kernel(Tolerances.House);
                    IReadOnlyList<Region>[] results =
                    [
                        kernel.Union(a, b),
                        kernel.Intersect(a, b),
                        kernel.Difference(a, b),
                    ];
                    double[] areas = [.. results.Select(r => Measure.Area(r))];
                    double slop = 1e-4 * (1 + a.Concat(b).Sum(Measure.Length));
                    Assert.Equal(Measure.Area(a) + Measure.Area(b), areas[0] + areas[1], slop);
                    Assert.Equal(Measure.Area(a), areas[1] + areas[2], slop);
                    for (int i = 0; i < results.Length; i++)
                    {
                        Assert.Null(CombineOracle.Complaint(a, b, Operations[i].Wanted, results[i]));
                    }
                    Interlocked.Add(ref repaired, kernel.Repairs.Length);
                },
                iter: LongRun.Cases(1000)
            );
        output.WriteLine(FormattableString.Invariant($"{repaired} repairs"));
        Assert.True(repaired <= LongRun.Cases(1000) / 100);
    }

    private static (Region[] A, Region[] B) Pair(int number)
    {
        var random = new Random(number);
        Region[] a = RandomRegions.Basic(random.Next(), random.Next(6), random).Regions;
        Pose moved = new(random.Next(5) * 5, random.Next(3) * 5, random.Next(4) * 90);
        Region[] b = random.Next(3) switch
        {
            0 => [.. a.Select(r => Transform.Apply(moved, r))],
            1 => [.. new Kernel(Tolerances.House).Offset(a, (random.Next(9) - 4) * 0.5)],
            _ => RandomRegions.Basic(random.Next(), random.Next(6), random).Regions,
        };
        return (a, b);
    }
}
