using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Geometry;

/// <summary>The proof must let right results pass and stop every kind of wrong one, also of loops of whose making nothing is known.</summary>
public sealed class OffsetProofTest
{
    private static readonly Slack House = Slack.From(Tolerances.House);
    private static readonly Region Plate = new(
        Contours.RoundedRectangle(new(0, 0, 100, 60), 8),
        [Contours.Reverse(Contours.Circle(new(30, 30), 12)), Contours.Reverse(Contours.Circle(new(70, 30), 12))]
    );

    [Theory]
    [InlineData(3)]
    [InlineData(-3)]
    public void Right_results_pass(double d) => Assert.True(Proves(d, new Kernel(Tolerances.House).Offset(Plate, d)));

    [Theory]
    [InlineData(3, 3.00002)]
    [InlineData(-3, -2.9999)]
    [InlineData(-3, -6)]
    public void A_wrong_distance_is_stopped(double d, double made) =>
        Assert.False(Proves(d, new Kernel(Tolerances.House).Offset(Plate, made)));

    [Theory]
    [InlineData(3)]
    [InlineData(-3)]
    public void A_lost_hole_is_stopped(double d)
    {
        Region right = new Kernel(Tolerances.House).Offset(Plate, d)[0];

        Assert.False(Proves(d, [right with { Holes = [right.Holes[0]] }]));
        Assert.False(Proves(d, [right with { Holes = [] }]));
    }

    // Teeth and gaps four wide vanish at 3, so the area's bounds have room for what is lost, and only the scan lines, at
    // x = 41.4 and y = 49.7 here, can tell.
    [Theory]
    [InlineData(3, 41, 20)]
    [InlineData(3, 80, 45)]
    [InlineData(-3, 41, 20)]
    [InlineData(-3, 80, 45)]
    public void A_hole_lost_where_the_areas_have_room_is_stopped(double d, double x, double y)
    {
        Region comb = new(d > 0 ? Gaps : Teeth, [Contours.Reverse(Contours.Circle(new(x, y), 8))]);
        Region right = Assert.Single(new Kernel(Tolerances.House).Offset(comb, d));

        Assert.True(Proves(d, [right], comb));
        Assert.Single(right.Holes);
        Assert.False(Proves(d, [right with { Holes = [] }], comb));
    }

    [Theory]
    [InlineData(3)]
    [InlineData(-3)]
    public void Nothing_in_place_of_something_is_stopped(double d) => Assert.False(Proves(d, []));

    [Fact]
    public void Something_twice_is_stopped()
    {
        Region right = new Kernel(Tolerances.House).Offset(Plate, -3)[0];

        Assert.False(Proves(-3, [right, right]));
    }

    [Fact]
    public void The_fall_back_is_proven_too_and_noted()
    {
        var kernel = new Kernel(Tolerances.House, distrust: true);
        var exact = new Kernel(Tolerances.House);

        foreach (double d in (double[])[3, -3])
        {
            double area = Measure.Area(exact.Offset(Plate, d));
            var result = kernel.Offset(Plate, d);
            Assert.Equal(area, Measure.Area(result), 1.0);
            Assert.Contains(result.SelectMany(r => r.Contours).SelectMany(c => c.Segments), s => s.IsArc);
        }
        Assert.Equal(Measure.Area(exact.Stroke(Plate.Outer, 4)), Measure.Area(kernel.Stroke(Plate.Outer, 4)), 0.5);
        Assert.Equal(3, kernel.Repairs.Count(r => r.Kind == RepairKind.FallBack));
    }

    /// <summary>Right by definition, but not proven once: the area's bound took corners that stand for arcs for sharp.</summary>
    [Theory]
    [InlineData(140110)]
    public void Offsets_by_definition_that_failed_once_are_proven(int number)
    {
        OffsetCase c = RandomRegions.Make(number);

        var result = new Kernel(Tolerances.House, distrust: true).Offset(c.Regions, c.Distance);

        Assert.Null(OffsetOracle.ByDefinition(c.Regions, c.Distance, result, OffsetOracle.Slack));
    }

    private static readonly Contour Teeth = Comb(first: 0, wide: 4);

    private static readonly Contour Gaps = Comb(first: 4, wide: 16);

    /// <summary>100 x 60 and five teeth up to 120 on it, 20 apart.</summary>
    private static Contour Comb(double first, double wide) =>
        Contours.FromPoints([
            new(0, 0),
            new(100, 0),
            new(100, 60),
            .. Enumerable
                .Range(0, 5)
                .Select(i => 80 - (20 * i) + first)
                .SelectMany(x => new Point2[] { new(x + wide, 60), new(x + wide, 120), new(x, 120), new(x, 60) }),
            new(0, 60),
        ]);

    private static bool Proves(double d, IReadOnlyList<Region> result) => Proves(d, result, Plate);

    private static bool Proves(double d, IReadOnlyList<Region> result, Region from)
    {
        var source = new OffsetSource(House);
        source.Begin(reversed: d > 0);
        source.AddAll([from]);
        source.End();
        return new OffsetProof(House).ProvesAlone(source, Math.Abs(d), Loop.From(result), moved: 0);
    }
}
