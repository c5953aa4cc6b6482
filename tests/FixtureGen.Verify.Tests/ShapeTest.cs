using CsCheck;
using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Tests.Support;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>The judge's own plane geometry against points set down densely along the pieces, and by hand at its corners.</summary>
public sealed class ShapeTest
{
    private const int Dense = 2000;

    private static readonly Gen<Point2> Point = Gen.Select(
        Gen.Double[-10, 10],
        Gen.Double[-10, 10],
        (x, y) => new Point2(x, y)
    );

    private static readonly Gen<Piece> AnyPiece = Gen.OneOf(
        Gen.Select(Point, Point, Piece.Line),
        Gen.Select(
            Point,
            Gen.Double[0.5, 8],
            Gen.Double[-3, 3],
            Gen.OneOf(Gen.Double[0.2, 6.2], Gen.Double[-6.2, -0.2]),
            (c, r, from, sweep) =>
                Piece.Arc(
                    new Point2(c.X + (r * Math.Cos(from)), c.Y + (r * Math.Sin(from))),
                    new Point2(c.X + (r * Math.Cos(from + sweep)), c.Y + (r * Math.Sin(from + sweep))),
                    c,
                    sweep
                )
        )
    );

    /// <summary>No point is nearer than the distance says, and the distance is that of the two points it names.</summary>
    [Fact]
    [Trait("Speed", "Slow")]
    public void Distance_of_two_pieces_is_the_least_of_their_points() =>
        Gen.Select(AnyPiece, AnyPiece)
            .Sample(
                (a, b) =>
                {
                    (double distance, double s, double t) = Distance.Between(a, b);
                    Assert.Equal(a.PointAt(s).DistanceTo(b.PointAt(t)), distance, 9);
                    double least = Enumerable
                        .Range(0, Dense + 1)
                        .Min(i => Distance.To(b, a.PointAt((double)i / Dense)));
                    Assert.InRange(distance, least - (a.Length / Dense) - 1e-9, least + 1e-9);
                },
                iter: 300,
                threads: 1,
                seed: "0000Zr6YZjJ4"
            );

    [Fact]
    public void Distance_to_a_point_is_the_least_of_the_pieces_points() =>
        Gen.Select(AnyPiece, Point)
            .Sample(
                (piece, p) =>
                {
                    double least = Enumerable
                        .Range(0, Dense + 1)
                        .Min(i => piece.PointAt((double)i / Dense).DistanceTo(p));
                    Assert.InRange(Distance.To(piece, p), least - (piece.Length / Dense) - 1e-9, least + 1e-9);
                    Assert.Equal(Distance.To(piece, p), piece.PointAt(Distance.Nearest(piece, p)).DistanceTo(p), 9);
                },
                iter: 300,
                threads: 1,
                seed: "0000Zr6YZjJ4"
            );

    /// <summary>Arcs about neighbouring middles, nearest on the line through both: outside, and one inside the other.</summary>
    [Theory]
    [InlineData(12, 3, 4, 5)]
    [InlineData(1, 3, 8, 4)]
    [InlineData(1, 8, 3, 4)]
    public void Circles_are_nearest_on_the_line_of_their_middles(double away, double r, double q, double distance)
    {
        Piece[] first = [.. TestShop.Circle(0, 0, r).Segments.Select(Piece.From)];
        Piece[] second = [.. TestShop.Circle(away, 0, q).Segments.Select(Piece.From)];
        Assert.Equal(distance, first.Min(a => second.Min(b => Distance.Between(a, b).Distance)), 9);
    }

    [Fact]
    public void A_part_of_a_piece_runs_along_the_piece() =>
        Gen.Select(AnyPiece, Gen.Double[0, 0.5], Gen.Double[0.5, 1], Gen.Double[0, 1])
            .Sample(
                (piece, from, to, t) =>
                {
                    Point2 wanted = piece.PointAt(from + ((to - from) * t));
                    Assert.InRange(piece.Part(from, to).PointAt(t).DistanceTo(wanted), 0, 1e-9);
                },
                iter: 200,
                threads: 1,
                seed: "0000Zr6YZjJ4"
            );

