using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>Point in contour and region, exact for arcs. A point on a boundary may count either way.</summary>
public static class Inside
{
    /// <summary>How often the contour runs round the point, counter-clockwise positive.</summary>
    private static int Winding(Contour contour, Point2 p)
    {
        int turns = 0;
        foreach (Segment s in contour.Segments)
        {
            turns += Ray.Turns(Curve.From(s), p);
        }
        return turns;
    }

    /// <summary>True when the contour, whichever way it runs, goes round the point.</summary>
    public static bool Contains(Contour contour, Point2 p) => Winding(contour, p) != 0;

    /// <summary>True when the point is in the outer contour and in none of the holes.</summary>
    public static bool Contains(Region region, Point2 p) =>
        Contains(region.Outer, p) && !region.Holes.Any(h => Contains(h, p));

    /// <summary>True when the point is in any of the regions, which may overlap.</summary>
    public static bool Contains(IEnumerable<Region> regions, Point2 p) => regions.Any(r => Contains(r, p));
}
