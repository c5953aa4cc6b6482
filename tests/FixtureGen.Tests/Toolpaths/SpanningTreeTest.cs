using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Toolpaths;

/// <summary>The bound against every order there is.</summary>
public sealed class SpanningTreeTest
{
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public void Bound_is_never_above_the_shortest_path_and_near_it(int seed)
    {
        Random random = new(seed);
        Point2[] p =
        [
            .. Enumerable.Range(0, 7).Select(_ => new Point2(random.NextDouble() * 100, random.NextDouble() * 60)),
        ];
        double shortest = Orders([.. Enumerable.Range(0, 7)])
            .Min(o => Enumerable.Range(1, 6).Sum(k => p[o[k - 1]].DistanceTo(p[o[k]])));

        double bound = SpanningTree.LeastPath(p.Length, (a, b) => p[a].DistanceTo(p[b]), paired: false);

        Assert.InRange(bound, 0.9 * shortest, shortest + 1e-9);
    }

    [Theory]
    [InlineData(5)]
    [InlineData(6)]
    [InlineData(7)]
    public void Strokes_cut_from_either_end_are_bounded_too(int seed)
    {
        Random random = new(seed);
        Point2[] p =
        [
            .. Enumerable.Range(0, 12).Select(_ => new Point2(random.NextDouble() * 40, random.NextDouble() * 10)),
        ];
        double shortest = Orders([.. Enumerable.Range(0, 6)])
            .Min(o =>
                Enumerable
                    .Range(0, 64)
                    .Min(turned =>
                        Enumerable.Range(1, 5).Sum(k => End(o[k - 1], turned).DistanceTo(End(o[k], ~turned)))
                    )
            );

        double bound = SpanningTree.LeastPath(p.Length, (a, b) => p[a].DistanceTo(p[b]), paired: true);

        Assert.InRange(bound, 0.85 * shortest, shortest + 1e-9);

        Point2 End(int stroke, int turned) => p[(2 * stroke) + ((turned >> stroke) & 1)];
    }

    private static IEnumerable<int[]> Orders(int[] items) =>
        items.Length == 1
            ? [items]
            : items.SelectMany(i => Orders([.. items.Where(x => x != i)]).Select(rest => (int[])[i, .. rest]));
}
