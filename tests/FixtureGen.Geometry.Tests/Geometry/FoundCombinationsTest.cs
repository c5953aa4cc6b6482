using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Tests.Hostile;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Geometry;

/// <summary>Combinations that came out wrong once: edges and arcs that lie within a hair of each other.</summary>
public sealed class FoundCombinationsTest
{
    private readonly Kernel _kernel = new(Tolerances.House);

    private static Region Polygon(params Point2[] points) => Region.From(Contours.FromPoints(points));

    private static Region Plate(double w, double h) => Polygon(new(0, 0), new(w, 0), new(w, h), new(0, h));

    private static Region Notched(double w, double h, double low) =>
        Polygon(new(0, low), new(40, low), new(40, 20), new(46, 20), new(46, low), new(w, low), new(w, h), new(0, h));

    // The difference was empty: the runs along the bottom were taken for one by a single point.
    [Theory]
    [InlineData(1.5e-7)]
    [InlineData(1e-6)]
    [InlineData(3e-6)]
    [InlineData(9e-6)]
    [InlineData(-3e-6)]
    public void A_plate_less_its_notched_copy_a_hair_higher_is_the_notch(double hair)
    {
        Region[] a = [Plate(100, 60)];
        Region[] b = [Notched(100, 60, hair)];
        double notch = (6 * (20 - hair)) + (hair > 0 ? 100 * hair : 0);

        Assert.Equal(notch, Measure.Area(_kernel.Difference(a, b)), 2e-4);
        Assert.Equal(Math.Max(0, -94 * hair), Measure.Area(_kernel.Difference(b, a)), 2e-4);
        Assert.Equal(6000 + Math.Max(0, -94 * hair), Measure.Area(_kernel.Union(a, b)), 2e-4);
        Assert.Equal(Measure.Area(_kernel.Union(a, b)), Measure.Area(_kernel.Union(b, a)), 1e-9);
    }

    // Of 1,000 with 6, 5 and 4 decimals 354, 493 and 171 were wrong.
    [Theory]
    [InlineData(6)]
    [InlineData(5)]
    [InlineData(4)]
    [Trait("Speed", "Slow")]
    public void Turned_plates_with_rounded_corners_are_combined_exactly(int decimals)
    {
        var random = new Random(decimals);
        for (int i = 0; i < LongRun.Cases(100); i++)
        {
            Pose pose = new(random.NextDouble() * 50, random.NextDouble() * 50, random.NextDouble() * 360);
            Region[] a = [Rounded(Transform.Apply(pose, Plate(100, 60)), decimals)];
            Region[] b = [Rounded(Transform.Apply(pose, Notched(100, 60, 0)), decimals)];
            double[] exact = RationalOverlay.Areas(a, b, [(x, y) => x > 0 && y <= 0, (x, y) => x > 0 || y > 0]);

            Assert.Equal(exact[0], Measure.Area(_kernel.Difference(a, b)), 6e-4);
            Assert.Equal(exact[1], Measure.Area(_kernel.Union(a, b)), 6e-4);
        }
    }

    // Tips under 1.4e-6 rad lost their sign.
    [Theory]
    [InlineData(1e-3)]
    [InlineData(1e-4)]
    [InlineData(1e-5)]
    [InlineData(2e-6)]
    public void A_slit_with_a_needle_s_tip_is_cut_out(double wide)
    {
        Region slit = Polygon(new(20, 30), new(100, 30 - wide), new(100, 30 + wide));

        Assert.Equal(80 * wide, Measure.Area(_kernel.Intersect([Plate(90, 60)], [slit])) * 64 / 49, 1e-3 * wide);
        Assert.Equal(5400 - (49.0 / 64 * 80 * wide), Measure.Area(_kernel.Difference([Plate(90, 60)], [slit])), 1e-4);
    }

    // The lens of two arcs over one chord of 40: 2/3 of chord times height, flat as it is.
    [Theory]
    [InlineData(1e-3)]
    [InlineData(1e-5)]
    [InlineData(1e-6)]
    public void A_lens_thinner_than_a_hair_is_what_two_discs_share(double deep)
    {
        Region[] a = [Region.From(Contours.Circle(new(0, 0), 10))];
        Region[] b = [Region.From(Contours.Circle(new(20 - deep, 0), 10))];
        double half = Math.Acos(1 - (deep / 20));
        double lens = 100 * ((2 * half) - Math.Sin(2 * half));

        Assert.Equal(lens, Measure.Area(_kernel.Intersect(a, b)), 1e-7 * 40 * half);
        Assert.Equal((200 * Math.PI) - lens, Measure.Area(_kernel.Union(a, b)), 1e-6);
    }

    private static Region Rounded(Region r, int decimals) =>
        Region.From(
            Contours.FromPoints([
                .. r.Outer.Segments.Select(s => new Point2(
                    Math.Round(s.Start.X, decimals),
                    Math.Round(s.Start.Y, decimals)
                )),
            ])
        );
}
