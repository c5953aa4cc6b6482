using System.Runtime.Intrinsics;
using FixtureGen.Model;
using static FixtureGen.Geometry.PackedBox;

namespace FixtureGen.Geometry;

// How near the curves are to a point.
internal sealed partial class CurveIndex
{
    /// <summary>True when some curve is nearer to the point than <paramref name="distance"/>, mm.</summary>
    public bool AnyNearer(Point2 p, double distance)
    {
        if (Count == 0 || distance <= 0)
        {
            return false;
        }
        double d2 = distance * distance;
        // Neighbouring questions usually have the same answer for the same reason.
        return _curves[_lastHit].Distance2(p) < d2 || Search(p, d2);
    }

    /// <summary>Distance to the nearest curve, or <paramref name="limit"/> where none is nearer, mm.</summary>
    public double Nearest(Point2 p, double limit, out int nearest)
    {
        nearest = -1;
        double best = double.IsPositiveInfinity(limit) ? double.MaxValue : limit * limit;
        if (Count > 0)
        {
            Nearest(_top, 0, p, Packed(p), ref best, ref nearest);
        }
        return nearest < 0 ? limit : Math.Sqrt(best);
    }

    private bool Search(Point2 p, double d2)
    {
        Vector256<double> at = Packed(p);
        // Nodes to be looked at, each with its level above it; of each level no more than one node's children wait.
        Span<int> waiting = stackalloc int[(Fan * MaxLevels) + 1];
        waiting[0] = _top << LevelShift;
        for (int count = 1; count > 0; )
        {
            int next = waiting[--count];
            int level = next >> LevelShift;
            int node = next & ((1 << LevelShift) - 1);
            if (level == 0)
            {
                if (_curves[node].Distance2(p) < d2)
                {
                    _lastHit = node;
                    return true;
                }
                continue;
            }
            int start = _levelStart[level - 1];
            for (int i = ChildEnd(level, node) - 1; i >= Fan * node; i--)
            {
                // Most points lie just that far from something: a disc meets far fewer boxes than the square around it.
                if (Distance2(_boxes[start + i], at) < d2)
                {
                    waiting[count++] = ((level - 1) << LevelShift) | i;
                }
            }
        }
        return false;
    }

    private void Nearest(int level, int node, Point2 p, Vector256<double> at, ref double best, ref int nearest)
    {
        if (level == 0)
        {
            double d2 = _curves[node].Distance2(p);
            if (d2 < best)
            {
                best = d2;
                nearest = node;
            }
            return;
        }
        int start = _levelStart[level - 1];
        int end = ChildEnd(level, node);
        for (int i = Fan * node; i < end; i++)
        {
            if (Distance2(_boxes[start + i], at) < best)
            {
                Nearest(level - 1, i, p, at, ref best, ref nearest);
            }
        }
    }
}
