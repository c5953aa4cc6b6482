using System.Text.RegularExpressions;
using FixtureGen.Drawing.Reading;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Svg;

/// <summary>
/// Walks an SVG document and gathers its shapes as entities with y up. A shape's layer is the label of the nearest group round
/// it, else the id of the outermost, else its own; an id or label that names a role goes before. What is not rendered (SVG 2, 5.5 to 5.8) makes nothing.
/// </summary>
internal sealed partial class SvgScan
{
    private static readonly string[] Never =
    [
        "defs",
        "symbol",
        "clipPath",
        "mask",
        "pattern",
        "marker",
        "linearGradient",
        "radialGradient",
        "filter",
        "metadata",
        "title",
        "desc",
        "style",
        "script",
        "namedview",
    ];

    /// <summary>Most elements and uses inside each other.</summary>
    private const int Deepest = 300;

    private readonly string _file;
    private readonly DxfFile _into = new() { Version = "SVG" };
    private readonly SvgStyles _styles = new();
    private readonly Dictionary<string, SvgNode> _ids = new(StringComparer.Ordinal);
    private readonly HashSet<SvgNode> _used = [];
    private Finding? _refusal;
    private long _pieces;
    private long _characters;

    private SvgScan(string file) => _file = file;

    /// <summary>True for bytes that start like XML.</summary>
    public static bool LooksLike(ReadOnlySpan<byte> head) => head is [(byte)'<', ..];

    /// <summary>The document's shapes and the unit where it states one; null with the reason.</summary>
    /// <param name="stated">What the job or the user says one unit is. Where the document says another one, its user units are that; pixels are its own.</param>
    public static DxfFile? Read(byte[] bytes, string file, LengthUnit? stated, out Finding? refusal)
    {
        if (SvgTree.Read(bytes, file, out refusal) is not { } root)
        {
            refusal ??= DxfFindings.Empty(file);
            return null;
        }
        if (root.Name != "svg")
        {
            refusal = DxfFindings.NotADrawing(file, $"an XML file of <{root.Name}>");
            return null;
        }
        var scan = new SvgScan(file);
        scan.Gather(root);
        scan.Root(root, stated);
        refusal = scan._refusal;
        return refusal is null ? scan._into : null;
    }

    private void Gather(SvgNode node)
    {
        if (node["id"] is { } id)
        {
            _ids.TryAdd(id, node);
        }
        if (node.Name == "style")
        {
            _styles.Take(node.Text.ToString());
        }
        node.Children.ForEach(Gather);
    }

    private void Root(SvgNode root, LengthUnit? stated)
    {
        LengthUnit? unit = SvgViewport.Unit(root);
        (double X, double Y, double Width, double Height)? box = SvgViewport.Box(root);
        double? width = SvgNumbers.Length(root["width"] ?? "");
        double? height = SvgNumbers.Length(root["height"] ?? "");
        Affine3 place = Affine3.Identity;
        double tall = box is { } b ? b.Y + b.Height : height ?? 0;
        LengthUnit? sized =
            stated is null || stated == unit ? unit
            : stated == LengthUnit.Pixel ? stated
            : null;
        if (sized is { } known)
        {
            // by the recommendation in pixels, then in the unit
            double perPixel = DxfUnits.Millimetres(LengthUnit.Pixel) / DxfUnits.Millimetres(known);
            place = SvgTransform.Matrix(perPixel, 0, 0, perPixel, 0, 0).After(SvgViewport.Fit(root, width, height));
            tall =
                perPixel * (height ?? (box is { } v ? (width is { } w ? w * v.Height / v.Width : v.Y + v.Height) : 0));
        }
        _into.InsUnits = unit is { } drawn ? DxfUnits.Code(drawn) : null;
        _into.PixelMm = unit is null
            ? DxfUnits.Millimetres(LengthUnit.Pixel) * (box is { } own && width is { } wide ? wide / own.Width : 1)
            : null;
        Affine3 up = SvgTransform.Matrix(1, 0, 0, -1, 0, tall);
        Children(root, up.After(place), SvgLook.Start.With(_styles.Own(root)), null, 0);
    }

    private void Children(SvgNode node, Affine3 place, SvgLook look, string? layer, int depth)
    {
        if (depth > Deepest)
        {
            _refusal ??= DxfFindings.TooDeep(_file, node.Line, Deepest);
            return;
        }
        foreach (SvgNode child in node.Children)
        {
            if (_refusal is null && !Never.Contains(child.Name))
            {
                Element(child, place, look, layer, depth + 1);
            }
        }
    }

