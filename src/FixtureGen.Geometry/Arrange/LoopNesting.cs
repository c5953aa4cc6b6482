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

    private readonly double clear;
    private readonly LoopBlocks blocks = new();
    private readonly BoxTree tree = new();
    private readonly List<int> found = [];
    private readonly List<int> around = [];
    private int[] turns = [];

    public LoopNesting(double grid) => clear = Clear * grid;

    /// <summary>Null where a hole lies in nothing: the loops are broken then.</summary>
    public ImmutableArray<Region>? Regions(List<Loop> loops)
    {
        if (loops.Count == 1)
        {
            return loops[0].Area > 0 ? [Region.Of(loops[0].Contour)] : null;
        }
        if (loops.TrueForAll(static l => l.Area > 0))
        {
            return [.. loops.Select(static l => Region.Of(l.Contour))];
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
        Growing.Reserve(ref turns, loops.Count);
        Array.Clear(turns, 0, loops.Count);
        blocks.Build(loops, outer: true);
        tree.Build(blocks.Boxes, sorted: loops.Count <= 8);
    }

    private int Outer(List<Loop> loops, in Loop hole)
    {
        int best = -1;
        ReadOnlySpan<Segment> segments = hole.Contour.Segments.AsSpan();
        int step = Math.Max(1, segments.Length / MostProbes);
        for (int i = 0; i < segments.Length; i += step)
        {
            Point2 p = Curve.Of(segments[i]).Probe;
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
        found.Clear();
        around.Clear();
        Vector256<double> ray = PackedBox.Packed(new Box2(p.X, p.Y, double.PositiveInfinity, p.Y));
        tree.Touching(ray, found);
        foreach (int block in found)
        {
            int loop = blocks.Loop(block);
            foreach (ref readonly Segment s in blocks.Segments(block))
            {
                Curve c = Curve.Of(s);
                int add = PackedBox.Touch(c.Packed(), ray) ? Ray.Turns(c, p) : 0;
                if (add != 0)
                {
                    turns[loop] += add;
                    around.Add(loop);
                }
            }
        }
        int best = -1;
        foreach (int loop in around)
        {
            bool inside = turns[loop] > 0;
            turns[loop] = 0;
            best = inside && (best < 0 || loops[loop].Area < loops[best].Area) ? loop : best;
        }
        return best;
    }

    private bool IsClear(Point2 p)
    {
        found.Clear();
        tree.Touching(PackedBox.Packed(new Box2(p.X - clear, p.Y - clear, p.X + clear, p.Y + clear)), found);
        foreach (int block in found)
        {
            foreach (ref readonly Segment s in blocks.Segments(block))
            {
                if (Curve.Of(s).Distance2(p) < clear * clear)
                {
                    return false;
                }
            }
        }
        return true;
    }
}
