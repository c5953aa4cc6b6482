using System.Globalization;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Output.Pictures;
using FixtureGen.Output.Reports;
using FixtureGen.Output.Scenes;

namespace FixtureGen.Output.Papers;

/// <summary>
/// The finished edge as drawn with the locator holes round it, dimensioned by coordinates from one datum (ISO 129-1): each
/// hole's X stands below it, each Y to its left.
/// </summary>
internal static class DrillGuideFigure
{
    private const double Size = 2.7;
    private const double Below = 17;
    private const double Beside = 19;
    private const double Kink = 3;

    public static void Draw(Paper paper, Part drawn, LocatorGuide guide, Point2 datum, LengthUnit unit)
    {
        Box2 world = World(drawn, guide);
        double wide = paper.Wide - Beside - 6;
        double tall = Math.Clamp(wide * world.Height / world.Width, 24, 62);
        Box2 place = paper.Place(tall + Below + 3);
        Box2 box = new(place.MinX + Beside, place.MinY + Below, place.MaxX - 6, place.MaxY - 3);
        View view = View.Fit(world, box, 1, mirrorX: false);
        Scene page = paper.Page;
        page.Shape(view.ToPage(drawn.Outer), Pen.Solid(0.35, Colour.Black), Colour.Grey(238));
        page.Shape(drawn.Cutouts.Select(view.ToPage), Pen.Solid(0.25, Colour.Black), Colour.White);
        double left = view.ToPage(new Point2(world.MinX, 0)).X;
        double foot = view.ToPage(new Point2(0, world.MinY)).Y;
        Point2[] places = [.. guide.Holes.Select(h => h.At)];
        Coordinates(
            page,
            view,
            [.. places.Select(p => (p.X - datum.X, view.ToPage(p)))],
            view.ToPage(datum),
            foot,
            true,
            unit
        );
        Coordinates(
            page,
            view,
            [.. places.Select(p => (p.Y - datum.Y, view.ToPage(p)))],
            view.ToPage(datum),
            left,
            false,
            unit
        );
        for (int i = 0; i < guide.Holes.Length; i++)
        {
            Hole(page, view, guide.Holes[i], Figures.Whole(i + 1));
        }
        Point2 corner = view.ToPage(datum);
        page.Shape(Chain.Circle(corner, 0.9), null, Colour.Black);
    }

    private static Box2 World(Part drawn, LocatorGuide guide)
    {
        Box2 b = Measure.Bounds(drawn.Outer);
        double[] xs = [b.MinX, b.MaxX, .. guide.Holes.Select(h => h.At.X)];
        double[] ys = [b.MinY, b.MaxY, .. guide.Holes.Select(h => h.At.Y)];
        return new Box2(xs.Min() - 4, ys.Min() - 4, xs.Max() + 4, ys.Max() + 4);
    }

    /// <summary>One coordinate of every hole and the datum's 0: a thin line to the edge of the figure, kinked where texts would meet, and the number.</summary>
    private static void Coordinates(
        Scene page,
        View view,
        (double Value, Point2 At)[] holes,
        Point2 datum,
        double edge,
        bool alongX,
        LengthUnit unit
    )
    {
        (double Value, Point2 At)[] marks =
        [
            .. holes
                .Append((0, datum))
                .GroupBy(h => Math.Round(h.Item1, 3))
                .Select(g => g.MaxBy(h => alongX ? h.Item2.Y : h.Item2.X))
                .OrderBy(h => alongX ? h.Item2.X : h.Item2.Y),
        ];
        double[] texts = Apart([.. marks.Select(m => alongX ? m.At.X : m.At.Y)], Size * 1.35);
        Pen thin = Pen.Solid(0.15, Colour.Grey(90));
        for (int i = 0; i < marks.Length; i++)
        {
            (double value, Point2 at) = marks[i];
            string text = Number(value, unit);
            Point2 knee = alongX ? new(at.X, edge) : new(edge, at.Y);
            Point2 end = alongX ? new(texts[i], edge - Kink) : new(edge - Kink, texts[i]);
            page.Line(at, knee, thin);
            page.Line(knee, end, thin);
            double shift = Size * Typefaces.CapHeight / 2;
            if (alongX)
            {
                page.Text(text, end + new Point2(shift, -0.8), TypeStyle.Plain(Size), Anchor.Right, 90);
            }
            else
            {
                page.Text(text, end + new Point2(-0.8, -shift), TypeStyle.Plain(Size), Anchor.Right);
            }
        }
    }

    /// <summary>Places at least <paramref name="least"/> apart, each as near to its own as may be; the given ones rise.</summary>
    private static double[] Apart(double[] at, double least)
    {
        double[] moved = [.. at];
        for (int i = 1; i < moved.Length; i++)
        {
            moved[i] = Math.Max(moved[i], moved[i - 1] + least);
        }
        return moved;
    }

    private static void Hole(Scene page, View view, ShellHole hole, string number)
    {
        double radius = Math.Max(hole.Width / 2 * view.Scale, 1);
        Point2 at = view.ToPage(hole.At);
        (double sin, double cos) = Math.SinCos(hole.AngleDeg * Math.PI / 180);
        // drawn longer than it is: at this scale a slot would look round
        Point2 half = hole.IsSlot
            ? new Point2(cos, sin) * Math.Max((hole.Length - hole.Width) / 2 * view.Scale, 1.2)
            : default;
        Contour shape = hole.IsSlot ? Contours.Slot(at - half, at + half, radius) : Contours.Circle(at, radius);
        page.Shape(Chain.From(shape), Pen.Solid(0.35, Colour.Black), Colour.White);
        double arm = radius + 1.4;
        Pen thin = Pen.Solid(0.15, Colour.Black);
        page.Line(at - new Point2(arm, 0), at + new Point2(arm, 0), thin);
        page.Line(at - new Point2(0, arm), at + new Point2(0, arm), thin);
        page.Text(
            number,
            at + new Point2(radius + 0.8, radius + 0.8),
            TypeStyle.Strong(Size + 0.5),
            Anchor.Left,
            0,
            halo: true
        );
    }

    private static string Number(double mm, LengthUnit unit) =>
        (
            Math.Abs(mm) < 5e-4 ? 0
            : unit == LengthUnit.Inch ? mm / Units.MmPerInch
            : mm
        ).ToString(unit == LengthUnit.Inch ? "0.000" : "0.00", CultureInfo.InvariantCulture);
}
