using System.Collections.Immutable;
using FixtureGen.Model;
using NetTopologySuite.Geometries;
using NetTopologySuite.Geometries.Utilities;
using NetTopologySuite.Operation.Buffer;
using NetTopologySuite.Operation.OverlayNG;
using NtsGeometry = NetTopologySuite.Geometries.Geometry;

namespace FixtureGen.Geometry;

/// <summary>
/// The same operations on chords, by NetTopologySuite, for the case that an exact result could not be proven. The only file
/// that names the library; another polygon library would be put in here.
/// </summary>
internal static class NtsFallBack
{
    /// <summary>Greatest distance of a chord from its arc, mm.</summary>
    public const double Chord = 0.0005;

    /// <summary>Within this of the chords arcs are recovered, mm; four chords' worth, or the recovery breaks up.</summary>
    public const double Recovery = 0.002;

    /// <summary>How far a result may be off at the distance d, mm: the library leaves out fillets shorter than 0.05 d.</summary>
    public static double Error(double d) => (2 * Chord) + Recovery + (1.2e-3 * d);

    public static ImmutableArray<Region> Offset(IReadOnlyList<Region> regions, double distance) =>
        ToRegions(BufferOp.Buffer(ToGeometry(regions), distance, Parameters(Math.Abs(distance))));

    public static ImmutableArray<Region> Stroke(IReadOnlyList<Point2> line, double radius)
    {
        var path = new LineString([.. line.Select(p => new Coordinate(p.X, p.Y))]);
        return ToRegions(BufferOp.Buffer(path, radius, Parameters(radius)));
    }

    public static ImmutableArray<Region> Combine(
        IReadOnlyList<Region> a,
        IReadOnlyList<Region> b,
        Func<bool, bool, bool> wanted
    )
    {
        NtsGeometry x = ToGeometry(a);
        NtsGeometry y = ToGeometry(b);
        NtsGeometry sum = new GeometryFactory().CreatePolygon();
        foreach ((bool inA, bool inB, Func<NtsGeometry> part) in Parts(x, y))
        {
            sum = wanted(inA, inB) ? OverlayNGRobust.Overlay(sum, part(), OverlayNG.UNION) : sum;
        }
        return ToRegions(sum);
    }

    private static (bool InA, bool InB, Func<NtsGeometry> Part)[] Parts(NtsGeometry x, NtsGeometry y) =>
        [
            (true, false, () => OverlayNGRobust.Overlay(x, y, OverlayNG.DIFFERENCE)),
            (false, true, () => OverlayNGRobust.Overlay(y, x, OverlayNG.DIFFERENCE)),
            (true, true, () => OverlayNGRobust.Overlay(x, y, OverlayNG.INTERSECTION)),
        ];

    /// <summary>Enough chords a quarter turn for the tolerance; the library's own simplification held to a tenth of it.</summary>
    private static BufferParameters Parameters(double d) =>
        new(
            Math.Max(4, (int)Math.Ceiling(Math.PI / (4 * Math.Acos(1 - Math.Min(0.5, Chord / d))))),
            EndCapStyle.Round,
            JoinStyle.Round,
            5
        )
        {
            SimplifyFactor = Math.Min(0.01, 0.1 * Chord / d),
        };

    private static NtsGeometry ToGeometry(IReadOnlyList<Region> regions)
    {
        var factory = new GeometryFactory();
        NtsGeometry sum = factory.CreatePolygon();
        foreach (Region r in regions)
        {
            NtsGeometry polygon = factory.CreatePolygon(
                Ring(factory, r.Outer),
                [.. r.Holes.Select(h => Ring(factory, h))]
            );
            sum = OverlayNGRobust.Overlay(sum, polygon.IsValid ? polygon : GeometryFixer.Fix(polygon), OverlayNG.UNION);
        }
        return sum;
    }

    private static LinearRing Ring(GeometryFactory factory, Contour contour)
    {
        ImmutableArray<Point2> points = Flatten.Points(contour, Chord);
        return factory.CreateLinearRing([.. points.Append(points[0]).Select(p => new Coordinate(p.X, p.Y))]);
    }

    private static ImmutableArray<Region> ToRegions(NtsGeometry geometry) =>
        [
            .. PolygonExtracter
                .GetPolygons(geometry)
                .Cast<Polygon>()
                .Where(p => !p.IsEmpty)
                .Select(p => new Region(
                    Contours.Ccw(ToContour(p.ExteriorRing)),
                    [.. p.InteriorRings.Select(h => Contours.Cw(ToContour(h)))]
                )),
        ];

    private static Contour ToContour(LineString ring) =>
        ArcRecovery.Recover(Contours.FromPoints([.. ring.Coordinates.Select(c => new Point2(c.X, c.Y))]), Recovery);
}
