using FixtureGen.Geometry;
using FixtureGen.Model;
using NetTopologySuite.Geometries;
using NetTopologySuite.Operation.Buffer;

namespace FixtureGen.Tests.Support;

/// <summary>
/// Tells whether an offset is right, two ways that know nothing of the kernel: by the definition (a point belongs to the
/// result by its side and distance from the source alone), and by NetTopologySuite's buffer of the flattened source.
/// </summary>
public static class OffsetOracle
{
    private const double Chord = 0.0005;
    private const int Raster = 240;

    /// <summary>How far from where two answers part a probe must lie to count, mm.</summary>
    public const double Slack = 1e-5;

    /// <summary>Null when every probe agrees with the definition; else what went wrong where.</summary>
    /// <param name="slack">How far from the boundary a probe must lie to count, mm.</param>
    public static string? ByDefinition(
        IReadOnlyList<Region> source,
        double d,
        IReadOnlyList<Region> result,
        double slack
    )
    {
        Segment[] from = [.. source.SelectMany(r => r.Contours).SelectMany(c => c.Segments)];
        Segment[] to = [.. result.SelectMany(r => r.Contours).SelectMany(c => c.Segments)];
        if (Disagreement(source, from, d, result, slack, Probes(from, to, Math.Abs(d), slack)) is { } wrong)
        {
            return wrong;
        }
        foreach (Segment s in to)
        {
            Point2 p = Measure.PointAt(s, 0.5);
            double error = Math.Abs(from.Min(f => Measure.Distance(p, f)) - Math.Abs(d));
            if (error > slack)
            {
                return FormattableString.Invariant($"({p.X:R}, {p.Y:R}) is {error:E2} off the parallel");
            }
        }
        return null;
    }

    /// <summary>The same of the points of a raster over the whole, where the library and the kernel part: one of them is wrong.</summary>
    public static string? ByRaster(IReadOnlyList<Region> source, double d, IReadOnlyList<Region> result, double slack)
    {
        Segment[] from = [.. source.SelectMany(r => r.Contours).SelectMany(c => c.Segments)];
        Box2 box = Measure.Bounds(source);
        double reach = Math.Max(0, d);
        IEnumerable<Point2> raster =
            from i in Enumerable.Range(0, Raster)
            from j in Enumerable.Range(0, Raster)
            select new Point2(
                box.MinX - reach + ((i + 0.5) / Raster * (box.Width + (2 * reach))),
                box.MinY - reach + ((j + 0.5) / Raster * (box.Height + (2 * reach)))
            );
        return Disagreement(source, from, d, result, slack, raster);
    }

    private static string? Disagreement(
        IReadOnlyList<Region> source,
        Segment[] from,
        double d,
        IReadOnlyList<Region> result,
        double slack,
        IEnumerable<Point2> probes
    )
    {
        foreach (Point2 p in probes)
        {
            double distance = from.Min(s => Measure.Distance(p, s));
            if (Math.Abs(distance - Math.Abs(d)) < slack)
            {
                continue;
            }
            bool inside = Inside.Contains(source, p);
            bool wanted = d > 0 ? inside || distance < d : inside && distance > -d;
            if (wanted != Inside.Contains(result, p))
            {
                return FormattableString.Invariant(
                    $"({p.X:R}, {p.Y:R}) at {distance:R} should be {(wanted ? "in" : "out")}"
                );
            }
        }
        return null;
    }

    /// <summary>Area of the symmetric difference with the library's buffer, mm2, and what its own tolerance allows.</summary>
    public static (double Difference, double Allowed) ByBuffer(
        IReadOnlyList<Region> source,
        double d,
        IReadOnlyList<Region> result
    )
    {
        double size = Math.Abs(d);
        int quadrant = Math.Max(8, (int)Math.Ceiling(Math.PI / (4 * Math.Acos(1 - (Chord / size)))));
        var parameters = new BufferParameters(quadrant, EndCapStyle.Round, JoinStyle.Round, 5)
        {
            SimplifyFactor = 0.1 * Chord / size,
        };
        NetTopologySuite.Geometries.Geometry flat = ToPolygons(source);
        NetTopologySuite.Geometries.Geometry expected = BufferOp.Buffer(flat, d, parameters);
        double difference = Math.Abs(expected.Area - Measure.Area(result));
        // The library skips fillets shorter than 0.05 d (measured: up to 1.1e-3 d off) and keeps chords inside arcs.
        double allowed = ((3 * Chord) + (1.2e-3 * size)) * (1 + expected.Length + result.Sum(r => Measure.Length(r)));
        return (difference, allowed);
    }

    public static NetTopologySuite.Geometries.Geometry ToPolygons(IReadOnlyList<Region> regions)
    {
        var factory = new GeometryFactory();
        return factory.CreateMultiPolygon([
            .. regions.Select(r =>
                factory.CreatePolygon(Ring(factory, r.Outer), [.. r.Holes.Select(h => Ring(factory, h))])
            ),
        ]);
    }

    private static LinearRing Ring(GeometryFactory factory, Contour c)
    {
        var points = Flatten.Points(c, Chord);
        return factory.CreateLinearRing([.. points.Append(points[0]).Select(p => new Coordinate(p.X, p.Y))]);
    }

    private static IEnumerable<Point2> Probes(Segment[] from, Segment[] to, double d, double slack)
    {
        double step = 2 * slack;
        foreach (Segment s in to)
        {
            Point2 p = Measure.PointAt(s, 0.5);
            Point2 n = Measure.TangentAt(s, 0.5).Left;
            yield return p + (n * step);
            yield return p - (n * step);
        }
        foreach (Segment s in from)
        {
            foreach (double t in (double[])[0.1, 0.5, 0.9])
            {
                Point2 p = Measure.PointAt(s, t);
                Point2 n = Measure.TangentAt(s, t).Left;
                yield return p + (n * (d + step));
                yield return p + (n * (d - step));
                yield return p - (n * (d + step));
                yield return p - (n * (d - step));
            }
        }
    }
}
