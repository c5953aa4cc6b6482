using System.Collections.Immutable;
using CsCheck;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Properties;

public sealed class StrokePropertyTest(ITestOutputHelper output)
{
    /// <summary>A point belongs to the stroke where it is nearer to the path than half the width, and nowhere else.</summary>
    [Fact]
    [Trait("Speed", "Slow")]
    public void Stroke_is_everything_within_half_the_width_of_the_path()
    {
        int repaired = 0;
        Gen.Int[0, 2_000_000_000]
            .Sample(
                n =>
                {
                    ImmutableArray<KernelRepair> repairs = Stroked(n);
                    Interlocked.Add(ref repaired, repairs.All(r => r.Kind == RepairKind.SideTest) ? 0 : 1);
                },
                iter: LongRun.Cases(2000)
            );
        output.WriteLine(FormattableString.Invariant($"{repaired} repaired"));
        Assert.True(repaired <= LongRun.Cases(2000) / 100);
    }

    /// <summary>
    /// A cusp whose two parallels cross twice round a small hole: shortened to the wrong crossing, the hole was lost. An arc of
    /// the width's radius at the end: a step over its outer parallel, which trimming had consumed, stood for the round end too.
    /// </summary>
    [Theory]
    [InlineData(1118396803)]
    [InlineData(1058839797)]
    public void Strokes_that_failed_once_are_right(int number) => Stroked(number);

    private static ImmutableArray<KernelRepair> Stroked(int number)
    {
        (OpenPath path, double width) = RandomPaths.Make(number);
        var kernel = new Kernel(Tolerances.House);
        ImmutableArray<Region> result = kernel.Stroke(path, width);
        Assert.Null(Complaint(path, width / 2, result, OffsetOracle.Slack));
        return kernel.Repairs;
    }

    private static string? Complaint(OpenPath path, double r, IReadOnlyList<Region> result, double slack)
    {
        Segment[] made = [.. result.SelectMany(x => x.Contours).SelectMany(c => c.Segments)];
        foreach (Segment s in path.Segments.Concat(made))
        {
            Point2 p = Measure.PointAt(s, 0.41);
            Point2 left = Measure.TangentAt(s, 0.41).Left;
            foreach (
                double side in (double[])
                    [2 * slack, -2 * slack, r - (2 * slack), -r + (2 * slack), r + (2 * slack), -r - (2 * slack)]
            )
            {
                Point2 q = p + (left * side);
                double d = path.Segments.Min(f => Measure.Distance(q, f));
                if (Math.Abs(d - r) > slack && d < r != Inside.Contains(result, q))
                {
                    return FormattableString.Invariant($"({q.X:R}, {q.Y:R}) at {d:R} of {r:R} is on the wrong side");
                }
            }
        }
        return null;
    }
}
