using FixtureGen.Geometry;
using FixtureGen.Model;
using NetTopologySuite.Geometries;
using NetTopologySuite.Operation.Buffer;

namespace FixtureGen.Bench;

/// <summary>The baseline: NetTopologySuite's buffer of the flattened input, set so that it keeps the same tolerance.</summary>
internal static class NtsOffset
{
    public const double Tolerance = 0.005;

    public static NetTopologySuite.Geometries.Geometry Flat(IReadOnlyList<Region> regions)
    {
        var factory = new GeometryFactory();
        NetTopologySuite.Geometries.Geometry[] polygons =
        [
            .. regions.Select(r =>
                factory.CreatePolygon(Ring(factory, r.Outer), [.. r.Holes.Select(h => Ring(factory, h))])
            ),
        ];
        return factory.BuildGeometry(polygons);
    }

    /// <summary>One buffer; enough chords a quarter turn for the tolerance, input simplified by a tenth of it.</summary>
    public static NetTopologySuite.Geometries.Geometry Buffer(NetTopologySuite.Geometries.Geometry flat, double d)
    {
        double size = Math.Abs(d);
        int quadrant = (int)Math.Ceiling(Math.PI / (4 * Math.Acos(1 - (Tolerance / size))));
        var parameters = new BufferParameters(quadrant, EndCapStyle.Round, JoinStyle.Round, 5)
        {
            SimplifyFactor = 0.1 * Tolerance / size,
        };
        return BufferOp.Buffer(flat, d, parameters);
    }

    /// <summary>Rings first, first + step, ... until nothing is left, each from the source.</summary>
    public static int RingsFromSource(NetTopologySuite.Geometries.Geometry flat, double first, double step)
    {
        int levels = 0;
        while (!Buffer(flat, -(first + (levels * step))).IsEmpty)
        {
            levels++;
        }
        return levels;
    }

    /// <summary>Rings each from the one before: faster, but every ring adds its error to the last.</summary>
    public static int RingsChained(NetTopologySuite.Geometries.Geometry flat, double first, double step)
    {
        int levels = 0;
        for (var ring = Buffer(flat, -first); !ring.IsEmpty; ring = Buffer(ring, -step))
        {
            levels++;
        }
        return levels;
    }

    private static LinearRing Ring(GeometryFactory factory, Contour c)
    {
        var points = Flatten.Points(c, Tolerance);
        return factory.CreateLinearRing([.. points.Append(points[0]).Select(p => new Coordinate(p.X, p.Y))]);
    }
}
