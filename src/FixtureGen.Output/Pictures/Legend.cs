using FixtureGen.Model;
using FixtureGen.Output.Scenes;

namespace FixtureGen.Output.Pictures;

/// <summary>The key to the line kinds of a picture: a swatch in the same ink and its name.</summary>
internal static class Legend
{
    /// <summary>Draws the kinds as a column from <paramref name="top"/> (its upper left corner) downwards; returns the Y below the last.</summary>
    public static double Column(Scene scene, IEnumerable<LineKind> kinds, Point2 top, double size)
    {
        double row = size * 1.75;
        double y = top.Y;
        foreach (LineKind kind in kinds)
        {
            Swatch(scene, kind, new Box2(top.X, y - row + (size * 0.18), top.X + (size * 2.7), y - (size * 0.18)));
            scene.Text(
                kind.Name,
                new Point2(top.X + (size * 3.25), y - (row / 2) - (size * 0.34)),
                TypeStyle.Plain(size)
            );
            y -= row;
        }
        return y;
    }

    private static void Swatch(Scene scene, LineKind kind, Box2 box)
    {
        View sheet = new(1, default, MirrorX: false);
        if (kind.Fill is not null || kind.Hatch is not null)
        {
            if (
                kind == LineKind.Magnet
                || kind == LineKind.Bolt
                || kind == LineKind.Port
                || kind == LineKind.Pin
                || kind == LineKind.Locator
            )
            {
                Round(scene, kind, box);
                return;
            }
            kind.Areas(scene, sheet, [Region.From(new Contour(Chain.Box(box).Segments))]);
            return;
        }
        if (kind == LineKind.Joint)
        {
            scene.Shape(Chain.Box(box), null, LineKind.Gasket.Fill);
            Point2 half = new Point2(1, 1) * (box.Height * 0.2);
            scene.Line(box.Middle - half, box.Middle + half, kind.Pen!);
            return;
        }
        scene.Line(new Point2(box.MinX, box.Middle.Y), new Point2(box.MaxX, box.Middle.Y), kind.Pen!);
    }

    private static void Round(Scene scene, LineKind kind, Box2 box)
    {
        double r = box.Height / 2;
        Region disc = Region.From(new Contour(Chain.Circle(box.Middle, r).Segments));
        kind.Areas(scene, new View(1, default, MirrorX: false), [disc]);
        if (kind == LineKind.Bolt)
        {
            scene.Shape(Chain.Circle(box.Middle, r * 0.5), kind.Pen);
        }
        if (kind == LineKind.Magnet)
        {
            scene.Text(
                "M",
                box.Middle - new Point2(0, r * 0.5),
                new TypeStyle(r * 1.5, true, kind.Pen!.Colour),
                Anchor.Middle
            );
        }
    }
}
