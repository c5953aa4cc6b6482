namespace FixtureGen.Drawing.Reading;

/// <summary>
/// The boundary paths of a HATCH (DXF Reference, Boundary Path Data): a polyline with bulges, or edges: 1 line, 2 arc,
/// 3 ellipse, 4 spline. Angles of a clockwise edge are counted clockwise.
/// </summary>
internal sealed class HatchBoundary(EntityGroups groups)
{
    private const double Degrees = Math.PI / 180;

    private readonly Group[] _all = [.. groups.All];
    private readonly Affine3 _frame = groups.Frame();
    private readonly List<Entity> _curves = [];
    private int _at;

    /// <summary>One entity for each polyline path and each edge; none where the numbers are not all there.</summary>
    public List<Entity> Read()
    {
        _at = Array.FindIndex(_all, g => g.Code == 91) + 1;
        if (_at == 0)
        {
            return [];
        }
        while (_at < _all.Length)
        {
            Group group = _all[_at++];
            if (group.Code is 75 or 76 or 98)
            {
                break;
            }
            if (group.Code == 92)
            {
                bool polyline = ((int)(groups.Value(group) ?? 0) & 2) != 0;
                if (!(polyline ? Polyline() : Edges()))
                {
                    return [];
                }
            }
        }
        return _curves;
    }

    private bool Polyline()
    {
        var vertices = new List<Vertex>();
        bool closed = true;
        double? x = null;
        for (; _at < _all.Length && _all[_at].Code is 72 or 73 or 93 or 10 or 20 or 42; _at++)
        {
            if (groups.Value(_all[_at]) is not { } value)
            {
                return false;
            }
            switch (_all[_at].Code)
            {
                case 73:
                    closed = value != 0;
                    break;
                case 10:
                    x = value;
                    break;
                case 20 when x is { } known:
                    vertices.Add(new Vertex(new Vec3(known, value, 0), 0));
                    x = null;
                    break;
                case 42 when vertices.Count > 0:
                    vertices[^1] = vertices[^1] with { Bulge = value };
                    break;
                default:
                    break;
            }
        }
        if (vertices.Count > 1)
        {
            _curves.Add(FillReader.Poly(groups, _frame, vertices, closed));
        }
        return vertices.Count > 1;
    }

    private bool Edges()
    {
        var edges = new List<Entity>();
        while (_at < _all.Length && _all[_at].Code is not (92 or 97 or 75))
        {
            Group group = _all[_at++];
            if (group.Code != 72)
            {
                continue;
            }
            var values = new List<(int Code, double Value)>();
            int type = (int)(groups.Value(group) ?? 0);
            for (
                ;
                _at < _all.Length && _all[_at].Code is not (72 or 92 or 75) && (type == 4 || _all[_at].Code != 97);
                _at++
            )
            {
                if (groups.Value(_all[_at]) is not { } value)
                {
                    return false;
                }
                values.Add((_all[_at].Code, value));
            }
            if (Edge(type, values) is not { } edge)
            {
                return false;
            }
            edges.Add(edge);
        }
        _curves.AddRange(Chain(edges) is { } path ? [path] : edges);
        return true;
    }

    // Paths may share edges with each other, so one whose edges follow each other stays one curve.
    private PathEntity? Chain(List<Entity> edges)
    {
        (Vec3 From, Vec3 To)[] ends = [.. edges.Select(Ends)];
        double near = 1e-6 * (1 + ends.Select(e => Math.Abs(e.From.X) + Math.Abs(e.From.Y)).DefaultIfEmpty(0).Max());
        for (int i = 0; i < ends.Length; i++)
        {
            if ((ends[i].To - ends[(i + 1) % ends.Length].From).Length > near)
            {
                return null;
            }
        }
        return ends.Length == 0
            ? null
            : new PathEntity
            {
                Type = groups.Type,
                Layer = groups.Layer,
                Line = groups.Line,
                Pieces = edges,
                Closed = true,
            };
    }

    private static (Vec3 From, Vec3 To) Ends(Entity edge) =>
        edge switch
        {
            LineEntity line => (line.From, line.To),
            TurnEntity turn => (PointOn(turn, turn.Start), PointOn(turn, turn.Start + turn.Sweep)),
            SplineEntity spline => (spline.Points[0], spline.Points[^1]),
            _ => throw new ArgumentOutOfRangeException(nameof(edge)),
        };

    private static Vec3 PointOn(TurnEntity turn, double t) =>
        turn.Centre + (turn.U * Math.Cos(t)) + (turn.V * Math.Sin(t));

    private Entity? Edge(int type, List<(int Code, double Value)> values)
    {
        double? Number(int code) => values.FindIndex(v => v.Code == code) is >= 0 and var i ? values[i].Value : null;
        Vec3? Point(int code) => Number(code) is { } x && Number(code + 10) is { } y ? new Vec3(x, y, 0) : null;
        if (type == 4)
        {
            return Spline(values);
        }
        if (Point(10) is not { } at)
        {
            return null;
        }
        if (type == 1)
        {
            return Point(11) is { } to
                ? new LineEntity
                {
                    Type = groups.Type,
                    Layer = groups.Layer,
                    Line = groups.Line,
                    From = _frame.Apply(at),
                    To = _frame.Apply(to),
                }
                : null;
        }
        if (
            type is not (2 or 3)
            || Number(40) is not { } size
            || Number(50) is not { } from
            || Number(51) is not { } end
        )
        {
            return null;
        }
        Vec3 u = type == 2 ? new Vec3(size, 0, 0) : Point(11) ?? default;
        Vec3 v = type == 2 ? new Vec3(0, size, 0) : new Vec3(0, 0, 1).Cross(u) * size;
        if (Number(73) is 0.0)
        {
            v *= -1;
        }
        double sweep = (end - from) % 360;
        return new TurnEntity
        {
            Type = groups.Type,
            Layer = groups.Layer,
            Line = groups.Line,
            Centre = _frame.Apply(at),
            U = _frame.Turn(u),
            V = _frame.Turn(v),
            Start = from * Degrees,
            Sweep = (sweep <= 1e-9 ? sweep + 360 : sweep) * Degrees,
        };
    }

    private SplineEntity? Spline(List<(int Code, double Value)> values)
    {
        int points = (int)(values.Find(v => v.Code == 96).Value);
        double[] xs = [.. values.Where(v => v.Code == 10).Select(v => v.Value)];
        double[] ys = [.. values.Where(v => v.Code == 20).Select(v => v.Value)];
        double[] weights = [.. values.Where(v => v.Code == 42).Select(v => v.Value)];
        return xs.Length == points && ys.Length == points
            ? SplineReader.Make(
                groups,
                (int)values.Find(v => v.Code == 94).Value,
                [.. values.Where(v => v.Code == 40).Select(v => v.Value)],
                [.. xs.Zip(ys, (x, y) => _frame.Apply(new Vec3(x, y, 0)))],
                weights.Length == points ? weights : [.. Enumerable.Repeat(1.0, points)]
            )
            : null;
    }
}
