using FixtureGen.Model;

namespace FixtureGen.Design.Trim;

/// <summary>Which contours are circles.</summary>
public static class Circles
{
    /// <summary>True where all is arcs whose centres and radii differ from the first one's by less than <paramref name="within"/>, mm.</summary>
    public static bool IsCircle(Contour contour, double within)
    {
        Segment first = contour.Segments[0];
        return contour.Segments.All(s =>
            s.IsArc && s.Centre.DistanceTo(first.Centre) < within && Math.Abs(s.Radius - first.Radius) < within
        );
    }
}
