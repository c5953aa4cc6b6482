using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// A hierarchy of boxes over curves in chain order: level 0 holds one box a curve, each node above covers four below.
/// Consecutive curves lie near each other, so nothing is sorted. It may be rebuilt over other curves; it keeps its memory.
/// </summary>
internal sealed class CurveIndex
{
    private const int Fan = 4;
    private const int MaxLevels = 17;
    private readonly int[] levelStart = new int[MaxLevels];
    private readonly int[] levelCount = new int[MaxLevels];
    private int top;
    private Box2[] boxes = [];
    private Curve[] curves = [];
    private int lastHit;

    public int Count { get; private set; }

    /// <summary>Indexes the first <paramref name="count"/> curves; every box is grown by <paramref name="margin"/>, mm.</summary>
    public void Build(Curve[] over, int count, double margin)
    {
        curves = over;
        Count = count;
        lastHit = 0;
        int need = NodeCount(count);
        if (boxes.Length < need)
        {
            boxes = new Box2[Math.Max(need, 2 * boxes.Length)];
        }
        for (int i = 0; i < count; i++)
        {
            Box2 b = over[i].Box();
            boxes[i] = new(b.MinX - margin, b.MinY - margin, b.MaxX + margin, b.MaxY + margin);
        }
        BuildUpperLevels(count);
    }

    /// <summary>The box around everything; only where Count &gt; 0.</summary>
    public Box2 Bounds => boxes[levelStart[top]];

    public Box2 BoxOf(int curve) => boxes[curve];

    /// <summary>True when some curve is nearer to the point than <paramref name="distance"/>, mm.</summary>
    public bool AnyNearer(Point2 p, double distance)
    {
        if (Count == 0 || distance <= 0)
        {
            return false;
        }
        double d2 = distance * distance;
        // Neighbouring questions usually have the same answer for the same reason.
        return curves[lastHit].Distance2(p) < d2 || AnyNearer(top, 0, p, d2);
    }

    /// <summary>Distance to the nearest curve, or <paramref name="limit"/> where none is nearer, mm.</summary>
    public double Nearest(Point2 p, double limit, out int nearest)
    {
        nearest = -1;
        double best = double.IsPositiveInfinity(limit) ? double.MaxValue : limit * limit;
        if (Count > 0)
        {
            Nearest(top, 0, p, ref best, ref nearest);
        }
        return nearest < 0 ? limit : Math.Sqrt(best);
    }

    /// <summary>Adds every pair i &lt; j of curves whose boxes touch, i in the upper and j in the lower half of a long.</summary>
    public void TouchingPairs(List<long> pairs)
    {
        if (Count > 0)
        {
            PairsWithin(top, 0, pairs);
        }
    }

    /// <summary>Adds every curve whose box touches the given one.</summary>
    public void Touching(in Box2 box, List<int> found)
    {
        if (Count > 0)
        {
            Touching(top, 0, box, found);
        }
    }

    /// <summary>Winding number of the closed loops about a point that is not on them.</summary>
    public int Winding(Point2 p) => Count == 0 ? 0 : Winding(top, 0, p);

    private static int NodeCount(int count)
    {
        int total = count;
        while (count > 1)
        {
            count = (count + Fan - 1) / Fan;
            total += count;
        }
        return total;
    }

    private void BuildUpperLevels(int count)
    {
        top = 0;
        levelStart[0] = 0;
        levelCount[0] = count;
        while (count > 1)
        {
            int below = levelStart[top];
            int nodes = (count + Fan - 1) / Fan;
            int start = below + count;
            for (int i = 0; i < nodes; i++)
            {
                boxes[start + i] = Around(below + (Fan * i), Math.Min(count - (Fan * i), Fan));
            }
            top++;
            levelStart[top] = start;
            levelCount[top] = nodes;
            count = nodes;
        }
    }

