using System.Collections.Immutable;
using CsCheck;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Geometry;

/// <summary>A plate of 60 x 40 with a round hole of 10 in its middle, and a bar beside it, asked by lines and points.</summary>
public sealed class RegionIndexTest
{
    private static readonly Region[] Area =
    [
        new(Contours.Rectangle(new Box2(0, 0, 60, 40)), [Contours.Cw(Contours.Circle(new(30, 20), 10))]),
        Region.From(Contours.Rectangle(new Box2(70, 10, 80, 30))),
    ];

    private static readonly RegionIndex Index = new(Area);

    [Theory]
    [InlineData(5, 5, true)]
    [InlineData(30, 20, false)]
    [InlineData(65, 20, false)]
    [InlineData(75, 20, true)]
    [InlineData(0, 20, true)]
    [InlineData(60, 40, true)]
    [InlineData(40, 20, true)]
    [InlineData(39.999, 20, false)]
    [InlineData(-0.001, 20, false)]
    public void The_boundary_belongs_to_the_inside(double x, double y, bool inside) =>
        Assert.Equal(inside, Index.Contains(new Point2(x, y)));

    // The line through the middle is cut at the plate's sides, the hole's and the bar's.
    [Fact]
    public void A_line_falls_into_its_pieces_inside_in_order()
    {
        ImmutableArray<OpenPath> pieces = Index.Line(new(-10, 20), new(90, 20));

        Assert.Equal([(0, 20), (40, 60), (70, 80)], pieces.Select(p => (p.Start.X, p.End.X)), Near);
        Assert.All(pieces, p => Assert.Equal(20, p.Start.Y, 12));
        Assert.Empty(Index.Line(new(3, 3), new(3, 3)));
        Assert.Empty(Index.Line(new(25, 20), new(35, 22)));

        static bool Near((double A, double B) a, (double A, double B) b) =>
            Math.Abs(a.A - b.A) < 1e-9 && Math.Abs(a.B - b.B) < 1e-9;
    }

    // An edge counts as inside, and a line that only touches the hole stays one way though it is cut there.
    [Fact]
    public void Along_an_edge_and_past_a_touching_circle_a_line_stays_inside()
    {
        Assert.Equal(60, Assert.Single(Index.Line(new(-5, 40), new(65, 40))).Segments.Sum(s => s.Length), 1e-9);
        OpenPath touching = Assert.Single(Index.Line(new(0, 10), new(60, 10)));
        Assert.Equal(60, touching.Segments.Sum(s => s.Length), 1e-9);
    }

    // A circle of 18 about the middle of the left side: its right half lies within the plate and clear of the hole.
    [Fact]
    public void An_arc_is_cut_where_it_leaves()
    {
        OpenPath circle = new(Contours.Circle(new(0, 20), 18).Segments);

        ImmutableArray<OpenPath> pieces = Index.Pieces(circle);

        Assert.Equal(18 * Math.PI, pieces.Sum(p => p.Segments.Sum(s => s.Length)), 1e-9);
        Assert.All(pieces.SelectMany(p => p.Segments), s => Assert.True(Measure.PointAt(s, 0.5).X > 0));
    }

    /// <summary>Of a line's pieces those near a point, the same as all of them looked through.</summary>
    [Fact]
    public void Pieces_near_a_point_are_those_of_the_whole_line_that_come_near_it() =>
        Gen.Select(
                Gen.Double[-10, 90],
                Gen.Double[-10, 50],
                Gen.Double[-10, 90],
                Gen.Double[-10, 50],
                Gen.Double[0, 80],
                Gen.Double[0, 30]
            )
            .Sample(
                (x1, y1, x2, y2, px, distance) =>
                {
                    Point2 a = new(x1, y1);
                    Point2 b = new(x2, y2);
                    Point2 p = new(px, 20);
                    OpenPath[] wanted = [.. Index.Line(a, b).Where(l => Measure.Distance(p, l) <= distance)];
                    OpenPath[] found = [.. Index.LineAt(a, b, p, distance)];
                    return wanted.Length == found.Length
                        && wanted.Zip(found).All(w => w.First.Segments.SequenceEqual(w.Second.Segments));
                },
                iter: 300,
                threads: 1
            );

