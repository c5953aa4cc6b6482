using System.Globalization;
using FixtureGen.App.Page.Layout;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.App.Page.ShopDesk;

/// <summary>A part of a picture before it is written as SVG data: Kind is how it is drawn.</summary>
internal sealed record Sketched(string Kind, string Name, Contour Contour);

/// <summary>Pictures put together from contours, mm, Y up.</summary>
internal static class Sketch
{
    private const double Edge = 0.02;

    /// <summary>The parts in a box a little wider than they are.</summary>
    public static ShopPicture Picture(string of, string caption, IReadOnlyCollection<Sketched> parts)
    {
        Box2 box = Measure.Bounds(parts.SelectMany(p => p.Contour.Segments));
        double edge = Edge * Math.Max(box.Width, box.Height);
        return new ShopPicture(
            of,
            caption,
            [box.MinX - edge, box.MinY - edge, box.MaxX + edge, box.MaxY + edge],
            [
                .. parts
                    .Where(p => !p.Contour.Segments.IsEmpty)
                    .Select(p => new PicturePart(p.Kind, PlanShape.Path(p.Contour.Segments, closed: true), p.Name)),
            ],
            []
        );
    }

    /// <summary>A part.</summary>
    public static Sketched Part(string kind, string name, Contour contour) => new(kind, name, contour);

    /// <summary>An upright rectangle.</summary>
    public static Contour Bar(double x0, double y0, double x1, double y1) =>
        Contours.Rectangle(new Box2(x0, y0, x1, y1));

    /// <summary>A row of a list of tables, as keys name it.</summary>
    public static string Row(string list, int i) => Inv($"{list}[{i}]");

    /// <summary>Text with numbers, whatever the culture.</summary>
    public static string Inv(FormattableString s) => s.ToString(CultureInfo.InvariantCulture);
}
