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
    /// <param name="ring">A loop in the room that keeps a wall between its own sides.</param>
    /// <returns>Null where no straight groove leads from the port to the ring.</returns>
    public static NetLines? Cover(SealedZone zone, Region room, Contour ring, double halfWidth, double reach)
    {
        Point2 across = AcrossOf(Measure.Bounds(room.Outer));
        if (FromPort(zone.PortAt, across, room, ring) is not { } first)
        {
            return null;
        }
        List<OpenPath> runs = [first];
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
            if (Line(points[far], across, room, ring, runs, distances[far]) is not { } line)
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

    /// <summary>The line through the port that meets the ring: across, along, then the two diagonals, else the short way.</summary>
    private static OpenPath? FromPort(Point2 port, Point2 across, Region room, Contour ring)
    {
        Point2 along = across.Left;
        Point2[] directions = [across, along, (across + along) * Math.Sqrt(0.5), (across - along) * Math.Sqrt(0.5)];
        return directions.SelectMany(d => Through(port, d, room)).FirstOrDefault(l => Meets(l, ring, []))
            ?? Link(port, room, ring, []);
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
        return Link(p, room, ring, runs);
    }

    /// <summary>The straight way from p to the nearest groove, where it stays in the room.</summary>
    private static OpenPath? Link(Point2 p, Region room, Contour ring, List<OpenPath> runs)
    {
        Point2 to = runs.Select(r => Measure.Closest(p, r))
            .Append(Measure.Closest(p, ring))
            .MinBy(q => q.DistanceTo(p));
        return p.DistanceTo(to) <= Touch
            ? null
            : Clip.Line(p, to, [room]).FirstOrDefault(l => Measure.Length(l) >= p.DistanceTo(to) - Touch);
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
        runs.SelectMany(r => r.Segments)
            .Concat(ring.Segments)
            .Any(s =>
                Measure.Distance(line.Start, s) <= Touch
                || Measure.Distance(line.End, s) <= Touch
                || line.Segments.Any(l => Intersections.Of(s, l, Touch).Length > 0)
            );

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