    [Fact]
    public void The_nearest_point_is_on_the_nearest_boundary()
    {
        Assert.Equal(0, Index.Closest(new(34, 20)).DistanceTo(new(40, 20)), 1e-12);
        Assert.Equal(0, Index.Closest(new(66, 20)).DistanceTo(new(70, 20)), 1e-12);
        Assert.Equal(0, Index.Closest(new(-3, -4)).DistanceTo(default), 1e-12);
    }

    [Theory]
    [InlineData(61, 0, 69, 40, false)]
    [InlineData(61, 0, 71, 40, true)]
    [InlineData(2, 2, 8, 8, false)]
    [InlineData(-5, -5, 1, 1, true)]
    public void A_box_is_touched_where_a_boundary_may_run_through_it(
        double x1,
        double y1,
        double x2,
        double y2,
        bool touched
    ) => Assert.Equal(touched, Index.Touches(new Box2(x1, y1, x2, y2)));

    // Against every curve asked one by one; seventeen loops fill three levels of the tree and leave the last node part empty.
    [Fact]
    public void Nearest_nearer_and_winding_are_those_of_all_curves()
    {
        Contour[] loops =
        [
            .. Enumerable.Range(0, 17).Select(i => Outlines.Circle(new(13 * i, 7 * (i % 3)), 4 + (i % 2))),
        ];
        Curve[] curves = [.. loops.SelectMany(c => c.Segments).Select(s => Curve.From(s))];
        CurveIndex index = new();
        index.Build(curves, curves.Length, 1e-7);
        Gen.Select(Gen.Double[-20, 240], Gen.Double[-20, 40])
            .Where((x, y) => curves.Min(c => c.Distance2(new Point2(x, y))) > 1e-6)
            .Sample(
                (x, y) =>
                {
                    Point2 p = new(x, y);
                    double least = curves.Min(c => Math.Sqrt(c.Distance2(p)));
                    int round = loops.Count(l => p.DistanceTo(Measure.Bounds(l).Middle) < Measure.Bounds(l).Width / 2);
                    return Math.Abs(index.Nearest(p, double.PositiveInfinity, out int at) - least) < 1e-12
                        && Math.Abs(Math.Sqrt(curves[at].Distance2(p)) - least) < 1e-12
                        && index.Nearest(p, 0.99 * least, out int none) == 0.99 * least
                        && none == -1
                        && !index.AnyNearer(p, 0.99 * least)
                        && index.AnyNearer(p, 1.01 * least)
                        && index.Winding(p) == round;
                },
                iter: 300
            );
    }

    [Fact]
    public void Pairs_and_lines_touch_as_boxes_tried_one_by_one_do()
    {
        Curve[] curves =
        [
            .. Enumerable
                .Range(0, 23)
                .Select(i => new Point2((37 * i) % 50, (23 * i) % 41))
                .Select((p, i) => Curve.Line(p, p + new Point2(3 + (i % 7), (i % 5) - 2))),
        ];
        CurveIndex index = new();
        index.Build(curves, curves.Length, 0);
        List<long> pairs = [];
        index.TouchingPairs(pairs);
        long[] wanted =
        [
            .. from i in Enumerable.Range(0, curves.Length)
            from j in Enumerable.Range(i + 1, curves.Length - i - 1)
            where Touch(curves[i].Box(), curves[j].Box())
            select ((long)i << 32) | (uint)j,
        ];
        Assert.NotEmpty(wanted);
        Assert.Equal(wanted, pairs.Order());
        List<int> found = [];
        index.TouchingLine(new(0, 0), new(50, 40), 0.5, found);
        Assert.All(
            Enumerable
                .Range(0, curves.Length)
                .Where(i => Crossings.Find(Curve.Line(default, new(50, 40)), curves[i], 1e-7, new Point2[4]) > 0),
            i => Assert.Contains(i, found)
        );
        Assert.True(found.Count < curves.Length / 2);

        static bool Touch(Box2 a, Box2 b) =>
            a.MinX <= b.MaxX && b.MinX <= a.MaxX && a.MinY <= b.MaxY && b.MinY <= a.MaxY;
    }
}
