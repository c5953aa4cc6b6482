namespace FixtureGen.Drawing.Reading;

/// <summary>
/// POLYLINE with its VERTEX entities (DXF Reference, POLYLINE and VERTEX): 70 bit 1 closed, 8 in space, 16 and 64 meshes;
/// a vertex with bit 16 is a control point of a spline's frame and not on the curve.
/// </summary>
internal sealed class PolylineParts
{
    private readonly string _layer;
    private readonly int _line;
    private readonly EntityLook _look;
    private readonly int _flags;
    private readonly double _elevation;
    private readonly Affine3 _frame;
    private readonly List<Vertex> _vertices = [];
    private int _framePoints;
    private bool _wide;
    private string? _fault;

    public PolylineParts(EntityGroups groups)
    {
        _layer = groups.Layer;
        _line = groups.Line;
        _look = groups.Look;
        _flags = groups.IntegerOr(70, 0);
        _elevation = groups.NumberOr(30, 0) ?? 0;
        _frame = (_flags & 8) != 0 ? Affine3.Identity : groups.Frame();
        _wide = groups.NumberOr(40, 0) is not 0.0 || groups.NumberOr(41, 0) is not 0.0;
        _fault = groups.Fault;
    }

    public void Add(EntityGroups vertex)
    {
        if ((vertex.IntegerOr(70, 0) & 16) != 0)
        {
            _framePoints++;
            return;
        }
        bool inSpace = (_flags & 8) != 0;
        if (vertex.Point(10) is { } at && vertex.NumberOr(42, 0) is { } bulge)
        {
            _vertices.Add(
                new Vertex(inSpace || _elevation == 0 ? at : at with { Z = _elevation }, inSpace ? 0 : bulge)
            );
        }
        else
        {
            _fault ??= vertex.Fault ?? "a vertex has no place";
        }
        _wide |= vertex.NumberOr(40, 0) is not 0.0 || vertex.NumberOr(41, 0) is not 0.0;
    }

    public Entity Entity() => Shape() with { Look = _look };

    private Entity Shape()
    {
        if ((_flags & (16 | 64)) != 0)
        {
            return new OtherEntity
            {
                Type = "POLYLINE",
                Layer = _layer,
                Line = _line,
            };
        }
        if (_fault is null && _vertices.Count == 0 && _framePoints > 0)
        {
            _fault = "it has a spline's frame and no points on the curve";
        }
        return _fault is { } why
            ? new BadEntity
            {
                Type = "POLYLINE",
                Layer = _layer,
                Line = _line,
                Why = why,
            }
            : new PolyEntity
            {
                Type = "POLYLINE",
                Layer = _layer,
                Line = _line,
                Frame = _frame,
                Vertices = _vertices,
                Closed = (_flags & 1) != 0,
                Wide = _wide,
            };
    }
}
