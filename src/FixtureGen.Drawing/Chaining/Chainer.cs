using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Chaining;

/// <summary>Loops, open chains and what was put right to get them.</summary>
internal sealed record Chained(
    ImmutableArray<DrawnLoop> Loops,
    ImmutableArray<OpenChain> Open,
    ImmutableArray<Repair> Repairs,
    ImmutableArray<Finding> Findings
);

/// <summary>
/// Chains curves end to end. Where exactly two ends meet the way goes on; tails that hang on a loop are cut off as open
/// chains; where more than two ends remain, the place is named and the pieces stay open.
/// </summary>
internal sealed class Chainer(ChainLimits limits, string file)
{
    private readonly PathTidy _tidy = new(limits);
    private readonly List<Finding> _findings = [];
    private readonly List<(List<Segment> Path, string Layer)> _loops = [];
    private readonly List<(List<Segment> Path, string Layer)> _open = [];
    private readonly List<DrawnLoop> _ofLayers = [];
    private readonly SortedSet<(double X, double Y)> _junctions = [];
    private int _twice;
    private int _flat;

    public static Chained Chain(IEnumerable<DrawnCurve> curves, ChainLimits limits, string file) =>
        new Chainer(limits, file).Run(curves);

    /// <summary>
    /// As <see cref="Chain"/>, with the loops that single layers close by themselves: an edge that two layers share, or a note
    /// drawn across, must not open them.
    /// </summary>
    public static Chained ChainLayers(IReadOnlyCollection<DrawnCurve> curves, ChainLimits limits, string file)
    {
        IGrouping<string, DrawnCurve>[] layers = [.. curves.GroupBy(c => c.Layer, StringComparer.OrdinalIgnoreCase)];
        var whole = new Chainer(limits, file);
        if (layers.Length > 1)
        {
            whole._ofLayers.AddRange(layers.SelectMany(l => new Chainer(limits, file).Run(l).Loops));
        }
        return whole.Run(curves);
    }

    private Chained Run(IEnumerable<DrawnCurve> curves)
    {
        var pieces = new List<Piece>();
        foreach (DrawnCurve curve in curves)
        {
            List<Segment> path = _tidy.Clean(curve.Path.Segments, curve.Closed);
            if (path.Count > 0)
            {
                pieces.Add(new Piece(path, curve.Closed, curve.Layer));
            }
        }
        pieces = WithoutDuplicates(pieces);
        var overlaps = new Overlaps(limits);
        pieces = overlaps.Clean(pieces);
        if (!overlaps.Complete)
        {
            return new Chained([], [], [], [ChainFindings.Tangled(file)]);
        }
        _twice += overlaps.Removed;
        _loops.AddRange(pieces.Where(p => p.Closed).Select(p => (p.Path, p.Layer)));
        List<Piece> edges = pieces.FindAll(p => !p.Closed);
        var nodes = EndNodes.Build(edges, limits);
        Walk(edges, nodes);
        List<DrawnLoop> loops = Loops();
        DropOpenOnLoops(loops);
        var crossings = new LoopCrossings(limits, file);
        List<DrawnLoop> marked = crossings.Mark(loops);
        bool nestedAll = true;
        ImmutableArray<DrawnLoop> nested = crossings.Complete ? LoopDepths.Sorted(marked, out nestedAll) : [.. marked];
        ImmutableArray<OpenChain> open = OpenChains();
        _findings.AddRange(crossings.Findings);
        _findings.AddRange(OpenEnds.Findings(nested, open, _junctions, limits, file));
        if (!nodes.Complete || !nestedAll)
        {
            _findings.Add(ChainFindings.Tangled(file));
        }
        return new Chained(nested, open, Repairs(nodes), [.. _findings.DistinctBy(f => (f.Code, f.At, f.Message))]);
    }

    private List<Piece> WithoutDuplicates(List<Piece> pieces)
    {
        HashSet<int> twice = new Duplicates(limits).Find([.. pieces.Select(p => p.Path)]);
        _twice += twice.Count;
        return [.. pieces.Where((_, i) => !twice.Contains(i))];
    }

