using System.Globalization;
using FixtureGen.Model;
using FixtureGen.Output.Scenes;

namespace FixtureGen.Output.Pictures;

/// <summary>Dimension lines, the origin mark, edge stops and the scale bar. Sheet mm.</summary>
internal static class Marks
{
    private const double ArrowLength = 2.4;

    /// <summary>A length as read in the shop: the display unit first, the other behind it.</summary>
    public static string Length(double mm, LengthUnit shown)
    {
        string metric = mm.ToString("0.##", CultureInfo.InvariantCulture) + " mm";
        string inch = (mm / Units.MmPerInch).ToString("0.###", CultureInfo.InvariantCulture) + " in";
        return shown == LengthUnit.Inch ? $"{inch} ({metric})" : $"{metric} ({inch})";
    }

    /// <summary>A dimension from <paramref name="a"/> to <paramref name="b"/>, its line <paramref name="off"/> mm to the right of the way.</summary>
    public static void Dimension(Scene scene, Point2 a, Point2 b, double off, string text, double size)
    {
        Pen thin = Pen.Solid(0.18, Colour.Black);
        Point2 dir = (b - a) * (1 / a.DistanceTo(b));
        Point2 side = dir.Left * -off;
        Point2 over = dir.Left * (-1.2 * Math.Sign(off));
        scene.Line(a + (over * 0.8), a + side + over, thin);
        scene.Line(b + (over * 0.8), b + side + over, thin);
        Arrow(scene, b + side, a + side, thin);
        Arrow(scene, a + side, b + side, thin);
        double angle = Math.Atan2(dir.Y, dir.X) * 180 / Math.PI;
        Point2 at = ((a + b) * 0.5) + side + (dir.Left * (size * 0.35));
        scene.Text(text, at, TypeStyle.Plain(size), Anchor.Middle, angle);
    }

    /// <summary>A line from <paramref name="from"/> with a filled head, three times as long as wide, at <paramref name="to"/>.</summary>
    public static void Arrow(Scene scene, Point2 from, Point2 to, Pen pen)
    {
        Point2 dir = (to - from) * (1 / from.DistanceTo(to));
        double length = Math.Max(ArrowLength, pen.Width * 6);
        Point2 foot = to - (dir * length);
        scene.Line(from, foot, pen);
        scene.Shape(
            Chain.Polygon(to, foot + (dir.Left * (length / 6)), foot - (dir.Left * (length / 6))),
            null,
            pen.Colour
        );
    }

    /// <summary>X0 Y0 as a quartered disc with both axes; <paramref name="mirrorX"/> points X to the left, as seen from below.</summary>
    public static void Origin(Scene scene, Point2 at, double length, double size, bool mirrorX)
    {
        Pen pen = Pen.Solid(0.5, Colour.Black);
        Point2 x = at + new Point2(mirrorX ? -length : length, 0);
        Point2 y = at + new Point2(0, length);
        Arrow(scene, at, x, pen);
        Arrow(scene, at, y, pen);
        double side = mirrorX ? -1 : 1;
        scene.Text(
            "X",
            x + new Point2(-side * length * 0.4, -size * 1.05),
            TypeStyle.Strong(size),
            Anchor.Middle,
            0,
            true
        );
        scene.Text(
            "Y",
            y + new Point2(side * size * 0.55, -size * 0.3),
            TypeStyle.Strong(size),
            Anchor.Middle,
            0,
            true
        );
        const double r = 2.2;
        scene.Shape(Chain.Circle(at, r), Pen.Solid(0.3, Colour.Black), Colour.White);
        scene.Shape([Quarter(at, r, 1), Quarter(at, r, -1)], null, Colour.Black);
    }

    /// <summary>The three points where the raw blank's edges touch, as triangles that point at the blank.</summary>
    public static void Stops(Scene scene, View view, Plate plate)
    {
        foreach (EdgeStop stop in plate.Stops)
        {
            Point2 tip = view.ToPage(stop.At);
            Point2 n = view.ToPage(stop.At + stop.Normal) - tip;
            n *= 1 / n.Length;
            Point2 foot = tip - (n * 3.2);
            scene.Shape(
                Chain.Polygon(tip, foot + (n.Left * 1.8), foot - (n.Left * 1.8)),
                Pen.Solid(0.2, Colour.Black),
                Colour.Grey(120)
            );
        }
    }

    private static Chain Quarter(Point2 c, double r, int sign)
    {
        Point2 a = c + new Point2(sign * r, 0);
        Point2 b = c + new Point2(0, sign * r);
        return new Chain([Segment.Line(c, a), Segment.Arc(a, b, c, true), Segment.Line(b, c)], true);
    }
}
