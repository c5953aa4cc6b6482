using FixtureGen.Design;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Design;

public sealed class PlacedPartTest
{
    [Fact]
    public void A_mark_turns_with_the_part()
    {
        OpenPath stroke = new([Segment.Line(new(1, 0), new(2, 0))]);

        EngraveMark mark = PlacedPart.Place(new Pose(10, 20, 90), new EngraveMark([stroke], "A", new(1, 0), 5, 15));

        Assert.Equal((new Point2(10, 21), 105, 5), (mark.At, mark.AngleDeg, mark.Height));
        Assert.Equal((new Point2(10, 21), new Point2(10, 22)), (mark.Strokes[0].Start, mark.Strokes[0].End));
    }
}