    private Box2 Around(int first, int count)
    {
        Box2 b = boxes[first];
        (double x0, double y0, double x1, double y1) = (b.MinX, b.MinY, b.MaxX, b.MaxY);
        for (int i = first + 1; i < first + count; i++)
        {
            ref readonly Box2 o = ref boxes[i];
            x0 = Math.Min(x0, o.MinX);
            y0 = Math.Min(y0, o.MinY);
            x1 = Math.Max(x1, o.MaxX);
            y1 = Math.Max(y1, o.MaxY);
        }
        return new(x0, y0, x1, y1);
    }

    private int ChildEnd(int level, int node) => Math.Min(levelCount[level - 1], (Fan * node) + Fan);

    private bool AnyNearer(int level, int node, Point2 p, double d2)
    {
        if (level == 0)
        {
            if (curves[node].Distance2(p) >= d2)
            {
                return false;
            }
            lastHit = node;
            return true;
        }
        int start = levelStart[level - 1];
        int end = ChildEnd(level, node);
        for (int i = Fan * node; i < end; i++)
        {
            if (Distance2(boxes[start + i], p) < d2 && AnyNearer(level - 1, i, p, d2))
            {
                return true;
            }
        }
        return false;
    }

    private void Nearest(int level, int node, Point2 p, ref double best, ref int nearest)
    {
        if (level == 0)
        {
            double d2 = curves[node].Distance2(p);
            if (d2 < best)
            {
                best = d2;
                nearest = node;
            }
            return;
        }
        int start = levelStart[level - 1];
        int end = ChildEnd(level, node);
        for (int i = Fan * node; i < end; i++)
        {
            if (Distance2(boxes[start + i], p) < best)
            {
                Nearest(level - 1, i, p, ref best, ref nearest);
            }
        }
    }

    private void PairsWithin(int level, int node, List<long> pairs)
    {
        if (level == 0)
        {
            return;
        }
        int end = ChildEnd(level, node);
        for (int a = Fan * node; a < end; a++)
        {
            PairsWithin(level - 1, a, pairs);
            for (int b = a + 1; b < end; b++)
            {
                PairsBetween(level - 1, a, b, pairs);
            }
        }
    }

    private void PairsBetween(int level, int a, int b, List<long> pairs)
    {
        int start = levelStart[level];
        if (!Touch(boxes[start + a], boxes[start + b]))
        {
            return;
        }
        if (level == 0)
        {
            pairs.Add(((long)a << 32) | (uint)b);
            return;
        }
        int endA = ChildEnd(level, a);
        int endB = ChildEnd(level, b);
        for (int i = Fan * a; i < endA; i++)
        {
            for (int j = Fan * b; j < endB; j++)
            {
                PairsBetween(level - 1, i, j, pairs);
            }
        }
    }

    private void Touching(int level, int node, in Box2 box, List<int> found)
    {
        if (!Touch(boxes[levelStart[level] + node], box))
        {
            return;
        }
        if (level == 0)
        {
            found.Add(node);
            return;
        }
        int end = ChildEnd(level, node);
        for (int i = Fan * node; i < end; i++)
        {
            Touching(level - 1, i, box, found);
        }
    }

    private int Winding(int level, int node, Point2 p)
    {
        ref readonly Box2 box = ref boxes[levelStart[level] + node];
        if (p.Y < box.MinY || p.Y > box.MaxY || p.X > box.MaxX)
        {
            return 0;
        }
        if (level == 0)
        {
            return Ray.Turns(curves[node], p);
        }
        int turns = 0;
        int end = ChildEnd(level, node);
        for (int i = Fan * node; i < end; i++)
        {
            turns += Winding(level - 1, i, p);
        }
        return turns;
    }

    private static bool Touch(in Box2 a, in Box2 b) =>
        a.MinX <= b.MaxX && b.MinX <= a.MaxX && a.MinY <= b.MaxY && b.MinY <= a.MaxY;

    private static double Distance2(in Box2 b, Point2 p)
    {
        double dx = Math.Max(0, Math.Max(b.MinX - p.X, p.X - b.MaxX));
        double dy = Math.Max(0, Math.Max(b.MinY - p.Y, p.Y - b.MaxY));
        return (dx * dx) + (dy * dy);
    }
}
