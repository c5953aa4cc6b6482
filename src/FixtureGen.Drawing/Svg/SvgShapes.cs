using FixtureGen.Model;

namespace FixtureGen.Drawing.Svg;

/// <summary>The basic shapes as subpaths (SVG 2, 10.2 to 10.7), in user units.</summary>
internal static class SvgShapes
{
    /// <summary>The element's subpaths, none where a size is 0; null with what is wrong.</summary>
    public static List<SvgSubpath>? Read(SvgNode node, out string fault)
    {
        fault = "";
        if (node.Name == "path")
        {
            return node["d"] is { } data ? SvgPathData.Read(data, out fault) : [];
        }
        string? bad = null;
        double Length(string name)
        {
            if (node[name] is not { } written || written == "auto")
            {
                return 0;
            }
            double? length = SvgNumbers.Length(written);
            bad ??= length is null ? $"'{name}' is '{written}', which is no length by itself" : null;
            return length ?? 0;
        }
        List<SvgSubpath>? shape = node.Name switch
        {
            "rect" => Rect(node, Length),
            "circle" => Oval(new(Length("cx"), Length("cy")), Length("r"), Length("r")),
            "ellipse" => Oval(
                new(Length("cx"), Length("cy")),
                Length(node["rx"] is null or "auto" ? "ry" : "rx"),
                Length(node["ry"] is null or "auto" ? "rx" : "ry")
            ),
            "line" => [Path([new(Length("x1"), Length("y1")), new(Length("x2"), Length("y2"))], false)],
            _ => Points(node),
        };
        fault = bad ?? (shape is null ? "its points are no list of numbers" : "");
        return fault.Length == 0 ? shape : null;
    }

    private static List<SvgSubpath> Rect(SvgNode node, Func<string, double> length)
    {
        (double x, double y, double w, double h) = (length("x"), length("y"), length("width"), length("height"));
        double rx = length(node["rx"] is null or "auto" ? "ry" : "rx");
        double ry = length(node["ry"] is null or "auto" ? "rx" : "ry");
        if (!(w > 0 && h > 0))
        {
            return [];
        }
        (rx, ry) = (Math.Clamp(rx, 0, w / 2), Math.Clamp(ry, 0, h / 2));
        if (rx == 0 || ry == 0)
        {
            return [Path([new(x, y), new(x + w, y), new(x + w, y + h), new(x, y + h)], true)];
        }
        Point2[] corners =
        [
            new(x + rx, y),
            new(x + w - rx, y),
            new(x + w, y + ry),
            new(x + w, y + h - ry),
            new(x + w - rx, y + h),
            new(x + rx, y + h),
            new(x, y + h - ry),
            new(x, y + ry),
        ];
        var pieces = new List<SvgPiece>();
        for (int i = 0; i < corners.Length; i++)
        {
            (Point2 from, Point2 to) = (corners[i], corners[(i + 1) % corners.Length]);
            pieces.Add(new SvgPiece([from, to], i % 2 == 1 ? SvgArc.Make(from, to, rx, ry, 0, false, true) : null));
        }
        return [new SvgSubpath(pieces, true)];
    }

    private static List<SvgSubpath> Oval(Point2 centre, double rx, double ry)
    {
        if (!(rx > 0 && ry > 0))
        {
            return [];
        }
        Point2 right = new(centre.X + rx, centre.Y);
        var turn = new SvgArc(centre, new(rx, 0), new(0, ry), 0, 2 * Math.PI);
        return [new SvgSubpath([new SvgPiece([right, right], turn)], true)];
    }

    private static List<SvgSubpath>? Points(SvgNode node)
    {
        if (SvgNumbers.List(node["points"] ?? "") is not { } numbers)
        {
            return null;
        }
        Point2[] points =
        [
            .. Enumerable.Range(0, numbers.Count / 2).Select(i => new Point2(numbers[2 * i], numbers[(2 * i) + 1])),
        ];
        return points.Length < 2 ? [] : [Path(points, node.Name == "polygon")];
    }

    private static SvgSubpath Path(Point2[] points, bool closed)
    {
        var pieces = new List<SvgPiece>();
        for (int i = 1; i < points.Length; i++)
        {
            pieces.Add(new SvgPiece([points[i - 1], points[i]], null));
        }
        if (closed && points[^1] != points[0])
        {
            pieces.Add(new SvgPiece([points[^1], points[0]], null));
        }
        return new SvgSubpath(pieces, closed);
    }
}
