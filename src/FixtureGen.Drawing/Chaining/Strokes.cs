using System.Collections.Immutable;
using FixtureGen.Drawing.Reading;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Chaining;

/// <summary>Gathers placed entities as flat curves, points and texts, and remembers what was odd about them.</summary>
internal sealed class Strokes(string file, double chord)
{
    /// <summary>Coordinates beyond this (mm) are no part; a double holds no micrometre there.</summary>
    private const double Farthest = 1e9;

    private readonly SortedDictionary<string, int> _passedOver = new(StringComparer.Ordinal);
    private readonly List<Finding> _bad = [];
    private readonly List<(FillEntity, Affine3, string, CurveLook)> _fills = [];
    private readonly SortedDictionary<string, int> _filled = new(StringComparer.Ordinal);
    private (int Count, string Entity, int Line) _tilted;
    private (int Count, int Line) _wide;
    private (int Count, int Line) _fitOnly;
    private CurveLook _look = CurveLook.Plain;

    public List<DrawnCurve> Curves { get; } = [];

    public List<DrawnPoint> Points { get; } = [];

    public List<DrawnText> Texts { get; } = [];

    public long SegmentCount { get; private set; }

    /// <summary>Pieces without length that were left out.</summary>
    public int Empty { get; private set; }

    public void Add(Entity entity, Affine3 place, string layer, CurveLook look)
    {
        _look = look;
        switch (entity)
        {
            case LineEntity line:
                Line(line, place, layer);
                break;
            case TurnEntity turn:
                Turn(turn, place, layer);
                break;
            case PathEntity path:
                Path(path, place, layer);
                break;
            case PolyEntity poly:
                Polyline(poly, place, layer);
                break;
            case SplineEntity spline:
                Spline(spline, place, layer);
                break;
            case PointEntity point when Believed(entity, place.Apply(point.At)):
                Points.Add(new DrawnPoint(place.Apply(point.At).Xy, layer, look));
                break;
            case TextEntity text when Believed(entity, place.Apply(text.At)):
                Text(text, place, layer);
                break;
            case BadEntity bad:
                Bad(bad, bad.Why);
                break;
            case FillEntity fill:
                _passedOver[entity.Type] = _passedOver.GetValueOrDefault(entity.Type) + 1;
                if (Curves.Count == 0 && fill.Curves.Count > 0)
                {
                    _fills.Add((fill, place, layer, look));
                }
                break;
            case OtherEntity:
                _passedOver[entity.Type] = _passedOver.GetValueOrDefault(entity.Type) + 1;
                break;
            default:
                break;
        }
    }

    /// <summary>Where nothing else was drawn, hatches, solids, multi-lines and helices are the drawing.</summary>
    public void TakeFills()
    {
        if (Curves.Count > 0 || _fills.Count == 0)
        {
            return;
        }
        foreach ((FillEntity fill, Affine3 place, string layer, CurveLook look) in _fills)
        {
            _passedOver[fill.Type]--;
            _filled[fill.Type] = _filled.GetValueOrDefault(fill.Type) + 1;
            foreach (Entity curve in fill.Curves)
            {
                Add(curve, place, layer, look);
            }
        }
    }

    public IEnumerable<Finding> Findings()
    {
        foreach (Finding finding in _bad)
        {
            yield return finding;
        }
        if (_tilted.Count > 0)
        {
            yield return DxfFindings.Tilted(file, _tilted.Entity, _tilted.Line, _tilted.Count);
        }
        if (_wide.Count > 0)
        {
            yield return DxfFindings.Wide(file, _wide.Line, _wide.Count);
        }
        if (_fitOnly.Count > 0)
        {
            yield return DxfFindings.FitOnly(file, _fitOnly.Line, _fitOnly.Count);
        }
        if (_filled.Count > 0)
        {
            yield return DxfFindings.Filled(file, List(_filled));
        }
        if (_passedOver.Values.Any(n => n > 0))
        {
            yield return DxfFindings.PassedOver(
                file,
                List(_passedOver),
                _passedOver.Any(p => p.Value > 0 && MayBeOutline(p.Key))
            );
        }
    }

    private static string List(SortedDictionary<string, int> counts) =>
        string.Join(", ", counts.Where(p => p.Value > 0).Select(p => DxfFindings.Text($"{p.Value} {p.Key}")));

    // What a part could have been drawn with although this reader takes no outline from it.
    private static bool MayBeOutline(string type) =>
        type is "REGION" or "BODY" or "3DSOLID" or "MLINE" or "HELIX" or "SURFACE" or "POLYLINE" or "MESH"
        || type.EndsWith("PROXY_ENTITY", StringComparison.Ordinal)
        || type.EndsWith("SURFACE", StringComparison.Ordinal);

