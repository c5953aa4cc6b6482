using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Geometry;

/// <summary>A line of length 10 with three quarters of a circle of radius 3 at its end: the arc crosses the line again at x = 4.</summary>
public sealed class CutterTest
{
    private const double Snap = 1e-7;
    private static readonly Point2 From = new(0, 0);
    private static readonly Point2 Corner = new(10, 0);

    [Fact]
    public void The_curve_that_follows_cuts_its_neighbour_where_they_cross_again()
    {
        Cutter cutter = Cut(Curve.Line(From, Corner), Curve.Arc(Corner, new Point2(7, -3), new Point2(7, 0), 3, 1));

        Assert.Equal([0, 0, 1, 1, 1], Origins(cutter));
        Assert.Equal(4, Ends(cutter).Count(p => p.DistanceTo(new(4, 0)) < 1e-9));
        Assert.Equal(0, cutter.Moved);
        Assert.Equal(1, cutter.Rounds);
    }

    [Fact]
    public void Curves_that_only_share_their_end_stay_whole()
    {
        Cutter cutter = Cut(Curve.Line(From, Corner), Curve.Arc(Corner, new Point2(7, 3), new Point2(7, 0), 3, 1));

        Assert.Equal([0, 1], Origins(cutter));
    }

    // The second line passes a hair above the first one's end: it is cut there, and its halves run through that end.
    [Theory]
    [InlineData(5e-8)]
    [InlineData(-9e-8)]
    public void An_end_within_the_snapping_distance_of_a_line_cuts_it(double hair)
    {
        Cutter cutter = new();
        cutter.Clear();
        Put(cutter, Curve.Line(From, Corner));
        Put(cutter, Curve.Line(new(10 + hair, -5), new(10 + hair, 5)));

        Assert.True(cutter.Cut(Snap, sorted: true));

        Assert.Equal([0, 1, 1], Origins(cutter));
        Assert.Equal(3, Ends(cutter).Count(p => p == Corner));
        Assert.InRange(cutter.Moved, Math.Abs(hair) * 0.99, 2 * Snap);
    }

    // Chains of points nearer than the distance do not run together: 40 of them 6e-8 apart keep their length.
    [Fact]
    public void A_chain_of_short_edges_is_not_drawn_into_one_point()
    {
        Curve[] chain = [.. Enumerable.Range(0, 40).Select(i => Curve.Line(new(i * 6e-8, 0), new((i + 1) * 6e-8, 0)))];

        Cutter cutter = Cut(chain);

        Point2[] ends = Ends(cutter);
        Assert.True(ends.Length > 20);
        Assert.Equal(40 * 6e-8, ends.Max(p => p.X) - ends.Min(p => p.X), 2 * Snap);
        Assert.InRange(cutter.Moved, 1e-9, 2 * Snap);
    }

    private static Cutter Cut(params Curve[] chain)
    {
        Cutter cutter = new();
        cutter.Clear();
        LoopLoader loader = new(cutter);
        int at = cutter.Vertices.Add(chain[0].A);
        foreach (Curve c in chain)
        {
            int end = cutter.Vertices.Add(c.B);
            loader.Put(c, at, end);
            at = end;
        }
        Assert.True(cutter.Cut(Snap, sorted: true));
        return cutter;
    }

    private static void Put(Cutter cutter, Curve c) =>
        new LoopLoader(cutter).Put(c, cutter.Vertices.Add(c.A), cutter.Vertices.Add(c.B));

    private static int[] Origins(Cutter cutter) => cutter.Pieces.Origins[..cutter.Pieces.Count];

    private static Point2[] Ends(Cutter cutter) =>
        [.. cutter.Pieces.List.Span.ToArray().SelectMany(c => new[] { c.A, c.B })];
}