    private void Walk(List<Piece> edges, EndNodes nodes)
    {
        var ways = new EdgeWays(edges, nodes);
        foreach (List<(int Edge, bool Forward)> tail in ways.CutTails())
        {
            _open.Add(Path(edges, tail, false));
            _junctions.UnionWith(ways.JunctionsOf(tail));
        }
        foreach ((List<(int Edge, bool Forward)> way, bool closed) in ways.Chains())
        {
            (closed ? _loops : _open).Add(Path(edges, way, closed));
            if (!closed)
            {
                _junctions.UnionWith(ways.JunctionsOf(way));
            }
        }
    }

    private static (List<Segment>, string) Path(List<Piece> edges, List<(int Edge, bool Forward)> way, bool closed)
    {
        var path = new List<Segment>();
        foreach ((int edge, bool forward) in way)
        {
            List<Segment> own = edges[edge].Path;
            for (int i = 0; i < own.Count; i++)
            {
                Weld.Append(path, forward ? own[i] : own[own.Count - 1 - i].Reversed);
            }
        }
        if (closed)
        {
            Weld.Close(path);
        }
        return (path, way.Select(w => edges[w.Edge].Layer).Order(StringComparer.Ordinal).First());
    }

    private List<DrawnLoop> Loops()
    {
        var loops = new List<DrawnLoop>();
        foreach ((List<Segment> raw, string layer) in _loops)
        {
            List<Segment> path = _tidy.Clean(raw, true);
            double area = path.Count > 1 ? LoopMath.Area(path) : 0;
            double length = LoopMath.Length(path);
            if (path.Count < 2 || Math.Abs(area) <= limits.Near * length / 8)
            {
                _flat++;
                continue;
            }
            if (area < 0)
            {
                path = [.. path.AsEnumerable().Reverse().Select(s => s.Reversed)];
            }
            var contour = new Contour([.. path]);
            loops.Add(new DrawnLoop(contour, layer, 0, Math.Abs(area), length, LoopMath.Bounds(path), []));
        }
        HashSet<int> twice = new Duplicates(limits).Find([.. loops.Select(l => l.Contour.Segments)]);
        _twice += twice.Count;
        loops = [.. loops.Where((_, i) => !twice.Contains(i))];
        if (_ofLayers.Count == 0)
        {
            return loops;
        }
        List<DrawnLoop> both = [.. loops, .. _ofLayers];
        twice = new Duplicates(limits).Find([.. both.Select(l => l.Contour.Segments)]);
        return [.. both.Where((_, i) => !twice.Contains(i))];
    }

    // A stray line drawn over a loop's edge adds nothing.
    private void DropOpenOnLoops(List<DrawnLoop> loops)
    {
        if (_open.Count == 0 || loops.Count == 0)
        {
            return;
        }
        List<Segment> edges = [.. loops.SelectMany(l => l.Contour.Segments)];
        var grid = new SegmentGrid([.. edges.Select(Measure.Bounds)], limits.Near);
        _twice += _open.RemoveAll(o =>
            o.Path.TrueForAll(s => Lies(s.Start) && Lies(LoopMath.Middle(s)) && Lies(s.End))
        );

        bool Lies(Point2 p) => grid.SegmentsNear(p).Any(i => Measure.Distance(p, edges[i]) <= limits.Near);
    }

    private ImmutableArray<OpenChain> OpenChains() =>
        [
            .. _open
                .Select(o => new OpenChain(
                    new OpenPath([.. o.Path]),
                    o.Layer,
                    LoopMath.Length(o.Path),
                    o.Path[0].Start.DistanceTo(o.Path[^1].End)
                ))
                .OrderByDescending(o => o.LengthMm),
        ];

    private ImmutableArray<Repair> Repairs(EndNodes nodes)
    {
        var repairs = ImmutableArray.CreateBuilder<Repair>();
        if (nodes.Joined.Count > 0)
        {
            repairs.Add(ChainFindings.GapsJoined(nodes.Joined));
        }
        if (_twice > 0)
        {
            repairs.Add(ChainFindings.DrawnTwice(_twice));
        }
        if (_tidy.Spikes > 0)
        {
            repairs.Add(ChainFindings.SpikesRemoved(_tidy.Spikes));
        }
        if (_tidy.Short > 0)
        {
            repairs.Add(ChainFindings.ShortRemoved(_tidy.Short));
        }
        if (_flat > 0)
        {
            repairs.Add(ChainFindings.FlatRemoved(_flat));
        }
        return repairs.ToImmutable();
    }
}