    private void Line(LineEntity line, Affine3 place, string layer)
    {
        Vec3 from = place.Apply(line.From);
        Vec3 to = place.Apply(line.To);
        if (Believed(line, from) && Believed(line, to))
        {
            Level(line, from.Z - to.Z);
            Keep([Segment.Line(from.Xy, to.Xy)], false, line, layer);
        }
    }

    private void Turn(TurnEntity turn, Affine3 place, string layer)
    {
        if (TurnSegments(turn, place) is (var segments, var full))
        {
            Keep(segments, full, turn, layer);
        }
    }

    private (List<Segment> Segments, bool Full)? TurnSegments(TurnEntity turn, Affine3 place)
    {
        Vec3 centre = place.Apply(turn.Centre);
        Vec3 u = place.Turn(turn.U);
        Vec3 v = place.Turn(turn.V);
        if (!Believed(turn, centre) || !Believed(turn, u) || !Believed(turn, v))
        {
            return null;
        }
        Level(turn, u.Z);
        Level(turn, v.Z);
        var ellipse = new EllipseArcs(centre.Xy, u.Xy, v.Xy, turn.Start, turn.Sweep);
        return (Round(ellipse), ellipse.IsFull);
    }

    // Seen on edge a circle is a line there and back: no outline.
    private List<Segment> Round(EllipseArcs ellipse)
    {
        double larger = Math.Max(ellipse.U.Length, ellipse.V.Length);
        return Math.Abs(ellipse.U.Cross(ellipse.V)) <= 1e-9 * larger * larger
            ? []
            : ellipse.Segments(Chord(2 * larger));
    }

    private void Polyline(PolyEntity poly, Affine3 place, string layer)
    {
        Affine3 whole = place.After(poly.Frame);
        List<Vertex> vertices = poly.Vertices;
        if (vertices.Exists(v => !Believed(poly, whole.Apply(v.At))))
        {
            return;
        }
        if (poly.Wide)
        {
            _wide = (_wide.Count + 1, _wide.Count == 0 ? poly.Line : _wide.Line);
        }
        var segments = new List<Segment>(vertices.Count);
        int last = poly.Closed ? vertices.Count : vertices.Count - 1;
        for (int i = 0; i < last; i++)
        {
            Vertex from = vertices[i];
            Vertex to = vertices[(i + 1) % vertices.Count];
            Level(poly, whole.Turn(to.At - from.At).Z);
            Span(from, to.At, whole, segments);
        }
        Keep(segments, poly.Closed && vertices.Count > 1, poly, layer);
    }

    // A bulge is an arc in the polyline's own plane, so it is made there and then placed like any other.
    private void Span(Vertex from, Vec3 to, Affine3 whole, List<Segment> into)
    {
        Point2 start = whole.Apply(from.At).Xy;
        Point2 end = whole.Apply(to).Xy;
        if (start == end)
        {
            Empty++;
            return;
        }
        double chordLength = from.At.Xy.DistanceTo(to.Xy);
        if (Math.Abs(from.Bulge) * chordLength < 1e-9 * Math.Max(1, chordLength))
        {
            into.Add(Segment.Line(start, end));
            return;
        }
        Segment own = Bulges.Arc(from.At.Xy, to.Xy, from.Bulge);
        Point2 arm = own.Start - own.Centre;
        Vec3 u = whole.Turn(new(arm.X, arm.Y, 0));
        Vec3 v = whole.Turn(new(-arm.Y, arm.X, 0)) * Math.Sign(from.Bulge);
        Vec3 centre = whole.Apply(new(own.Centre.X, own.Centre.Y, from.At.Z));
        var turn = new EllipseArcs(centre.Xy, u.Xy, v.Xy, 0, Math.Abs(own.Sweep));
        List<Segment> arcs = Round(turn);
        if (arcs.Count == 0 || !double.IsFinite(centre.X + centre.Y))
        {
            into.Add(Segment.Line(start, end));
            return;
        }
        arcs[0] = arcs[0] with { Start = start };
        arcs[^1] = arcs[^1] with { End = end };
        into.AddRange(arcs);
    }

