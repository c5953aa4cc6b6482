using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Chaining;

/// <summary>Finds curves that draw the same line twice, whichever way round and however cut into segments.</summary>
internal sealed class Duplicates(ChainLimits limits)
{
    /// <summary>The items that draw nothing new, by index.</summary>
    public HashSet<int> Find(IReadOnlyList<IReadOnlyList<Segment>> paths)
    {
        var twice = new HashSet<int>();
        var seen = new Dictionary<(long, long), List<int>>();
        var boxes = new Box2[paths.Count];
        var lengths = new double[paths.Count];
        double cell = 16 * limits.Near;
        for (int i = 0; i < paths.Count; i++)
        {
            boxes[i] = LoopMath.Bounds(paths[i]);
            lengths[i] = LoopMath.Length(paths[i]);
            Point2 middle = boxes[i].Middle;
            (long x, long y) = ((long)Math.Floor(middle.X / cell), (long)Math.Floor(middle.Y / cell));
            if (Known(i, x, y))
            {
                twice.Add(i);
            }
            else if (seen.TryGetValue((x, y), out List<int>? there))
            {
                there.Add(i);
            }
            else
            {
                seen[(x, y)] = [i];
            }
        }
        return twice;

        bool Known(int i, long x, long y)
        {
            for (long dx = -1; dx <= 1; dx++)
            {
                for (long dy = -1; dy <= 1; dy++)
                {
                    List<int> there = seen.GetValueOrDefault((x + dx, y + dy), []);
                    if (there.Exists(k => SameSize(k, i) && Same(paths[k], paths[i])))
                    {
                        return true;
                    }
                }
            }
            return false;
        }

        bool SameSize(int a, int b) =>
            Math.Abs(boxes[a].MinX - boxes[b].MinX) <= limits.Near
            && Math.Abs(boxes[a].MinY - boxes[b].MinY) <= limits.Near
            && Math.Abs(boxes[a].MaxX - boxes[b].MaxX) <= limits.Near
            && Math.Abs(boxes[a].MaxY - boxes[b].MaxY) <= limits.Near
            && Math.Abs(lengths[a] - lengths[b]) <= (4 * limits.Near) + (1e-4 * lengths[a]);
    }

    private bool Same(IReadOnlyList<Segment> a, IReadOnlyList<Segment> b) => Covers(a, b) && Covers(b, a);

    // Long paths are tried at some sixty of their segments; boxes and lengths already agree.
    private bool Covers(IReadOnlyList<Segment> a, IReadOnlyList<Segment> b)
    {
        int step = Math.Max(1, b.Count / 64);
        for (int i = 0; i < b.Count; i += step)
        {
            if (!Lies(LoopMath.Middle(b[i]), a) || !Lies(b[i].Start, a))
            {
                return false;
            }
        }
        return true;
    }

    private bool Lies(Point2 p, IReadOnlyList<Segment> on)
    {
        foreach (Segment s in on)
        {
            if (Measure.Distance(p, s) <= 2 * limits.Near)
            {
                return true;
            }
        }
        return false;
    }
}
