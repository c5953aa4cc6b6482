using FixtureGen.Model;
using FixtureGen.Output.Pictures;
using FixtureGen.Output.Scenes;

namespace FixtureGen.Output.Papers;

/// <summary>The turned block as the operator sees it: the underside up, the plate's origin where it always is, the block's own corner on the other side.</summary>
internal static class SheetUnderside
{
    public static void Draw(Paper paper, PaperFacts facts, Flip flip)
    {
        const double side = 84;
        Box2 place = paper.Place(side);
        Box2 box = new(place.MinX + 6, place.MinY + 6, place.MinX + side + 6, place.MaxY - 2);
        View turned = Turned(facts.Design.Placement.BlankBox, box, flip, out View plain);
        FixtureView picture = new(paper.Page, turned, textSize: 0, fromBelow: true);
        picture.Underside(facts.Design, facts.Job);
        SheetMarks.Names(paper.Page, turned, facts, Setup.Underside, 2.5);
        Point2 foot = plain.ToPage(new Point2(flip.AxisX, facts.Design.Placement.BlankBox.MinY));
        Point2 head = plain.ToPage(new Point2(flip.AxisX, facts.Design.Placement.BlankBox.MaxY));
        Point2 over = new(0, 3);
        paper.Page.Line(foot - over, head + over, new Pen(0.25, Colour.Black, [6, 1, 1, 1]));
        Marks.Stops(paper.Page, plain, facts.Job.Plate);
        Marks.Origin(paper.Page, plain.ToPage(new Point2(0, 0)), 10, 3, mirrorX: false);
        Point2 corner = turned.ToPage(new Point2(0, 0));
        paper.Page.Shape(Chain.Circle(corner, 2.2), new Pen(0.3, Colour.Black, [0.8, 0.6]));
        double before = paper.Y;
        paper.Y -= side - 2;
        Lengths lengths = Lengths.For(facts.Job);
        paper.Pairs(Words(lengths, flip), place.MinX + side + 16, place.Width - side - 16, 24);
        Legend.Column(paper.Page, picture.Used, paper.PointAt(place.MinX + side + 16, paper.Y + 3), 2.7);
        paper.Y = before;
    }

    /// <summary>The view of design coordinates after the flip, and the one of the plate under it.</summary>
    private static View Turned(Box2 blank, Box2 box, Flip flip, out View plain)
    {
        Box2 lies = new((2 * flip.AxisX) - blank.MaxX, blank.MinY, (2 * flip.AxisX) - blank.MinX, blank.MaxY);
        plain = View.Fit(lies, box, 1, mirrorX: false);
        Point2 shift = plain.ToPage(new Point2(2 * flip.AxisX, 0));
        return new View(plain.Scale, shift, MirrorX: true);
    }

    private static IEnumerable<(string Name, string Value)> Words(Lengths lengths, Flip flip)
    {
        yield return ("Turned", $"over left to right about the line X {lengths.Long(flip.AxisX)} (chain line)");
        yield return ("Origin", "X0 Y0 stays the plate's, Z0 its face");
        yield return (
            "Mirrored",
            $"what lies at X in the top setup lies here at {lengths.Long(2 * flip.AxisX)} - X; Y is the same"
        );
        yield return (
            "Its corner",
            $"the corner at the top setup's X0 Y0 is here at X {lengths.Long(2 * flip.AxisX)} (dashed ring)"
        );
    }
}
