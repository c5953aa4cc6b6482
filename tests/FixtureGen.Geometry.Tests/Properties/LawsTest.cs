using System.Collections.Immutable;
using CsCheck;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Properties;

/// <summary>
/// Laws of Minkowski sums, openings and sets, as in J. Serra, Image Analysis and Mathematical Morphology, 1982: two ways to
/// one region, which may differ by slivers; the book is named from memory. 300 random cases each, as many as FIXTUREGEN_CASES
/// says in a long run.
/// </summary>
public sealed class LawsTest
{
    // Of each step and both ways together, mm: how far a boundary may lie off.
    private const double Off = 1e-5;

    private static readonly Gen<OffsetCase> Cases = Gen.Int[0, 2_000_000_000].Select(RandomRegions.Make);

    [Fact]
    public void Growing_twice_is_growing_by_the_sum() =>
        Cases.Sample(
            c =>
            {
                var kernel = new Kernel(Tolerances.House);
                double d = Math.Abs(c.Distance);
                return Same(
                    kernel,
                    kernel.Offset(kernel.Offset(c.Regions, 0.37 * d), 0.63 * d),
                    kernel.Offset(c.Regions, d)
                );
            },
            iter: LongRun.Cases(300)
        );

    [Fact]
    [Trait("Speed", "Slow")]
    public void Opening_what_is_open_changes_nothing() => Cases.Sample(IsOpenOnce, iter: LongRun.Cases(300));

    /// <summary>The second opening could not be proven once.</summary>
    [Fact]
    public void The_opening_that_could_not_be_proven_twice_is() =>
        Assert.True(IsOpenOnce(RandomRegions.Make(769947906)));

    private static bool IsOpenOnce(OffsetCase c)
    {
        var kernel = new Kernel(Tolerances.House);
        double d = Math.Abs(c.Distance);
        var open = kernel.Open(c.Regions, d);
        return Same(kernel, kernel.Open(open, d), open);
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void The_rest_of_a_union_is_what_both_rests_share() =>
        Gen.Select(Cases, Cases)
            .Sample(
                (a, b) =>
                {
                    var kernel = new Kernel(Tolerances.House);
                    Region[] all = [Region.From(Contours.Rectangle(Measure.Bounds(a.Regions.Concat(b.Regions))))];
                    return Same(
                        kernel,
                        kernel.Difference(all, kernel.Union(a.Regions, b.Regions)),
                        kernel.Intersect(kernel.Difference(all, a.Regions), kernel.Difference(all, b.Regions))
                    );
                },
                iter: LongRun.Cases(300)
            );

    private static bool Same(Kernel kernel, ImmutableArray<Region> a, ImmutableArray<Region> b)
    {
        double apart = Measure.Area(kernel.Difference(a, b)) + Measure.Area(kernel.Difference(b, a));
        double allowed = Off * (1 + a.Concat(b).Sum(Measure.Length));
        return apart <= allowed
            ? true
            : throw new InvalidOperationException(FormattableString.Invariant($"{apart} mm2 apart, {allowed} allowed"));
    }
}
