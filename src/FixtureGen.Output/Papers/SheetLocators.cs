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
        Box2 box = Measure.Bounds(facts.Drawn.Outer);
        Point2 datum = new(box.MinX, box.MinY);
        paper.Heading("Locator pins, and drill guide for the holes in the shell's scrap", 110);
        paper.Text(
            $"{Figures.Count(guide.Holes.Length, "pin")} of {Figures.Both(guide.PinDiameter)}, {Figures.Both(guide.PinLength)} long: {Figures.Mm(guide.InBlock)} mm pressed into the block, "
                + $"{Figures.Mm(job.Shell.ThicknessMax)} mm through the thickest shell, {Figures.Mm(job.Rules.LocatorPinProjection)} mm above it, end rounded."
        );
        DrillGuideFigure.Draw(paper, facts.Drawn, guide, datum, job.DisplayUnit);
        Table(paper, guide, datum);
        paper.Text(Slot(job, guide));
    }

    private static void Table(Paper paper, LocatorGuide guide, Point2 datum)
    {
        Column[] columns =
        [
            new("Hole", 3, Fit.Left),
            new("Shape", 2.6, Fit.Left),
            new("Wide mm", 1.5, Fit.Right),
            new("Long mm", 1.5, Fit.Right),
            new("At X mm", 1.7, Fit.Right),
            new("At Y mm", 1.7, Fit.Right),
            new("X in", 1.5, Fit.Right),
            new("Y in", 1.5, Fit.Right),
            new("From hole 1", 2.2, Fit.Right),
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
                            Figures.Mm(h.Width),
                            Figures.Mm(h.Length),
                            Figures.Mm(at.X),
                            Figures.Mm(at.Y),
                            Figures.Micron(at.X / Units.MmPerInch),
                            Figures.Micron(at.Y / Units.MmPerInch),
                            Figures.Mm(first.DistanceTo(h.At)),
                        ];
                }
            )
        );
    }

    private static string Slot(Job job, LocatorGuide guide)
    {
        string unit = job.DisplayUnit == LengthUnit.Inch ? "inches" : "mm";
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
