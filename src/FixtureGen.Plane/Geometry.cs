using System.Collections.Immutable;
using System.Globalization;

namespace FixtureGen.Model;

// Glossary.
//   segment   one straight line or one circular arc
//   path      segments end to end, open
//   contour   segments end to end, closed; outer boundaries run counter-clockwise, holes clockwise,
//             so the material is always on the left
//   region    one outer contour less its holes
//   nesting   which contour lies inside which; even depth is material, odd depth is a hole
//   frame     part frame: the drawing's axes; plate frame: X0 Y0 at the plate's origin, Z0 at its face, Z up;
//             underside frame: the plate frame after the block was turned over (see Flip)

/// <summary>A point or vector in the plane, mm.</summary>
public readonly record struct Point2(double X, double Y)
{
    /// <summary>The sum of two vectors, or a point shifted by one.</summary>
    public static Point2 operator +(Point2 a, Point2 b) => new(a.X + b.X, a.Y + b.Y);

    /// <summary>The vector from <paramref name="b"/> to <paramref name="a"/>.</summary>
    public static Point2 operator -(Point2 a, Point2 b) => new(a.X - b.X, a.Y - b.Y);

    /// <summary>The vector scaled; a factor below 0 turns it round.</summary>
    public static Point2 operator *(Point2 a, double k) => new(a.X * k, a.Y * k);

    /// <summary>The vector scaled; a factor below 0 turns it round.</summary>
    public static Point2 operator *(double k, Point2 a) => new(a.X * k, a.Y * k);

    /// <summary>Scalar product, mm2: positive when the directions are less than 90 degrees apart.</summary>
    public double Dot(Point2 o) => (X * o.X) + (Y * o.Y);

    /// <summary>Z of the cross product: positive when <paramref name="o"/> lies to the left.</summary>
    public double Cross(Point2 o) => (X * o.Y) - (Y * o.X);

    /// <summary>Length of the vector, mm; as a point its distance from the origin.</summary>
    public double Length => Math.Sqrt((X * X) + (Y * Y));

    /// <summary>The vector turned 90 degrees counter-clockwise.</summary>
    public Point2 Left => new(-Y, X);

    /// <summary>Straight distance to another point of the same frame, mm.</summary>
    public double DistanceTo(Point2 o) => (this - o).Length;

    // The record's own text would follow Left without end.

    /// <summary>"(X, Y)" in mm with all digits and a decimal point, whatever the culture.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"({X}, {Y})");
}

/// <summary>A point in space, mm, plate frame unless a name says otherwise.</summary>
public readonly record struct Point3(double X, double Y, double Z)
{
    /// <summary>The point seen from above.</summary>
    public Point2 Xy => new(X, Y);

    /// <summary>A point of the plane at a height, mm.</summary>
    public static Point3 From(Point2 p, double z) => new(p.X, p.Y, z);
}

/// <summary>What a segment is.</summary>
public enum SegmentKind
{
    /// <summary>Straight from start to end.</summary>
    Line,

    /// <summary>A circular arc about the centre, counter-clockwise seen from +Z: G3.</summary>
    ArcCcw,

    /// <summary>A circular arc about the centre, clockwise seen from +Z: G2.</summary>
    ArcCw,
}

