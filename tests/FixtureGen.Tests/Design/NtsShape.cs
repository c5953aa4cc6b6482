using FixtureGen.Geometry;
using FixtureGen.Model;
using NetTopologySuite.Geometries;
using NetTopologySuite.Operation.Buffer;

namespace FixtureGen.Tests.Design;

using Shape = NetTopologySuite.Geometries.Geometry;

/// <summary>Regions as NetTopologySuite polygons: an offset and a distance that know nothing of the kernel.</summary>
internal static class NtsShape
{
    private const double Chord = 0.001;
    private static readonly GeometryFactory Factory = new();

    public static Shape Of(IEnumerable<Region> regions) => Factory.BuildGeometry([.. regions.Select(Of)]).Union();

    public static Shape Of(Region region) => Factory.CreatePolygon(Ring(region.Outer), [.. region.Holes.Select(Ring)]);

    public static LinearRing Ring(Contour contour)
    {
        Coordinate[] points = [.. Flatten.Points(contour, Chord).Select(p => new Coordinate(p.X, p.Y))];
        return Factory.CreateLinearRing(points[0].Equals2D(points[^1]) ? points : [.. points, points[0].Copy()]);
    }

    public static Shape Buffer(Shape g, double d) =>
        BufferOp.Buffer(g, d, new BufferParameters(64) { SimplifyFactor = 0 });

    /// <summary>The greatest distance by which anything of the shape sticks out of every disc of the radius inside it.</summary>
    public static double SticksOut(Shape shape, double radius)
    {
        Shape opened = Buffer(Buffer(shape, -radius), radius);
        Shape left = shape.Difference(opened);
        return left.IsEmpty ? 0 : left.Coordinates.Max(c => opened.Distance(Factory.CreatePoint(c)));
    }

    /// <summary>A disc round the shape, less the shape: its own rim is far gentler than any bend.</summary>
    public static Shape Complement(Shape shape, double around)
    {
        Envelope box = shape.EnvelopeInternal;
        Shape disc = Factory.CreatePoint(box.Centre).Buffer(box.Diameter + around, 64);
        return disc.Difference(shape);
    }
}
