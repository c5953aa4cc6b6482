using System.Collections.Immutable;
using System.Runtime.Intrinsics;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// Regions of loops that do not cross and run the right way already: counter-clockwise outside, clockwise holes. A hole
/// belongs to the smallest outer loop that goes round a point of it that is clear of all outer loops.
/// </summary>
internal sealed class LoopNesting
{
    // How many points of a hole are tried, and how many grids clear one must be to be believed at once.
    private const int MostProbes = 12;
    private const double Clear = 4;

    private readonly double _clear;
    private readonly LoopBlocks _blocks = new();
    private readonly BoxTree _tree = new();
    private readonly List<int> _found = [];
    private readonly List<int> _around = [];
    private int[] _turns = [];

    public LoopNesting(double grid) => _clear = Clear * grid;

    /// <summary>Null where a hole lies in nothing: the loops are broken then.</summary>
    public ImmutableArray<Region>? Regions(List<Loop> loops)
    {
        if (loops.Count == 1)
        {
            return loops[0].Area > 0 ? [Region.From(loops[0].Contour)] : null;
        }
        if (loops.TrueForAll(static l => l.Area > 0))
        {
            return [.. loops.Select(static l => Region.From(l.Contour))];
        }
        Index(loops);
        var holes = new List<Contour>?[loops.Count];
        for (int i = 0; i < loops.Count; i++)
        {
            if (loops[i].Area > 0)
            {
                continue;
            }
            int outer = Outer(loops, loops[i]);
            if (outer < 0)
            {
                return null;
            }
            (holes[outer] ??= []).Add(loops[i].Contour);
        }
        var regions = ImmutableArray.CreateBuilder<Region>();
        for (int i = 0; i < loops.Count; i++)
        {
            if (loops[i].Area > 0)
            {
                regions.Add(new(loops[i].Contour, holes[i] is { } own ? [.. own] : []));
            }
        }
        return regions.ToImmutable();
    }

    private void Index(List<Loop> loops)
    {
        Growing.Reserve(ref _turns, loops.Count);
        Array.Clear(_turns, 0, loops.Count);
        _blocks.Build(loops, outer: true);
        _tree.Build(_blocks.Boxes, sorted: loops.Count <= 8);
    }

    private int Outer(List<Loop> loops, in Loop hole)
    {
        int best = -1;
        ReadOnlySpan<Segment> segments = hole.Contour.Segments.AsSpan();
        int step = Math.Max(1, segments.Length / MostProbes);
        for (int i = 0; i < segments.Length; i += step)
        {
            Point2 p = Curve.From(segments[i]).Probe;
            int outer = Smallest(loops, p);
            if (outer >= 0 && IsClear(p))
            {
                return outer;
            }
            best = best < 0 ? outer : best;
        }
        return best;
    }

    private int Smallest(List<Loop> loops, Point2 p)
    {
        _found.Clear();
        _around.Clear();
        Vector256<double> ray = PackedBox.Packed(new Box2(p.X, p.Y, double.PositiveInfinity, p.Y));
        _tree.Touching(ray, _found);
        foreach (int block in _found)
        {
            int loop = _blocks.Loop(block);
            foreach (ref readonly Segment s in _blocks.Segments(block))
            {
                Curve c = Curve.From(s);
                int add = PackedBox.Touch(c.Packed(), ray) ? Ray.Turns(c, p) : 0;
                if (add != 0)
                {
                    _turns[loop] += add;
                    _around.Add(loop);
                }
            }
        }
        int best = -1;
        foreach (int loop in _around)
        {
            bool inside = _turns[loop] > 0;
            _turns[loop] = 0;
            best = inside && (best < 0 || loops[loop].Area < loops[best].Area) ? loop : best;
        }
        return best;
    }

    private bool IsClear(Point2 p)
    {
        _found.Clear();
        _tree.Touching(PackedBox.Packed(new Box2(p.X - _clear, p.Y - _clear, p.X + _clear, p.Y + _clear)), _found);
        foreach (int block in _found)
        {
            foreach (ref readonly Segment s in _blocks.Segments(block))
            {
                if (Curve.From(s).Distance2(p) < _clear * _clear)
                {
                    return false;
                }
            }
        }
        return true;
    }
}