    private void Element(SvgNode node, Affine3 outer, SvgLook above, string? outerLayer, int depth)
    {
        _characters += node.Size;
        if (++_pieces > DxfScan.MostEntities || _characters > SvgTree.MostCharacters)
        {
            _refusal = DxfFindings.TooMany(
                _file,
                "elements and pieces, each use counted",
                _pieces,
                DxfScan.MostEntities
            );
            return;
        }
        if (depth > Deepest)
        {
            _refusal = DxfFindings.TooDeep(_file, node.Line, Deepest);
            return;
        }
        Dictionary<string, string> own = _styles.Own(node);
        SvgLook look = above.With(own);
        string? layer = Layer(node, outerLayer);
        string written = own.GetValueOrDefault("transform") ?? node["transform"] ?? "";
        if (SvgTransform.Parse(written) is not { } transform)
        {
            Bad(node, layer, $"its transform '{Short(written)}' is none that SVG knows");
            return;
        }
        if (node["clip-path"] is not null || node["mask"] is not null)
        {
            _into.Odd("a shape is clipped or masked, and read whole");
        }
        Affine3 place = outer.After(transform);
        switch (node.Name)
        {
            case "g" or "a" or "switch":
                Children(node, place, look, layer, depth);
                break;
            case "svg":
                Nested(node, place, look, layer, depth);
                break;
            case "use":
                Use(node, place, look, layer, depth);
                break;
            case "path" or "rect" or "circle" or "ellipse" or "line" or "polyline" or "polygon":
                Shape(node, place, look, layer);
                break;
            case "text":
                Text(node, place, look, layer);
                break;
            default:
                _into.Entities.Add(
                    new OtherEntity
                    {
                        Type = node.Name,
                        Layer = layer ?? "0",
                        Line = node.Line,
                        Look = look.ForEntity,
                    }
                );
                break;
        }
    }

    private void Nested(SvgNode node, Affine3 place, SvgLook look, string? layer, int depth)
    {
        double x = SvgNumbers.Length(node["x"] ?? "") ?? 0;
        double y = SvgNumbers.Length(node["y"] ?? "") ?? 0;
        Affine3 fit = SvgViewport.Fit(
            node,
            SvgNumbers.Length(node["width"] ?? ""),
            SvgNumbers.Length(node["height"] ?? "")
        );
        Children(node, place.After(SvgTransform.Matrix(1, 0, 0, 1, x, y)).After(fit), look, layer, depth);
    }

    private void Use(SvgNode node, Affine3 place, SvgLook look, string? layer, int depth)
    {
        string href = node["href"] ?? "";
        if (!href.StartsWith('#') || !_ids.TryGetValue(href[1..], out SvgNode? meant))
        {
            _into.Findings.Add(
                href.StartsWith('#')
                    ? DxfFindings.BlockMissing(_file, href, node.Line, 1)
                    : DxfFindings.BlockOutside(_file, href, node.Line)
            );
            return;
        }
        if (!_used.Add(meant))
        {
            _refusal = DxfFindings.BlockInItself(_file, href, node.Line);
            return;
        }
        double x = SvgNumbers.Length(node["x"] ?? "") ?? 0;
        double y = SvgNumbers.Length(node["y"] ?? "") ?? 0;
        Affine3 moved = place.After(SvgTransform.Matrix(1, 0, 0, 1, x, y));
        if (meant.Name == "symbol")
        {
            double? width = SvgNumbers.Length(node["width"] ?? meant["width"] ?? "");
            double? height = SvgNumbers.Length(node["height"] ?? meant["height"] ?? "");
            Affine3 fit = SvgViewport.Fit(meant, width, height);
            Children(meant, moved.After(fit), look.With(_styles.Own(meant)), layer, depth + 1);
        }
        else
        {
            Element(meant, moved, look, layer, depth + 1);
        }
        _used.Remove(meant);
    }

