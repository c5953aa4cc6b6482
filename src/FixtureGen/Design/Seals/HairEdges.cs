using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Design.Seals;

/// <summary>
/// Runs of edges too short for any cord or cutter become one line each. Rounding a zone again and again leaves them where its
/// boundary nearly meets itself; every parallel of a hundred of them is a hundred curves that lie over each other.
/// </summary>
internal static class HairEdges
{
    /// <summary>Shorter edges are hairs, mm.</summary>
    private const double Hair = 1e-3;

    /// <summary>How far a line may pass by the corners that it stands for, mm.</summary>
    private const double Off = 1e-4;

    /// <summary>The same regions with each run of hairs as few lines, every corner left out within a tenth of a micrometre of its line.</summary>
    public static ImmutableArray<Region> Join(IReadOnlyList<Region> regions) =>
        [.. regions.Select(r => r with { Outer = Joined(r.Outer), Holes = [.. r.Holes.Select(Joined)] })];

    private static Contour Joined(Contour contour)
    {
        ImmutableArray<Segment> all = contour.Segments;
        int first = all.IndexOf(all.FirstOrDefault(s => !IsHair(s)));
        if (first < 0 || !all.Any(IsHair))
        {
            return contour;
        }
        Segment[] turned = [.. all[first..], .. all[..first]];
        List<Segment> joined = [];
        for (int i = 0; i < turned.Length; )
        {
            int last = i;
            while (
                last + 1 < turned.Length && IsHair(turned[i]) && IsHair(turned[last + 1]) && Passes(turned, i, last + 1)
            )
            {
                last++;
            }
            joined.Add(last == i ? turned[i] : Segment.Line(turned[i].Start, turned[last].End));
            i = last + 1;
        }
        return joined.Count < 3 ? contour : contour with { Segments = [.. joined] };
    }

    private static bool IsHair(Segment s) => s.Start.DistanceTo(s.End) < Hair && s.Length < 2 * Hair;

    /// <summary>True where the line from the start of one edge to the end of another passes by all corners between.</summary>
    private static bool Passes(Segment[] edges, int from, int to)
    {
        Point2 a = edges[from].Start;
        Point2 along = edges[to].End - a;
        double length = along.Length;
        if (length == 0)
        {
            return false;
        }
        for (int i = from; i < to; i++)
        {
            Point2 corner = edges[i].End - a;
            double t = corner.Dot(along) / length;
            if (t < -Off || t > length + Off || Math.Abs(along.Cross(corner)) > Off * length)
            {
                return false;
            }
        }
        return true;
    }
}
