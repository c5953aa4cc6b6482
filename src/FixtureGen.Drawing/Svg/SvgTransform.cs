using FixtureGen.Drawing.Reading;

namespace FixtureGen.Drawing.Svg;

/// <summary>The transform attribute and property (SVG 2, 8.5; CSS Transforms 1, 11 to 13), in the plane.</summary>
internal static class SvgTransform
{
    private const double Degrees = Math.PI / 180;

    /// <summary>The list of transforms, the first outermost; null where one cannot be read.</summary>
    public static Affine3? Parse(string written)
    {
        Affine3 whole = Affine3.Identity;
        string rest = written.Trim();
        while (rest.Length > 0 && rest != "none")
        {
            int open = rest.IndexOf('(', StringComparison.Ordinal);
            int close = rest.IndexOf(')', StringComparison.Ordinal);
            if (open < 0 || close < open)
            {
                return null;
            }
            string name = rest[..open].Trim(' ', ',', '\t', '\r', '\n');
            string inside = rest[(open + 1)..close]
                .Replace("px", " ", StringComparison.Ordinal)
                .Replace("deg", " ", StringComparison.Ordinal);
            if (SvgNumbers.List(inside) is not { } v || Function(name, v) is not { } one)
            {
                return null;
            }
            whole = whole.After(one);
            rest = rest[(close + 1)..].Trim(' ', ',', '\t', '\r', '\n');
        }
        return whole;
    }

    /// <summary>x goes to a x + c y + e, y to b x + d y + f.</summary>
    public static Affine3 Matrix(double a, double b, double c, double d, double e, double f) =>
        new(new(a, b, 0), new(c, d, 0), new(0, 0, 1), new(e, f, 0));

    private static Affine3? Function(string name, List<double> v) =>
        (name, v.Count) switch
        {
            ("matrix", 6) => Matrix(v[0], v[1], v[2], v[3], v[4], v[5]),
            ("translate", 1) => Matrix(1, 0, 0, 1, v[0], 0),
            ("translate", 2) => Matrix(1, 0, 0, 1, v[0], v[1]),
            ("translateX", 1) => Matrix(1, 0, 0, 1, v[0], 0),
            ("translateY", 1) => Matrix(1, 0, 0, 1, 0, v[0]),
            ("scale", 1) => Matrix(v[0], 0, 0, v[0], 0, 0),
            ("scale", 2) => Matrix(v[0], 0, 0, v[1], 0, 0),
            ("scaleX", 1) => Matrix(v[0], 0, 0, 1, 0, 0),
            ("scaleY", 1) => Matrix(1, 0, 0, v[0], 0, 0),
            ("rotate", 1) => Affine3.TurnZ(v[0] * Degrees),
            ("rotate", 3) => Matrix(1, 0, 0, 1, v[1], v[2])
                .After(Affine3.TurnZ(v[0] * Degrees))
                .After(Matrix(1, 0, 0, 1, -v[1], -v[2])),
            ("skewX", 1) => Matrix(1, 0, Math.Tan(v[0] * Degrees), 1, 0, 0),
            ("skewY", 1) => Matrix(1, Math.Tan(v[0] * Degrees), 0, 1, 0, 0),
            _ => null,
        };
}
