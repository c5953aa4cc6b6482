using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Geometry;

/// <summary>Contours made and cut open, against lengths and areas worked by hand.</summary>
public sealed class ContoursTest
{
    [Fact]
    public void A_slot_is_everything_within_its_radius_of_a_line()
    {
        Point2 a = new(0, 0);
        Point2 b = new(30, 40);
        Segment line = Segment.Line(a, b);

        Contour slot = Contours.Slot(a, b, 5);

        Assert.Equal(500 + (25 * Math.PI), Measure.Area(slot), 1e-9);
        Assert.Equal(100 + (10 * Math.PI), Measure.Length(slot), 1e-9);
        Box2 box = Measure.Bounds(slot);
        Assert.Equal((-5, -5, 35, 45), (box.MinX, box.MinY, box.MaxX, box.MaxY));
        Assert.All(
            Enumerable.Range(0, 40),
            i => Assert.Equal(5, Measure.Distance(Measure.PointAlong(slot, i * 3.1), line), 1e-9)
        );
        AssertClosed(slot);
    }

    [Fact]
    public void Repeated_points_and_a_repeated_first_one_are_left_out()
    {
        Contour square = Contours.FromPoints([new(0, 0), new(4, 0), new(4, 0), new(4, 4), new(0, 4), new(0, 0)]);

        Assert.Equal(4, square.Segments.Length);
        Assert.Equal(16, Measure.Area(square), 1e-12);
        AssertClosed(square);
    }

    [Fact]
    public void A_contour_opens_before_the_segment_asked_for()
    {
        Contour box = Contours.Rectangle(new Box2(0, 0, 2, 1));

        OpenPath path = Contours.ToPath(box, 3);

        Assert.Equal(new Point2(0, 1), path.Start);
        Assert.Equal(path.Start, path.End);
        Assert.Equal(box.Segments[0], path.Segments[1]);
        Assert.Equal(path.Segments, Contours.StartAt(box, 3).Segments);
    }

    private static void AssertClosed(Contour contour) =>
        Assert.All(
            Enumerable.Range(0, contour.Segments.Length),
            i => Assert.Equal(contour.Segments[i].End, contour.Segments[(i + 1) % contour.Segments.Length].Start)
        );
}
