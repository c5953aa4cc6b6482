using FixtureGen.Design;
using FixtureGen.Design.Labels;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Output;
using FixtureGen.Tests.Dxf;
using FixtureGen.Tests.Support;
using NetTopologySuite.Geometries;
using NetTopologySuite.Geometries.Utilities;
using Xunit;

namespace FixtureGen.Tests.Design;

/// <summary>The twin of a drawing, against an affine transformation of NetTopologySuite and against itself.</summary>
public sealed class MirrorTest
{
    private static readonly Job Job = DemoShop.Job("mirror = true\n" + DemoShop.PlainJob());

    private static readonly Part Drawn = new(
        Contours.RoundedRectangle(new Box2(10, 5, 130, 85), 12),
        [Contours.Cw(Contours.Circle(new Point2(40, 30), 6)), Contours.Cw(Outlines.Rectangle(80, 50, 20, 9))],
        [],
        [],
        [new Point2(90, 20)],
        [
            new EngraveMark([], "RIGHT", new Point2(30, 60), 5, 0),
            new EngraveMark([], "UP", new Point2(70, 30), 4, 30),
            new EngraveMark([new OpenPath([Segment.Line(new(50, 20), new(60, 20))])], "", new Point2(50, 20), 0, 0),
        ]
    );

    private static Part Twin(Part part) => MirroredPart.AsAsked(part, Job).Value!;

    [Fact]
    public void Every_contour_is_where_an_affine_transformation_puts_it_and_turns_as_before()
    {
        Part twin = Twin(Drawn);
        AffineTransformation mirror = AffineTransformation.ScaleInstance(-1, 1);
        foreach ((Contour was, Contour now) in Drawn.Cutouts.Prepend(Drawn.Outer).Zip(twin.Cutouts.Prepend(twin.Outer)))
        {
            Assert.True(Polygon(now).SymmetricDifference(mirror.Transform(Polygon(was))).Area < 1e-9);
            Assert.Equal(Measure.Area(was), Measure.Area(now), 1e-9);
            Assert.All(now.Segments.Zip(now.Segments.Skip(1)), p => Assert.Equal(p.First.End, p.Second.Start));
        }
        Assert.Equal(new Point2(-90, 20), Assert.Single(twin.MagnetWishes));
        Assert.Equal(new Point2(-60, 20), twin.Engravings[2].Strokes[0].End);
    }

    [Fact]
    public void The_twin_of_the_twin_is_the_drawing()
    {
        Part again = Twin(Twin(Drawn));
        Assert.Equal(Drawn.Outer.Segments, again.Outer.Segments);
        Assert.Equal(Drawn.Cutouts[1].Segments, again.Cutouts[1].Segments);
        Assert.True(Drawn.Engravings[1].At.DistanceTo(again.Engravings[1].At) < 1e-9);
    }

    [Fact]
    public void Texts_take_the_mirrored_room_and_stay_readable()
    {
        Part was = MarkLetters.Cut(Drawn, Job).Value!;
        Part now = MarkLetters.Cut(Twin(Drawn), Job).Value!;
        for (int i = 0; i < 2; i++)
        {
            double angle = Drawn.Engravings[i].AngleDeg * Math.PI / 180;
            // along the line of text both begin and end alike, seen in the mirror; strokes keep their lengths and order
            (double from, double to) = Ends(was.Engravings[i], new(Math.Cos(angle), Math.Sin(angle)), default);
            (double least, double most) = Ends(now.Engravings[i], new(-Math.Cos(angle), Math.Sin(angle)), default);
            double side = 0.35 * Drawn.Engravings[i].Height;
            Assert.InRange(least, from - side, from + side);
            Assert.InRange(most, to - side, to + side);
            Assert.Equal(
                was.Engravings[i].Strokes.Select(s => Math.Round(Measure.Length(s), 6)),
                now.Engravings[i].Strokes.Select(s => Math.Round(Measure.Length(s), 6))
            );
            Assert.Equal(
                was.Engravings[i].Strokes.Select(s => Turn(s)),
                now.Engravings[i].Strokes.Select(s => Turn(s))
            );
        }
    }

    /// <summary>A drawing that was drawn the other way round is placed, sealed and held as the twin of the first is.</summary>
    [Fact]
    public void A_drawing_drawn_the_other_way_round_makes_the_same_fixture()
    {
        Outcome mirrored = Delivery.Check(Asked("mirror = true\n", 1));
        Outcome drawn = Delivery.Check(Asked("", -1));
        Assert.Contains(mirrored.Findings, f => f.Code == "part-mirrored");
        Assert.DoesNotContain(drawn.Findings, f => f.Code == "part-mirrored");
        Assert.Equal(drawn.Design!.Placement, mirrored.Design!.Placement);
        Assert.Equal(drawn.Design.Magnets.AsEnumerable(), mirrored.Design.Magnets.AsEnumerable());
        Assert.Equal(drawn.Report.Holding!.VacuumOnly, mirrored.Report.Holding!.VacuumOnly);
        Assert.Equal(drawn.Report.Features!.CordLengthMm, mirrored.Report.Features!.CordLengthMm);
    }

    private static Request Asked(string top, int side)
    {
        (double X, double Y)[] corners = [(0, 0), (side * 130, 0), (side * 130, 50), (side * 80, 90), (0, 90)];
        string outline = string.Concat(
            corners
                .Select((c, i) => (From: c, To: corners[(i + 1) % corners.Length]))
                .Select(l => Sketch.Line(l.From.X, l.From.Y, l.To.X, l.To.Y, "OUTLINE"))
        );
        return SketchedRequest.Make(outline + Sketch.Circle(side * 40, 40, 12, "CUTOUT"), top);
    }

    private static double Turn(OpenPath stroke) =>
        Math.Round(
            stroke
                .Segments.Zip(stroke.Segments.Skip(1))
                .Sum(p => (p.First.End - p.First.Start).Cross(p.Second.End - p.Second.Start)),
            6
        );

    private static (double From, double To) Ends(EngraveMark mark, Point2 along, Point2 from)
    {
        double[] at =
        [
            .. mark
                .Strokes.SelectMany(s => s.Segments)
                .SelectMany(s => new[] { s.Start, s.End })
                .Select(p => (p - from).Dot(along)),
        ];
        return (at.Min(), at.Max());
    }

    private static Polygon Polygon(Contour contour) => new(new LinearRing([.. Flat(contour), Flat(contour).First()]));

    private static IEnumerable<Coordinate> Flat(Contour contour) =>
        contour
            .Segments.SelectMany(s => Enumerable.Range(0, 16).Select(k => Measure.PointAt(s, k / 16.0)))
            .Select(p => new Coordinate(p.X, p.Y));
}
