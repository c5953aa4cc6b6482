using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>The boxes of regions' outer contours.</summary>
internal static class RegionBoxes
{
    /// <summary>True where two of them overlap; where none do, no two of the regions can.</summary>
    public static bool AnyOverlap(IReadOnlyList<Region> regions)
    {
        if (regions.Count < 2)
        {
            return false;
        }
        Box2[] boxes = [.. regions.Where(static r => !r.Outer.Segments.IsEmpty).Select(Measure.Bounds)];
        Array.Sort(boxes, static (a, b) => a.MinX.CompareTo(b.MinX));
        List<Box2> open = [];
        foreach (Box2 box in boxes)
        {
            open.RemoveAll(o => o.MaxX <= box.MinX);
            if (open.Exists(o => o.MinY < box.MaxY && box.MinY < o.MaxY))
            {
                return true;
            }
            open.Add(box);
        }
        return false;
    }
}
