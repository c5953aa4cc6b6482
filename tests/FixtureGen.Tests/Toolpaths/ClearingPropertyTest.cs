using CsCheck;
using FixtureGen.Cutting;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Toolpaths.Moves;
using NetTopologySuite.Geometries;
using Xunit;
using Shape = NetTopologySuite.Geometries.Geometry;

namespace FixtureGen.Tests.Toolpaths;

/// <summary>
/// Laws of clearing on random regions with islands: the tool keeps its radius from every wall, leaves nothing of what it can
/// reach (checked with NetTopologySuite's buffers, which share nothing with the offset kernel), rapids only above the ground.
/// </summary>
public sealed class ClearingPropertyTest
{
    private const double Floor = -3;

    /// <summary>What the oracle's chords are off, mm: 0.0005 of the region's, 0.0013 of a round of 96 at the tool's radius.</summary>
    private const double Chord = 0.002;

    private static readonly Heights Heights = new(0, 1, 5);

    private static readonly Gen<Region> Regions =
        from w in Gen.Double[25, 70]
        from h in Gen.Double[25, 70]
        from r in Gen.Double[2, 10]
        from islands in Gen.Double[0, 1].Select(Gen.Double[0, 1], Gen.Double[1.5, 4]).Array[0, 3]
        select WithIslands(new Box2(0, 0, w, h), r, islands);

    private static Region WithIslands(Box2 box, double r, (double X, double Y, double R)[] islands)
    {
        List<Contour> holes = [];
        foreach ((double x, double y, double radius) in islands)
        {
            Point2 c = new(8 + (x * (box.Width - 16)), 8 + (y * (box.Height - 16)));
            if (holes.All(i => Measure.Bounds(i).Middle.DistanceTo(c) > 9))
            {
                holes.Add(Contours.Cw(Contours.Circle(c, radius)));
            }
        }
        return new Region(Contours.RoundedRectangle(box, r), [.. holes]);
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void Tool_keeps_its_radius_from_walls_and_leaves_nothing_it_can_reach() =>
        Regions.Sample(Check, iter: 40, seed: "0N0XIzNsQ0O2", threads: 1);

    /// <summary>Four that a hole in the oracle's swept turn spoiled; in the last a gap is 0.1 um too narrow for the tool, but not for chords.</summary>
    [Theory]
    [InlineData("4BZ21fb90qK2")]
    [InlineData("f-qkCH0vWNW1")]
    [InlineData("9TK1_Ml670H1")]
    [InlineData("8JPb9sb9CSz1")]
    [InlineData("cnDqo_XH5QB1")]
    public void Regions_that_failed_once_are_cleared(string seed) =>
        Regions.Sample(Check, iter: 1, seed: seed, threads: 1);

    private static void Check(Region region)
    {
        (Tool tool, Pen pen) = Cut(region);
        GeometryFactory f = new();
        List<Shape> swept = [];
        Point3 at = pen.Moves[0].To;
        foreach (Move move in pen.Moves)
        {
            Point2[] way = [.. Way(at, move)];
            if (move is RapidMove)
            {
                Assert.True(move.To.Z >= Heights.Hop - 1e-9, "rapids stay at the hop height");
            }
            else
            {
                Assert.All(way, p => Assert.True(Measure.Distance(p, region) > tool.Radius - 0.002));
                Assert.All(way, p => Assert.True(Inside.Contains(region, p)));
                swept.AddRange(AtFloor(at, move, way, f));
            }
            at = move.To;
        }
        Shape cleared = NetTopologySuite.Operation.Union.UnaryUnionOp.Union(
            swept.Select(g => g.Buffer(tool.Radius, 24))
        );
        Shape left = Reachable(region, tool, f).Difference(cleared);
        Assert.True(left.Area < 0.02, FormattableString.Invariant($"{left.Area} mm2 left at {left.Centroid}"));
    }

    // The polygon's chords leave gaps wider than they are: where the tool fits by less than that, nobody knows.
    private static Shape Reachable(Region region, Tool tool, GeometryFactory f) =>
        Polygon(region, f).Buffer(-tool.Radius - Chord, 24).Buffer(tool.Radius + Chord - 0.03, 24);

    private static (Tool Tool, Pen Pen) Cut(Region region)
    {
        Tool tool = SampleBlock.Job.Tools.First(t => t.Name == "mill-3-16");
        CutData data = Feeds.For(tool, SampleBlock.Job.BlockMaterial, SampleBlock.Job.Plate.Machine, 2, 0);
        Piece piece = Clearing.Clear(
            "p",
            region,
            tool,
            data,
            Heights,
            0,
            [.. Passes.Down(0, Floor, data.StepDown)],
            0,
            0,
            null,
            SampleBlock.NewKernel()
        )!;
        Pen pen = new(Point3.From(piece.Ways[0].Start, Heights.Hop));
        piece.Ways[0].Cut(pen);
        return (tool, pen);
    }

    // In halves: the library's buffer of a whole turn smaller than the tool keeps a hole in the middle.
    private static IEnumerable<Shape> AtFloor(Point3 from, Move move, Point2[] way, GeometryFactory f)
    {
        if (Math.Abs(from.Z - Floor) >= 1e-9 || Math.Abs(move.To.Z - Floor) >= 1e-9)
        {
            return [];
        }
        Coordinate[] points = [.. way.Select(p => new Coordinate(p.X, p.Y))];
        int middle = points.Length / 2;
        return middle < 2
            ? [f.CreateLineString(points)]
            : [f.CreateLineString(points[..(middle + 1)]), f.CreateLineString(points[middle..])];
    }

    private static IEnumerable<Point2> Way(Point3 from, Move move)
    {
        if (move is ArcMove arc && from.Xy.DistanceTo(arc.To.Xy) > 1e-9)
        {
            OpenPath path = new([Segment.Arc(from.Xy, arc.To.Xy, arc.Centre, arc.Ccw)]);
            return Flatten.Points(path, 0.001);
        }
        if (move is ArcMove turn)
        {
            double r = from.Xy.DistanceTo(turn.Centre);
            return Enumerable
                .Range(0, 65)
                .Select(k => turn.Centre + new Point2(r * Math.Cos(k * Math.PI / 32), r * Math.Sin(k * Math.PI / 32)));
        }
        return [from.Xy, move.To.Xy];
    }

    private static Polygon Polygon(Region region, GeometryFactory f) =>
        f.CreatePolygon(Ring(region.Outer, f), [.. region.Holes.Select(h => Ring(h, f))]);

    private static LinearRing Ring(Contour c, GeometryFactory f)
    {
        List<Coordinate> points = [.. Flatten.Points(c, 0.0005).Select(p => new Coordinate(p.X, p.Y))];
        if (!points[0].Equals2D(points[^1]))
        {
            points.Add(points[0].Copy());
        }
        return f.CreateLinearRing([.. points]);
    }
}