    // Pieces meet in the points that the file says, whatever rounding makes of an arc's ends.
    private void Path(PathEntity path, Affine3 place, string layer)
    {
        var whole = new List<Segment>();
        foreach (Entity piece in path.Pieces)
        {
            List<Segment>? own = piece switch
            {
                LineEntity line when Believed(path, place.Apply(line.From)) && Believed(path, place.Apply(line.To)) =>
                [
                    Segment.Line(place.Apply(line.From).Xy, place.Apply(line.To).Xy),
                ],
                TurnEntity turn => TurnSegments(turn, place)?.Segments,
                SplineEntity spline => SplineSegments(spline, place),
                _ => null,
            };
            if (own is null)
            {
                return;
            }
            own.RemoveAll(s => s.Start == s.End && s.Length < 1e-9);
            if (own.Count > 0 && whole.Count > 0)
            {
                own[0] = own[0] with { Start = whole[^1].End };
            }
            whole.AddRange(own);
        }
        bool closed = path.Closed && whole.Count > 0;
        if (closed && whole[^1].End != whole[0].Start)
        {
            if (whole[^1].End.DistanceTo(whole[0].Start) <= 1e-9 * Math.Max(1, whole.Max(s => s.Length)))
            {
                whole[^1] = whole[^1] with { End = whole[0].Start };
            }
            else
            {
                whole.Add(Segment.Line(whole[^1].End, whole[0].Start));
            }
        }
        Keep(whole, closed && whole.Count > 1, path, layer);
    }

    private void Spline(SplineEntity spline, Affine3 place, string layer)
    {
        if (SplineSegments(spline, place) is { } segments)
        {
            Keep(segments, segments.Count > 1 && segments[0].Start == segments[^1].End, spline, layer);
        }
    }

    private List<Segment>? SplineSegments(SplineEntity spline, Affine3 place)
    {
        Vec3[] points = [.. (spline.Points.Length > 0 ? spline.Points : spline.FitPoints).Select(place.Apply)];
        if (Array.Exists(points, p => !Believed(spline, p)))
        {
            return null;
        }
        Level(spline, points.Max(p => p.Z) - points.Min(p => p.Z));
        Point2[] flat = [.. points.Select(p => p.Xy)];
        double size = flat.Max(p => p.DistanceTo(flat[0]));
        if (size <= 0)
        {
            Empty++;
            return null;
        }
        List<Segment> segments;
        if (spline.Points.Length > 0)
        {
            segments = new SplineArcs(spline.Degree, spline.Knots, flat, spline.Weights).Segments(Chord(size));
        }
        else
        {
            _fitOnly = (_fitOnly.Count + 1, _fitOnly.Count == 0 ? spline.Line : _fitOnly.Line);
            segments = SplineThrough.Segments(
                flat,
                spline.StartTangent is { } a ? place.Turn(a).Xy : null,
                spline.EndTangent is { } b ? place.Turn(b).Xy : null,
                spline.Closed,
                Chord(size)
            );
        }
        return segments;
    }

    private void Text(TextEntity text, Affine3 place, string layer)
    {
        Point2 along = place.Turn(text.Along).Xy;
        Point2 up = place.Turn(text.Up).Xy;
        if (text.Text.Length > 0 && along.Length > 0)
        {
            double angle = Math.Atan2(along.Y, along.X) * 180 / Math.PI;
            Texts.Add(new DrawnText(text.Text, place.Apply(text.At).Xy, up.Length, angle, layer, text.FromLeft, _look));
        }
    }

    private void Keep(List<Segment> segments, bool closed, Entity entity, string layer)
    {
        int before = segments.Count;
        segments.RemoveAll(s => s.Start == s.End && s.Length < 1e-9);
        Empty += before - segments.Count + (before == 0 ? 1 : 0);
        if (!segments.TrueForAll(IsFinite))
        {
            Bad(entity, "it has no finite curve");
        }
        else if (segments.Count > 0)
        {
            SegmentCount += segments.Count;
            Curves.Add(new DrawnCurve(new OpenPath([.. segments]), closed, layer, entity.Type, entity.Line, _look));
        }
    }

    // weights or knots of extreme size overflow although each is a number
    private static bool IsFinite(Segment s) =>
        double.IsFinite(s.Start.X + s.Start.Y + s.End.X + s.End.Y + s.Centre.X + s.Centre.Y);

    private bool Believed(Entity entity, Vec3 p)
    {
        bool believed = Math.Abs(p.X) <= Farthest && Math.Abs(p.Y) <= Farthest && double.IsFinite(p.Z);
        if (!believed)
        {
            Bad(entity, "it lies more than 1000 km from the drawing's origin");
        }
        return believed;
    }

    private void Bad(Entity entity, string why)
    {
        if (_bad.Count < 50)
        {
            _bad.Add(DxfFindings.Unreadable(file, entity.Type, entity.Line, why));
        }
    }

    private void Level(Entity entity, double rise)
    {
        if (Math.Abs(rise) > 0.01)
        {
            _tilted = _tilted.Count == 0 ? (1, entity.Type, entity.Line) : _tilted with { Count = _tilted.Count + 1 };
        }
    }

    // Fine curves of tiny or unitless drawings keep their shape; beyond 1e-7 of a curve's size nothing is gained.
    private double Chord(double size) => Math.Max(Math.Min(chord, size * 4e-5), size * 1e-7);
}
