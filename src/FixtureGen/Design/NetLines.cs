using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design;

/// <summary>
/// The centre lines of one zone's net as they are laid, and how far each point of the sealed area still is from a groove's
/// wall, mm, known on a grid of <see cref="Sample"/> and along the edge.
/// </summary>
internal sealed class NetLines
{
    private const double Sample = 1.5;
    private const double Touch = 0.01;
    private const int MostLines = 60;

    private readonly Point2[] points;
    private readonly double[] distances;
    private readonly double halfWidth;
    private readonly List<Contour> rings = [];
    private readonly List<OpenPath> runs = [];

    public NetLines(SealedZone zone, double halfWidth)
    {
        this.halfWidth = halfWidth;
        points = [.. Samples(zone)];
        distances = [.. points.Select(_ => double.PositiveInfinity)];
    }

    public ImmutableArray<Contour> Rings => [.. rings];

    public ImmutableArray<OpenPath> Runs => [.. runs];

    /// <summary>The point that is farthest from a groove, and how far.</summary>
    public (Point2 At, double Distance) Farthest
    {
        get
        {
            int worst = Worst(new bool[points.Length]);
            return (points[worst], Math.Max(0, distances[worst]));
        }
    }

    /// <summary>
    /// Lays a ring, a line from the port to it, and further lines until no point that a line helps is farther than the
    /// reach. False, and nothing laid, where no straight groove leads from the port to the ring.
    /// </summary>
    /// <param name="room">Where a centre line may run; holds the port.</param>
    /// <param name="ring">A loop in the room that keeps a wall between its own sides.</param>
    public bool Lay(Point2 port, Region room, Contour ring, double reach)
    {
        Point2 across = AcrossOf(Measure.Bounds(room.Outer));
        List<OpenPath> laid = [];
        if (Measure.Distance(port, ring) > halfWidth)
        {
            if (Through(port, across, room, ring, laid) is not { } first)
            {
                return false;
            }
            Add(first, laid);
        }
        rings.Add(ring);
        Lower(ring.Segments);
        bool[] beyond = new bool[points.Length];
        for (int i = 0; i < MostLines && Worst(beyond) is >= 0 and var far && distances[far] > reach; i++)
        {
            if (Line(points[far], across, room, ring, laid, distances[far]) is { } line)
            {
                Add(line, laid);
            }
            else
            {
                beyond[far] = true;
                i--;
            }
        }
        return true;
    }

    private void Add(OpenPath line, List<OpenPath> laid)
    {
        laid.Add(line);
        runs.Add(line);
        Lower(line.Segments);
    }

    private void Lower(ImmutableArray<Segment> groove)
    {
        CurveIndex near = new();
        near.Build([.. groove.Select(s => Curve.Of(s))], groove.Length, 0);
        for (int k = 0; k < points.Length; k++)
        {
            double distance = near.Nearest(points[k], distances[k] + halfWidth, out int nearest);
            distances[k] = nearest < 0 ? distances[k] : Math.Min(distances[k], distance - halfWidth);
        }
    }

    /// <summary>The first of the farthest points that may still be helped; -1 where none is left.</summary>
    private int Worst(bool[] beyond)
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

    /// <summary>The shortest straight line through p that meets what is laid, of four directions; else the short way.</summary>
    private static OpenPath? Through(Point2 p, Point2 across, Region room, Contour ring, List<OpenPath> laid)
    {
        Point2 along = across.Left;
        Point2[] directions = [across, along, (across + along) * Math.Sqrt(0.5), (across - along) * Math.Sqrt(0.5)];
        return directions
                .SelectMany(d => Through(p, d, room))
                .Where(l => Meets(l, ring, laid))
                .OrderBy(l => Math.Round(Measure.Length(l), 3))
                .FirstOrDefault()
            ?? Link(p, room, ring, laid);
    }

    /// <summary>Lines run across the zone's longer side.</summary>
    private static Point2 AcrossOf(Box2 box) => box.Width >= box.Height ? new(0, 1) : new(1, 0);

    /// <summary>
    /// The next groove for a point that is too far off: through it, or through the nearest place of the room; null where
    /// that brings it no nearer.
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
        return Through(p, across, room, ring, runs);
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
