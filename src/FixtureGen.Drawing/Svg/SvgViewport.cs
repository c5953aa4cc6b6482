using FixtureGen.Drawing.Reading;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Svg;

/// <summary>
/// What width, height, viewBox and preserveAspectRatio of an svg element come to (SVG 2, 8.2, 8.6 and 8.8).
/// </summary>
internal static class SvgViewport
{
    /// <summary>User units inside to those outside, both with y down; the viewport's corner at 0, 0.</summary>
    public static Affine3 Fit(SvgNode node, double? width, double? height)
    {
        if (Box(node) is not { } box || (width is null && height is null))
        {
            return Affine3.Identity;
        }
        double w = width ?? (height!.Value * box.Width / box.Height);
        double h = height ?? (width!.Value * box.Height / box.Width);
        (double sx, double sy) = (w / box.Width, h / box.Height);
        string[] how = (node["preserveAspectRatio"] ?? "xMidYMid meet").Split(
            ' ',
            StringSplitOptions.RemoveEmptyEntries
        );
        if (how[0] == "none")
        {
            return SvgTransform.Matrix(sx, 0, 0, sy, -box.X * sx, -box.Y * sy);
        }
        double s = how.Contains("slice") ? Math.Max(sx, sy) : Math.Min(sx, sy);
        double Room(string axis, double left) =>
            how[0].Contains(axis + "Min", StringComparison.Ordinal) ? 0
            : how[0].Contains(axis + "Max", StringComparison.Ordinal) ? left
            : left / 2;
        return SvgTransform.Matrix(
            s,
            0,
            0,
            s,
            Room("x", w - (box.Width * s)) - (box.X * s),
            Room("Y", h - (box.Height * s)) - (box.Y * s)
        );
    }

    /// <summary>The viewBox; null where there is none or it has no size.</summary>
    public static (double X, double Y, double Width, double Height)? Box(SvgNode node) =>
        SvgNumbers.List(node["viewBox"] ?? "") is [var x, var y, > 0 and var w, > 0 and var h] ? (x, y, w, h) : null;

    /// <summary>The unit that the outermost width or height is written in: in for in, pt and pc, mm for cm, mm and Q; null for pixels, parts of a window and nothing.</summary>
    public static LengthUnit? Unit(SvgNode root)
    {
        foreach (string side in (string[])["width", "height"])
        {
            var numbers = new SvgNumbers(root[side] ?? "");
            string unit = numbers.Next() is null ? "" : numbers.Rest.Trim().ToLowerInvariant();
            if (unit is "in" or "pt" or "pc")
            {
                return LengthUnit.Inch;
            }
            if (unit is "mm" or "cm" or "q")
            {
                return LengthUnit.Millimetre;
            }
        }
        return null;
    }
}