    private void Shape(SvgNode node, Affine3 place, SvgLook look, string? layer)
    {
        if (SvgShapes.Read(node, out string fault) is not { } paths)
        {
            Bad(node, layer, fault);
            return;
        }
        foreach (SvgSubpath path in paths)
        {
            _pieces += path.Pieces.Count;
            _into.Entities.Add(
                new PathEntity
                {
                    Type = node.Name,
                    Layer = layer ?? "0",
                    Line = node.Line,
                    Look = look.ForEntity,
                    // filling closes a path that has no line of its own (SVG 2, 13.4)
                    Closed = path.Closed || look.FilledOnly,
                    Pieces = [.. path.Pieces.Select(p => Piece(p, node, layer, place))],
                }
            );
        }
    }

    private static Entity Piece(SvgPiece piece, SvgNode node, string? layer, Affine3 place)
    {
        Vec3 At(Point2 p) => place.Apply(new Vec3(p.X, p.Y, 0));
        Vec3 Along(Point2 p) => place.Turn(new Vec3(p.X, p.Y, 0));
        if (piece.Arc is { } arc)
        {
            return new TurnEntity
            {
                Type = node.Name,
                Layer = layer ?? "0",
                Line = node.Line,
                Centre = At(arc.Centre),
                U = Along(arc.U),
                V = Along(arc.V),
                Start = arc.Start,
                Sweep = arc.Sweep,
            };
        }
        int degree = piece.Points.Length - 1;
        return degree == 1
            ? new LineEntity
            {
                Type = node.Name,
                Layer = layer ?? "0",
                Line = node.Line,
                From = At(piece.Points[0]),
                To = At(piece.Points[1]),
            }
            : new SplineEntity
            {
                Type = node.Name,
                Layer = layer ?? "0",
                Line = node.Line,
                Degree = degree,
                Knots = [.. Enumerable.Repeat(0.0, degree + 1), .. Enumerable.Repeat(1.0, degree + 1)],
                Points = [.. piece.Points.Select(At)],
                Weights = [.. Enumerable.Repeat(1.0, degree + 1)],
                FitPoints = [],
                StartTangent = null,
                EndTangent = null,
                Closed = false,
            };
    }

    private void Text(SvgNode node, Affine3 place, SvgLook look, string? layer)
    {
        string text = string.Join(' ', Words(node).Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        SvgNode first = node["x"] is null && node.Children.Find(c => c["x"] is not null) is { } span ? span : node;
        double? x = SvgNumbers.Length(first["x"] ?? "0");
        double? y = SvgNumbers.Length(first["y"] ?? "0");
        if (text.Length == 0 || x is null || y is null)
        {
            return;
        }
        // capitals stand about 0.7 of the font size high (common practice, no source)
        double height = 0.7 * look.FontSize;
        _into.Entities.Add(
            new TextEntity
            {
                Type = "text",
                Layer = layer ?? "0",
                Line = node.Line,
                Look = look.ForEntity with { LineType = "BYLAYER" },
                Text = text,
                At = place.Apply(new Vec3(x.Value, y.Value, 0)),
                Along = place.Turn(new Vec3(height, 0, 0)),
                Up = place.Turn(new Vec3(0, -height, 0)),
                FromLeft = look.FromLeft,
            }
        );
    }

    private static string Words(SvgNode node) =>
        node.Text.ToString() + string.Concat(node.Children.Select(c => " " + Words(c)));

    private void Bad(SvgNode node, string? layer, string why) =>
        _into.Entities.Add(
            new BadEntity
            {
                Type = node.Name,
                Layer = layer ?? "0",
                Line = node.Line,
                Why = why,
            }
        );

    private static string? Layer(SvgNode node, string? outer)
    {
        if (new[] { node["label"], node["id"] }.FirstOrDefault(IsRole) is { } role)
        {
            return role;
        }
        if (IsRole(outer))
        {
            return outer;
        }
        string? id = node["id"] is { } own && !Automatic().IsMatch(own) ? own : null;
        return node.Name is "g" or "svg" or "a" ? node["label"] ?? outer ?? id : outer ?? node["label"] ?? id;
    }

    private static bool IsRole(string? name) =>
        name is not null
        && DrawingRoles.House.Layers.Any(r => r.Name.Equals(name.Trim(), StringComparison.OrdinalIgnoreCase));

    private static string Short(string text) => text.Length <= 40 ? text : text[..40] + "...";

    // what drawing programs number by themselves names nothing
    [GeneratedRegex(
        "^(svg|g|use|path|rect|circle|ellipse|line|poly(line|gon)|text|group|shape|object)?[-_ ]*[0-9]",
        RegexOptions.IgnoreCase
    )]
    private static partial Regex Automatic();
}
