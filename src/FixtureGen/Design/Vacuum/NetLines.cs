using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Vacuum;

/// <summary>
/// The centre lines of one zone's net as they are added, and how far each point of the sealed area still is from a groove's
/// wall, mm, known on a grid of <see cref="Sample"/> and along the edge.
/// </summary>
internal sealed class NetLines
{
    private const double Sample = 1.5;
    private const double Touch = 0.01;
    private const int MostLines = 60;

    /// <summary>What <see cref="Farthest"/> may miss, mm.</summary>
    public const double Rounding = 1e-3;

    private readonly Point2[] _points;
    private readonly double[] _distances;
    private readonly double _halfWidth;
    private readonly List<Contour> _rings = [];
    private readonly List<OpenPath> _runs = [];

    /// <param name="samples">See <see cref="Samples"/>.</param>
    public NetLines(Point2[] samples, double halfWidth)
    {
        _halfWidth = halfWidth;
        _points = samples;
        _distances = new double[samples.Length];
        Array.Fill(_distances, double.PositiveInfinity);
    }

    public ImmutableArray<Contour> Rings => [.. _rings];

    public ImmutableArray<OpenPath> Runs => [.. _runs];

    /// <summary>The point that is farthest from a groove to a thousandth, of such the first, and how far.</summary>
    public (Point2 At, double Distance) Farthest
    {
        get
        {
            int worst = 0;
            double most = double.NegativeInfinity;
            for (int k = 0; k < _points.Length; k++)
            {
                double rounded = Math.Round(_distances[k], 3);
                (worst, most) = rounded > most ? (k, rounded) : (worst, most);
            }
            return (_points[worst], Math.Max(0, _distances[worst]));
        }
    }

    /// <summary>
    /// Lays a ring, a line from the port to it, and further lines until no point that a line helps is farther than the
    /// reach. False, and nothing added, where no straight groove leads from the port to the ring.
    /// </summary>
    /// <param name="room">Where a centre line may run; holds the port.</param>
    /// <param name="ring">A loop in the room that keeps a wall between its own sides.</param>
    public bool Lay(Point2 port, Region room, Contour ring, double reach)
    {
        RegionIndex within = new([room]);
        Box2 box = Measure.Bounds(room.Outer);
        Groove round = new(ring.Segments);
        Room all = new(within, DirectionsIn(box), box.Width + box.Height);
        List<Groove> laid = [round];
        if (Measure.Distance(port, ring) > _halfWidth)
        {
            if (Through(port, all, laid) is not { } first)
            {
                return false;
            }
            Add(first, laid);
        }
        _rings.Add(ring);
        Lower(round);
        int[] open = FarthestFirst(Enumerable.Range(0, _points.Length), reach);
        int next = 0;
        for (int lines = 0; lines < MostLines && next < open.Length; )
        {
            int far = open[next];
            if (Line(_points[far], all, laid, _distances[far]) is { } line)
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
        _runs.Add(line);
        Lower(laid[^1]);
    }

    /// <summary>Takes a groove into the distances. Points come in rows, so that one's distance bounds its neighbour's.</summary>
    private void Lower(Groove groove)
    {
        double known = double.PositiveInfinity;
        for (int k = 0; k < _points.Length; k++)
        {
            double fromLast = k > 0 ? known + _points[k].DistanceTo(_points[k - 1]) + 1e-6 : known;
            double limit = Math.Min(_distances[k] + _halfWidth, fromLast);
            double distance = groove.Distance(_points[k], limit);
            known = distance < limit ? distance : double.PositiveInfinity;
            _distances[k] = Math.Min(_distances[k], distance - _halfWidth);
        }
    }

    /// <summary>Those of some points that are farther than the reach, of equal ones the first before the others.</summary>
    private int[] FarthestFirst(IEnumerable<int> of, double reach) =>
        [.. of.Where(k => _distances[k] > reach).OrderByDescending(k => Math.Round(_distances[k], 3))];

    /// <summary>Where lines may run, the directions they run in, and a length that leaves it.</summary>
    private sealed record Room(RegionIndex Within, Point2[] Directions, double Length);

    /// <summary>A ring or a line of the net, made ready for many questions.</summary>
    private sealed class Groove
    {
        private readonly ImmutableArray<Segment> _segments;
        private readonly CurveIndex _index = new();
        private readonly List<int> _near = [];

        public Groove(ImmutableArray<Segment> segments)
        {
            _segments = segments;
            _index.Build([.. segments.Select(s => Curve.From(s))], segments.Length, 2 * Touch);
        }

        /// <summary>Distance of its centre line where that is below a limit, else the limit.</summary>
        public double Distance(Point2 p, double limit) => _index.Nearest(p, limit, out _);

        public Point2 Closest(Point2 p)
        {
            _index.Nearest(p, double.PositiveInfinity, out int nearest);
            return Measure.Closest(p, _segments[nearest]);
        }

        public bool Meets(OpenPath line)
        {
            _near.Clear();
            _index.Touching(Measure.Bounds(line), _near);
            return _near.Exists(i => Meets(_segments[i], line));
        }

        private static bool Meets(Segment s, OpenPath line) =>
            Measure.Distance(line.Start, s) <= Touch
            || Measure.Distance(line.End, s) <= Touch
            || line.Segments.Any(l => Intersections.Find(s, l, Touch).Length > 0);
    }

    /// <summary>The shortest straight line through p that meets the net, of four directions; else the short way.</summary>
    private static OpenPath? Through(Point2 p, Room room, List<Groove> laid)
    {
        OpenPath? best = null;
        double shortest = double.PositiveInfinity;
        foreach (Point2 direction in room.Directions)
        {
            Point2 reach = direction * room.Length;
            foreach (OpenPath line in room.Within.LineAt(p - reach, p + reach, p, Touch))
            {
                double length = Measure.Length(line);
                double rounded = Math.Round(length, 3);
                if (length > Touch && rounded < shortest && laid.Exists(g => g.Meets(line)))
                {
                    (best, shortest) = (line, rounded);
                }
            }
        }
        return best ?? Link(p, room, laid);
    }

    /// <summary>Lines run across the zone's longer side first, then along it, then aslant.</summary>
    private static Point2[] DirectionsIn(Box2 box)
    {
        Point2 across = box.Width >= box.Height ? new(0, 1) : new(1, 0);
        Point2 along = across.Left;
        return [across, along, (across + along) * Math.Sqrt(0.5), (across - along) * Math.Sqrt(0.5)];
    }

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

    /// <summary>The points of a zone that are asked how far they are from a groove, row by row.</summary>
    public static IEnumerable<Point2> Samples(SealedZone zone)
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