    /// <summary>A line through a circle of 3 mm, and two such circles 4 mm apart, by hand; each named on both pieces.</summary>
    [Theory]
    [InlineData(0, 2)]
    [InlineData(2.5, 2)]
    [InlineData(3.1, 0)]
    public void A_line_crosses_a_circle_at_two_points(double y, int count)
    {
        Piece line = Piece.Line(new Point2(-10, y), new Point2(10, y));
        Piece[] circle = [.. TestShop.Circle(0, 0, 3).Segments.Select(Piece.From)];
        double x = Math.Sqrt(Math.Max(0, 9 - (y * y)));
        Point2[] on =
        [
            .. circle.SelectMany(a => Crossed(a, line).Select(c => a.PointAt(c.S))).DistinctBy(p => Math.Round(p.X, 6)),
        ];
        Point2[] along =
        [
            .. circle
                .SelectMany(a => Crossed(line, a).Select(c => line.PointAt(c.S)))
                .DistinctBy(p => Math.Round(p.X, 6)),
        ];
        Assert.Equal(count, on.Length);
        Assert.Equal(count, along.Length);
        Assert.All(on.Concat(along), p => Assert.InRange(p.DistanceTo(new Point2(Math.Sign(p.X) * x, y)), 0, 1e-9));
    }

    private static (double S, double T)[] Crossed(Piece a, Piece b)
    {
        Span<(double S, double T)> found = stackalloc (double, double)[Crossings.Most];
        return found[..Crossings.Find(a, b, found)].ToArray();
    }

    [Fact]
    public void Crossings_are_one_point_of_both_pieces() =>
        Gen.Select(AnyPiece, AnyPiece)
            .Sample(
                (a, b) =>
                    Assert.All(Crossed(a, b), c => Assert.InRange(a.PointAt(c.S).DistanceTo(b.PointAt(c.T)), 0, 1e-6)),
                iter: 500,
                threads: 1,
                seed: "0000Zr6YZjJ4"
            );

    [Fact]
    public void A_box_holds_its_piece_and_no_more() =>
        AnyPiece.Sample(
            piece =>
            {
                Box2 box = piece.Bounds();
                Point2[] points = [.. Enumerable.Range(0, Dense + 1).Select(i => piece.PointAt((double)i / Dense))];
                double step = piece.Length / Dense;
                Assert.InRange(points.Min(p => p.X), box.MinX - 1e-9, box.MinX + step);
                Assert.InRange(points.Max(p => p.X), box.MaxX - step, box.MaxX + 1e-9);
                Assert.InRange(points.Min(p => p.Y), box.MinY - 1e-9, box.MinY + step);
                Assert.InRange(points.Max(p => p.Y), box.MaxY - step, box.MaxY + 1e-9);
            },
            iter: 300,
            threads: 1,
            seed: "0000Zr6YZjJ4"
        );

    /// <summary>A ray through corners, along an edge or past the top of an arc counts every boundary once.</summary>
    [Theory]
    [InlineData(0, 0, true)]
    [InlineData(-1.9, 0, true)]
    [InlineData(-2.1, 0, false)]
    [InlineData(-2.1, 2, false)]
    [InlineData(-1, -2, false)]
    [InlineData(1.5, 0.4, true)]
    [InlineData(1.5, 0.6, false)]
    public void Inside_is_told_also_at_the_height_of_a_corner(double x, double y, bool inside)
    {
        Point2[] p = [new(2, 0), new(0, 2), new(-2, 0), new(0, -2)];
        Contour diamond = new([.. Enumerable.Range(0, 4).Select(i => Segment.Line(p[i], p[(i + 1) % 4]))]);
        Assert.Equal(inside, new Area(Region.From(diamond)).Contains(new Point2(x, y)));
    }

    [Theory]
    [InlineData(-3, 5, false)]
    [InlineData(0, 3.9, true)]
    [InlineData(4.9, 0, true)]
    [InlineData(-5.1, 0, false)]
    [InlineData(4.9, 2, true)]
    [InlineData(-4.9, -2, true)]
    public void Inside_is_told_at_the_ends_of_arcs(double x, double y, bool inside) =>
        Assert.Equal(inside, new Area(Region.From(TestShop.Rounded(-5, -4, 5, 4, 2))).Contains(new Point2(x, y)));

    [Fact]
    public void Tallies_add_what_was_taken_and_keep_the_deepest() =>
        Assert.Equal(new Tally(5, 2, 8), new Tally(1, 2, 3) + new Tally(4, 1, 5));
}
