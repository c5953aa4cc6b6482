using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design;

/// <summary>
/// Centre lines of one zone's net, all connected with the port. Farthest is the greatest distance of any point of the
/// sealed area from a groove's wall, mm, found on a millimetre grid and along the edge.
/// </summary>
internal sealed record NetLines(
    ImmutableArray<Contour> Rings,
    ImmutableArray<OpenPath> Runs,
    double Farthest,
    Point2 FarthestAt
)
{
    private const double Sample = 1.5;
    private const double Touch = 0.01;
    private const int MostLines = 60;

    /// <param name="room">Where a centre line may run; holds the port.</param>
    public static NetLines Cover(SealedZone zone, Region room, double halfWidth, double reach)
    {
        List<OpenPath> runs = [];
        Contour ring = room.Outer;
        Point2 direction = AcrossOf(Measure.Bounds(room.Outer));
        runs.AddRange(Through(zone.PortAt, direction, room).Take(1));
        Point2[] points = [.. Samples(zone)];
        double[] distances = [.. points.Select(p => Nearest(p, ring, runs) - halfWidth)];
        bool[] beyond = new bool[points.Length];
        for (int i = 0; i < MostLines; i++)
        {
            int far = Worst(distances, beyond);
            if (far < 0 || distances[far] <= reach)
            {
                break;
            }
            if (Line(points[far], direction, room, ring, runs, distances[far]) is not { } line)
            {
                beyond[far] = true;
                continue;
            }
            runs.Add(line);
            for (int k = 0; k < points.Length; k++)
            {
                distances[k] = Math.Min(distances[k], Measure.Distance(points[k], line) - halfWidth);
            }
        }
        int worst = Worst(distances, new bool[points.Length]);
        return new([ring], [.. runs], Math.Max(0, distances[worst]), points[worst]);
    }

    /// <summary>The first of the farthest points that may still be helped; -1 where none is left.</summary>
    private static int Worst(double[] distances, bool[] beyond)
    {
        int farthest = -1;
        for (int k = 0; k < distances.Length; k++)
        {
            if (!beyond[k] && (farthest < 0 || distances[k] > distances[farthest] + 1e-3))
            {
                farthest = k;
            }
        }
        return farthest;
    }

    /// <summary>Lines run across the zone's longer side.</summary>
    private static Point2 AcrossOf(Box2 box) => box.Width >= box.Height ? new(0, 1) : new(1, 0);

    private static double Nearest(Point2 p, Contour ring, List<OpenPath> runs) =>
        runs.Select(r => Measure.Distance(p, r)).Append(Measure.Distance(p, ring)).Min();

    /// <summary>
    /// The next groove for a point that is too far off: a line through it across the zone, along it, or the short way to
    /// what is there; null where none brings it nearer.
    /// </summary>
    private static OpenPath? Line(
        Point2 far,
        Point2 across,
        Region room,
        Contour ring,
        List<OpenPath> runs,
        double distance
    )
    {
        Point2 p = Inside.Contains(room, far) ? far : Measure.Closest(far, room);
        if (p.DistanceTo(far) >= distance)
        {
            return null;
        }
        foreach (Point2 direction in new[] { across, across.Left })
        {
            OpenPath? line = Through(p, direction, room).FirstOrDefault(l => Meets(l, ring, runs));
            if (line is not null)
            {
                return line;
            }
        }
        Point2 to = runs.Select(r => Measure.Closest(p, r))
            .Append(Measure.Closest(p, ring))
            .MinBy(q => q.DistanceTo(p));
        OpenPath? link = Clip.Line(p, to, [room]).FirstOrDefault(l => Measure.Length(l) >= p.DistanceTo(to) - Touch);
        return link is not null && p.DistanceTo(to) > Touch ? link : null;
    }

    /// <summary>The piece of the straight line through p that lies in the room and holds p.</summary>
    private static IEnumerable<OpenPath> Through(Point2 p, Point2 direction, Region room)
    {
        Box2 box = Measure.Bounds(room.Outer);
        double length = box.Width + box.Height;
        return Clip.Line(p - (direction * length), p + (direction * length), [room])
            .Where(l => Measure.Distance(p, l) <= Touch && Measure.Length(l) > Touch);
    }

    private static bool Meets(OpenPath line, Contour ring, List<OpenPath> runs) =>
        new[] { line.Start, line.End }.Any(e =>
            Measure.Distance(e, ring) <= Touch || runs.Any(r => Measure.Distance(e, r) <= Touch)
        ) || runs.Any(r => r.Segments.Any(s => line.Segments.Any(l => Intersections.Of(s, l, Touch).Length > 0)));

    private static IEnumerable<Point2> Samples(SealedZone zone)
    {
        foreach (Region region in zone.Sealed)
        {
            Box2 box = Measure.Bounds(region.Outer);
            for (double y = box.MinY + (Sample / 2); y < box.MaxY; y += Sample)
            {
                foreach (OpenPath row in Clip.Line(new(box.MinX - 1, y), new(box.MaxX + 1, y), [region]))
                {
                    for (double x = row.Start.X; x < row.End.X; x += Sample)
                    {
                        yield return new(x, y);
                    }
                    yield return row.End;
                }
            }
        }
    }
}
