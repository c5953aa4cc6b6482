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
            int worst = Enumerable.Range(0, points.Length).MaxBy(k => Math.Round(distances[k], 3));
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
        RegionIndex within = new([room]);
        Box2 box = Measure.Bounds(room.Outer);
        Groove round = new(ring.Segments);
        Room all = new(within, AcrossOf(box), box.Width + box.Height);
        List<Groove> laid = [round];
        if (Measure.Distance(port, ring) > halfWidth)
        {
            if (Through(port, all, laid) is not { } first)
            {
                return false;
            }
            Add(first, laid);
        }
        rings.Add(ring);
        Lower(round);
        int[] open = FarthestFirst(Enumerable.Range(0, points.Length), reach);
        int next = 0;
        for (int lines = 0; lines < MostLines && next < open.Length; )
        {
            int far = open[next];
            if (Line(points[far], all, laid, distances[far]) is { } line)
            {
                Add(line, laid);
                open = FarthestFirst(open.Skip(next), reach);
                next = 0;
                lines++;
            }
            else
            {
                next++;
            }
        }
        return true;
    }

    private void Add(OpenPath line, List<Groove> laid)
    {
        laid.Add(new Groove(line.Segments));
        runs.Add(line);
        Lower(laid[^1]);
    }

    /// <summary>Takes a groove into the distances. Points come in rows, so that one's distance bounds its neighbour's.</summary>
    private void Lower(Groove groove)
    {
        double known = double.PositiveInfinity;
        for (int k = 0; k < points.Length; k++)
        {
            double fromLast = k > 0 ? known + points[k].DistanceTo(points[k - 1]) + 1e-6 : known;
            double limit = Math.Min(distances[k] + halfWidth, fromLast);
            double distance = groove.Distance(points[k], limit);
            known = distance < limit ? distance : double.PositiveInfinity;
            distances[k] = Math.Min(distances[k], distance - halfWidth);
        }
    }

    /// <summary>Those of some points that are farther than the reach, of equal ones the first before the others.</summary>
    private int[] FarthestFirst(IEnumerable<int> of, double reach) =>
        [.. of.Where(k => distances[k] > reach).OrderByDescending(k => Math.Round(distances[k], 3))];

    /// <summary>Where lines may run, the direction they run in first, and a length that leaves it.</summary>
    private sealed record Room(RegionIndex Within, Point2 Across, double Length);

    /// <summary>A ring or a line that is laid, made ready for many questions.</summary>
    private sealed class Groove
    {
        private readonly ImmutableArray<Segment> segments;
        private readonly CurveIndex index = new();

        public Groove(ImmutableArray<Segment> segments)
        {
            this.segments = segments;
            index.Build([.. segments.Select(s => Curve.Of(s))], segments.Length, 2 * Touch);
        }

        /// <summary>Distance of its centre line where that is below a limit, else the limit.</summary>
        public double Distance(Point2 p, double limit) => index.Nearest(p, limit, out _);

        public Point2 Closest(Point2 p)
        {
            index.Nearest(p, double.PositiveInfinity, out int nearest);
            return Measure.Closest(p, segments[nearest]);
        }

        public bool Meets(OpenPath line)
        {
            List<int> near = [];
            index.Touching(Measure.Bounds(line), near);
            return near.Select(i => segments[i])
                .Any(s =>
                    Measure.Distance(line.Start, s) <= Touch
                    || Measure.Distance(line.End, s) <= Touch
                    || line.Segments.Any(l => Intersections.Of(s, l, Touch).Length > 0)
                );
        }
    }

    /// <summary>The shortest straight line through p that meets what is laid, of four directions; else the short way.</summary>
    private static OpenPath? Through(Point2 p, Room room, List<Groove> laid)
    {
        Point2 across = room.Across;
        Point2 along = across.Left;
        Point2[] directions = [across, along, (across + along) * Math.Sqrt(0.5), (across - along) * Math.Sqrt(0.5)];
        return directions
                .SelectMany(d => Through(p, d, room))
                .Where(l => laid.Exists(g => g.Meets(l)))
                .OrderBy(l => Math.Round(Measure.Length(l), 3))
                .FirstOrDefault()
            ?? Link(p, room, laid);
    }

    /// <summary>Lines run across the zone's longer side.</summary>
    private static Point2 AcrossOf(Box2 box) => box.Width >= box.Height ? new(0, 1) : new(1, 0);

    /// <summary>
    /// The next groove for a point that is too far off: through it, or through the nearest place of the room; null where
    /// that brings it no nearer.
    /// </summary>
    private static OpenPath? Line(Point2 far, Room room, List<Groove> laid, double distance)
    {
        Point2 p = room.Within.Contains(far) ? far : room.Within.Closest(far);
        return p.DistanceTo(far) >= distance ? null : Through(p, room, laid);
    }

    /// <summary>The straight way from p to the nearest groove, where it stays in the room.</summary>
    private static OpenPath? Link(Point2 p, Room room, List<Groove> laid)
    {
        Point2 to = laid.Select(g => g.Closest(p)).MinBy(q => q.DistanceTo(p));
        return p.DistanceTo(to) <= Touch
            ? null
            : room.Within.Line(p, to).FirstOrDefault(l => Measure.Length(l) >= p.DistanceTo(to) - Touch);
    }

    /// <summary>The piece of the straight line through p that lies in the room and holds p.</summary>
    private static IEnumerable<OpenPath> Through(Point2 p, Point2 direction, Room room) =>
        room
            .Within.Line(p - (direction * room.Length), p + (direction * room.Length))
            .Where(l => Measure.Distance(p, l) <= Touch && Measure.Length(l) > Touch);

    private static IEnumerable<Point2> Samples(SealedZone zone)
    {
        foreach (Region region in zone.Sealed)
        {
            Box2 box = Measure.Bounds(region.Outer);
            RegionIndex within = new([region]);
            for (double y = box.MinY + (Sample / 2); y < box.MaxY; y += Sample)
            {
                foreach (OpenPath row in within.Line(new(box.MinX - 1, y), new(box.MaxX + 1, y)))
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