/// <summary>
/// One line or one arc from <see cref="Start"/> to <see cref="End"/>, mm. An arc sweeps more than 0 and less than
/// a full turn about <see cref="Centre"/>; a full circle is always two arcs. For a line <see cref="Centre"/> is default.
/// </summary>
public readonly record struct Segment(Point2 Start, Point2 End, Point2 Centre, SegmentKind Kind)
{
    /// <summary>A straight segment, mm.</summary>
    public static Segment Line(Point2 start, Point2 end) => new(start, end, default, SegmentKind.Line);

    /// <summary>An arc of more than 0 and less than a full turn, mm; both ends must lie as far from the centre. Not checked here.</summary>
    public static Segment Arc(Point2 start, Point2 end, Point2 centre, bool ccw) =>
        new(start, end, centre, ccw ? SegmentKind.ArcCcw : SegmentKind.ArcCw);

    /// <summary>True for an arc of either turn.</summary>
    public bool IsArc => Kind != SegmentKind.Line;

    /// <summary>True for a counter-clockwise arc; false for a clockwise one and for a line.</summary>
    public bool IsCcw => Kind == SegmentKind.ArcCcw;

    /// <summary>Radius, mm: the mean of both ends' distance from the centre; 0 for a line.</summary>
    public double Radius => IsArc ? (Start.DistanceTo(Centre) + End.DistanceTo(Centre)) / 2 : 0;

    /// <summary>Signed sweep, radians: positive counter-clockwise, 0 for a line.</summary>
    public double Sweep
    {
        get
        {
            if (!IsArc)
            {
                return 0;
            }
            Point2 a = Start - Centre;
            Point2 b = End - Centre;
            double angle = Math.Atan2(a.Cross(b), a.Dot(b));
            return IsCcw ? (angle <= 0 ? angle + (2 * Math.PI) : angle) : (angle >= 0 ? angle - (2 * Math.PI) : angle);
        }
    }

    /// <summary>Length along the segment, mm.</summary>
    public double Length => IsArc ? Math.Abs(Sweep) * Radius : Start.DistanceTo(End);

    // The record's own text would follow Reversed without end.

    /// <summary>Kind and ends, and an arc's centre, for failed tests and faults; mm.</summary>
    public override string ToString() => IsArc ? $"{Kind} {Start} to {End} about {Centre}" : $"{Kind} {Start} to {End}";

    /// <summary>The same points run from the end to the start: an arc keeps its centre and changes its turn.</summary>
    public Segment Reversed =>
        new(
            End,
            Start,
            Centre,
            Kind switch
            {
                SegmentKind.ArcCcw => SegmentKind.ArcCw,
                SegmentKind.ArcCw => SegmentKind.ArcCcw,
                SegmentKind.Line => SegmentKind.Line,
            }
        );
}

/// <summary>An open chain; each segment starts, bit for bit, where the one before ended.</summary>
public sealed record OpenPath(ImmutableArray<Segment> Segments)
{
    /// <summary>Where the first segment starts; a path has at least one.</summary>
    public Point2 Start => Segments[0].Start;

    /// <summary>Where the last segment ends.</summary>
    public Point2 End => Segments[^1].End;
}

/// <summary>A closed chain; each segment starts, bit for bit, where the one before ended, the first where the last ended.</summary>
public sealed record Contour(ImmutableArray<Segment> Segments);

/// <summary>One outer contour (counter-clockwise) less its holes (clockwise). No contour touches or crosses another.</summary>
public sealed record Region(Contour Outer, ImmutableArray<Contour> Holes)
{
    /// <summary>The inside of a counter-clockwise contour, without holes.</summary>
    public static Region From(Contour outer) => new(outer, []);

    /// <summary>The outer contour, then the holes.</summary>
    public IEnumerable<Contour> Contours => Holes.Prepend(Outer);
}

/// <summary>An axis-parallel box, mm; MinX &lt;= MaxX and MinY &lt;= MaxY.</summary>
public readonly record struct Box2(double MinX, double MinY, double MaxX, double MaxY)
{
    /// <summary>Extent along X, mm, never below 0.</summary>
    public double Width => MaxX - MinX;

    /// <summary>Extent along Y, mm, never below 0.</summary>
    public double Height => MaxY - MinY;

    /// <summary>The box's centre, mm.</summary>
    public Point2 Middle => new((MinX + MaxX) / 2, (MinY + MaxY) / 2);
}

/// <summary>An axis-parallel box in space, mm.</summary>
public readonly record struct Box3(double MinX, double MinY, double MinZ, double MaxX, double MaxY, double MaxZ);

/// <summary>How the part frame lies in the plate frame: turned counter-clockwise by the angle about the part's origin, then shifted, mm and degrees.</summary>
public readonly record struct Pose(double X, double Y, double AngleDeg);

/// <summary>
/// The turn-over of the block about the line x = <see cref="AxisX"/> of the plate frame: X' = 2 AxisX - X, Y' = Y.
/// Heights: the underside frame's Z0 is again the plate's face, so Z' = raw thickness - Z. Written once, used everywhere.
/// </summary>
public readonly record struct Flip(double AxisX)
{
    /// <summary>A point of the plate frame in the underside frame, mm; its own inverse.</summary>
    public Point2 Apply(Point2 p) => new((2 * AxisX) - p.X, p.Y);
}
