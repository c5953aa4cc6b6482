using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Output.Pictures;
using FixtureGen.Output.Reports;

namespace FixtureGen.Output.Papers;

/// <summary>The locator pins and the guide for drilling the shell: sizes and places of the holes from one datum, as a figure and a table.</summary>
internal static class SheetLocators
{
    public static void Draw(Paper paper, PaperFacts facts)
    {
        if (LocatorGuide.For(facts.Job, facts.Design) is not { } guide)
        {
            return;
        }
        Job job = facts.Job;
        Lengths lengths = Lengths.For(job);
        Box2 box = Measure.Bounds(facts.Drawn.Outer);
        Point2 datum = new(box.MinX, box.MinY);
        paper.Heading("Locator pins, and drill guide for the holes in the shell's scrap", 110);
        paper.Text(
            $"{Figures.Count(guide.Holes.Length, "pin")} of {lengths.Long(guide.PinDiameter)}, {lengths.Long(guide.PinLength)} long: {lengths.Long(guide.InBlock)} pressed into the block, "
                + $"{lengths.Long(job.Shell.ThicknessMax)} through the thickest shell, {lengths.Long(job.Rules.LocatorPinProjection)} above it, end rounded."
        );
        DrillGuideFigure.Draw(paper, facts.Drawn, guide, datum, job.Control.Unit);
        Table(paper, lengths, guide, datum);
        paper.Text(Slot(job, guide));
    }

    private static void Table(Paper paper, Lengths lengths, LocatorGuide guide, Point2 datum)
    {
        Column[] columns =
        [
            new("Hole", 3, Fit.Left),
            new("Shape", 2.6, Fit.Left),
            new(lengths.Head("Wide"), 2, Fit.Right),
            new(lengths.Head("Long"), 2, Fit.Right),
            new(lengths.Head("At X"), 2.2, Fit.Right),
            new(lengths.Head("At Y"), 2.2, Fit.Right),
            new(lengths.Head("From hole 1"), 2.4, Fit.Right),
        ];
        Point2 first = guide.Holes[0].At;
        paper.Table(
            columns,
            guide.Holes.Select(
                (h, i) =>
                {
                    Point2 at = h.At - datum;
                    return (IReadOnlyList<string>)
                        [
                            $"{Figures.Whole(i + 1)}, {h.Name}",
                            h.IsSlot ? $"slot at {Figures.Degrees(Math.Round(h.AngleDeg, 2))}°" : "round",
                            lengths.Cell(h.Width),
                            lengths.Cell(h.Length),
                            lengths.Cell(at.X),
                            lengths.Cell(at.Y),
                            lengths.Cell(first.DistanceTo(h.At)),
                        ];
                }
            )
        );
    }

    private static string Slot(Job job, LocatorGuide guide)
    {
        string unit = job.Control.Unit == LengthUnit.Inch ? "inches" : "mm";
        string datum =
            $"Datum: the lower left corner of the box round the finished edge, as drawn; X to the right, Y up; the figure is in {unit}. ";
        if (job.LocatorHoles == LocatorHoles.Round)
        {
            return datum
                + "All holes round, as the job says: a shell that shrank otherwise than the block was made for may not go on.";
        }
        return datum
            + (
                guide.Spread > 0
                    ? $"The slot is longer by {(100 * guide.Spread).ToString("0.##", System.Globalization.CultureInfo.InvariantCulture)} % of its distance from the first hole, the spread of this material's shrinkage: a shell that shrank more or less still goes on."
                    : "How much this material shrinks is not stated: lengthen the slot until the smallest and the largest shell go on."
            );
    }
}
