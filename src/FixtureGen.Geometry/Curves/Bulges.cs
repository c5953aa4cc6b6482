using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// The bulge of an arc, tan(sweep / 4): positive counter-clockwise from start to end, 0 for a line, 1 for half a circle
/// (DXF Reference, LWPOLYLINE, group 42).
/// </summary>
public static class Bulges
{
    /// <summary>The segment from start to end (mm), which an arc keeps apart, with that bulge; a line where the bulge is 0.</summary>
    public static Segment Arc(Point2 start, Point2 end, double bulge)
    {
        if (bulge == 0)
        {
            return Segment.Line(start, end);
        }
        // the centre stands (1 - b^2) / (4 b) chords to the left of the chord's middle
        double offset = (1 - (bulge * bulge)) / (4 * bulge);
        Point2 chord = end - start;
        Point2 centre = ((start + end) * 0.5) + (chord.Left * offset);
        return Segment.Arc(start, end, centre, bulge > 0);
    }

    /// <summary>The segment's bulge, beyond 1 or -1 for more than half a circle; 0 for a line.</summary>
    public static double FromSegment(Segment segment) => segment.IsArc ? Math.Tan(segment.Sweep / 4) : 0;
}
