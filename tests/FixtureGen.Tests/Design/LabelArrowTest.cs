using FixtureGen.Design.Labels;
using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Design;

/// <summary>The arrow beside the label points to the plate's +Y whichever way the label runs, and stands clear of the letters.</summary>
public sealed class LabelArrowTest
{
    [Theory]
    [InlineData(200, 12, false)]
    [InlineData(12, 200, true)]
    public void The_arrow_points_up_beside_a_level_and_an_upright_label(double width, double height, bool upright)
    {
        Box2 room = new(10, 20, 10 + width, 20 + height);
        LabelLayout label = LabelLayout.Find("CLIP LC-7 N UP", true, 5, new FreeFace(room, [], new(Tolerances.House)))!;
        Box2 letters = Measure.Bounds(label.Letters.SelectMany(s => s.Segments));
        Box2 arrow = Measure.Bounds(label.Arrow.SelectMany(s => s.Segments));
        OpenPath shaft = label.Arrow[0];

        Assert.Equal(upright, letters.Height > letters.Width);
        Assert.Equal(shaft.Start.X, shaft.End.X, 9);
        Assert.True(shaft.End.Y - shaft.Start.Y > 4);
        Assert.Equal(arrow.MaxY, shaft.End.Y, 9);
        Assert.True(upright ? arrow.MinY >= letters.MaxY + 2 : arrow.MinX >= letters.MaxX + 2);
        Assert.True(arrow.MinX >= room.MinX && arrow.MaxX <= room.MaxX);
        Assert.True(arrow.MinY >= room.MinY && arrow.MaxY <= room.MaxY);
    }
}
