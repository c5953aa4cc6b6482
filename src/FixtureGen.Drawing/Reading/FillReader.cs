namespace FixtureGen.Drawing.Reading;

/// <summary>
/// What is drawn as an area or a bundle and not as a curve: a hatch's boundary, a solid's edges, a multi-line's lines, a
/// helix's spline (DXF Reference, HATCH, SOLID, TRACE, MLINE, HELIX). What cannot be read has no curves and is passed over.
/// </summary>
internal static class FillReader
{
    public static Entity Read(EntityGroups groups)
    {
        List<Entity> curves = groups.Type switch
        {
            "HATCH" => new HatchBoundary(groups).Read(),
            "MLINE" => MultiLine(groups),
            "HELIX" => SplineReader.Read(groups) is SplineEntity spline ? [spline] : [],
            _ => Corners(groups),
        };
        return new FillEntity
        {
            Type = groups.Type,
            Layer = groups.Layer,
            Line = groups.Line,
            Curves = groups.Fault is null ? curves : [],
        };
    }

    public static PolyEntity Poly(EntityGroups groups, Affine3 frame, List<Vertex> vertices, bool closed) =>
        new()
        {
            Type = groups.Type,
            Layer = groups.Layer,
            Line = groups.Line,
            Frame = frame,
            Vertices = vertices,
            Closed = closed,
            Wide = false,
        };

    // the third and fourth corner are exchanged; a triangle says its third twice
    private static List<Entity> Corners(EntityGroups groups)
    {
        if (
            groups.Point(10) is not { } a
            || groups.Point(11) is not { } b
            || groups.Point(12) is not { } c
            || groups.Point(13) is not { } d
        )
        {
            return [];
        }
        Vec3[] corners = c == d ? [a, b, c] : [a, b, d, c];
        return [Poly(groups, groups.Frame(), [.. corners.Select(p => new Vertex(p, 0))], true)];
    }

    // a line of the bundle runs at its own distance along each vertex's miter
    private static List<Entity> MultiLine(EntityGroups groups)
    {
        bool closed = (groups.IntegerOr(71, 0) & 2) != 0;
        var lines = new List<List<Vertex>>();
        var at = new double[3];
        var miter = new double[3];
        int element = -1;
        bool first = false;
        foreach (Group group in groups.All)
        {
            switch (group.Code)
            {
                case 11 or 21 or 31:
                    at[(group.Code / 10) - 1] = groups.Value(group) ?? 0;
                    element = -1;
                    break;
                case 13 or 23 or 33:
                    miter[(group.Code / 10) - 1] = groups.Value(group) ?? 0;
                    break;
                case 74:
                    element++;
                    first = true;
                    break;
                case 41 when first && groups.Value(group) is { } off:
                    first = false;
                    while (lines.Count <= element)
                    {
                        lines.Add([]);
                    }
                    var vertex = new Vec3(at[0], at[1], at[2]);
                    lines[element].Add(new Vertex(vertex + (new Vec3(miter[0], miter[1], miter[2]) * off), 0));
                    break;
                default:
                    break;
            }
        }
        return [.. lines.Where(l => l.Count > 1).Select(l => Poly(groups, Affine3.Identity, l, closed))];
    }
}
