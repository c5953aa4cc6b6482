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

    private readonly ImmutableArray<Hollow> _hollows;

    /// <param name="samples">See <see cref="Samples"/>.</param>
    /// <param name="hollows">Hollows of the shell that the net is to open into.</param>
    /// <param name="moats">Inside the centre lines of the grooves that go round plugs, in some of those hollows.</param>
    public NetLines(
        Point2[] samples,
        ImmutableArray<Region> hollows,
        ImmutableArray<Region> moats,
        double halfWidth,
        Kernel kernel
    )
    {
        _halfWidth = halfWidth;
        _hollows =
        [
            .. hollows
                .Select(h =>
                    moats.FirstOrDefault(m => kernel.Intersect([m], [h]).Length > 0) is { } moat
                        ? new Hollow(h, [moat], moat.Outer)
                        : new Hollow(h, [.. kernel.Offset([h], -2 * halfWidth)], null)
                )
                .Where(h => h.Inner.Length > 0),
        ];
        _points = samples;
        _distances = new double[samples.Length];
        Array.Fill(_distances, double.PositiveInfinity);
    }

    public ImmutableArray<Contour> Rings => [.. _rings];

    public ImmutableArray<OpenPath> Runs => [.. _runs];

    /// <summary>The hollows that the grooves lead into by a groove's width or more.</summary>
    public ImmutableArray<Region> Opened { get; private set; } = [];

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
        Open(all, laid);
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

    /// <summary>Leads the shortest groove into every hollow that none leads into yet; what it carries is then as near as a groove.</summary>
    private void Open(Room room, List<Groove> laid)
    {
        foreach (Hollow hollow in _hollows)
        {
            bool opens = laid.Exists(g => g.Enters(hollow.Inner));
            if (!opens && Into(hollow, room, laid) is { } line)
            {
                Add(line, laid);
                opens = true;
            }
            if (opens && hollow.Moat is { } moat)
            {
                laid.Add(new Groove(moat.Segments));
                _rings.Add(moat);
                Lower(laid[^1]);
            }
            if (opens)
            {
                Opened = Opened.Add(hollow.Area);
                Lower(new Groove(hollow.Area.Outer.Segments), -_halfWidth);
            }
        }
    }

    /// <summary>The shortest straight way from a groove to the inner edge of a hollow; null where none stays in the room.</summary>
    private static OpenPath? Into(Hollow hollow, Room room, List<Groove> laid) =>
        hollow
            .Inner.SelectMany(r => Flatten.Points(r.Outer, Sample))
            .Where(room.Within.Contains)
            .Select(p => Link(p, room, laid))
            .OfType<OpenPath>()
            .MinBy(l => Math.Round(Measure.Length(l), 3));

    /// <summary>A hollow of the shell, the part of it that a groove's end must come to, and the groove round the plug in it.</summary>
    private sealed record Hollow(Region Area, Region[] Inner, Contour? Moat);

    private void Add(OpenPath line, List<Groove> laid)
    {
        laid.Add(new Groove(line.Segments));
        _runs.Add(line);
        Lower(laid[^1]);
    }

    /// <summary>Takes a groove into the distances. Points come in rows, so that one's distance bounds its neighbour's.</summary>
    /// <param name="outset">What its edge lies outside of the line, less than half a groove's width, mm.</param>
    private void Lower(Groove groove, double outset = 0)
    {
        double half = _halfWidth + outset;
        double known = double.PositiveInfinity;
        for (int k = 0; k < _points.Length; k++)
        {
            double fromLast = k > 0 ? known + _points[k].DistanceTo(_points[k - 1]) + 1e-6 : known;
            double limit = Math.Min(_distances[k] + half, fromLast);
            double distance = groove.Distance(_points[k], limit);
            known = distance < limit ? distance : double.PositiveInfinity;
            _distances[k] = Math.Min(_distances[k], distance - half);
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

        /// <summary>Whether the line begins or runs in an area.</summary>
        public bool Enters(IReadOnlyList<Region> area) =>
            _segments.Any(s =>
                Inside.Contains(area, s.Start)
                || Inside.Contains(area, s.End)
                || area.SelectMany(r => r.Contours)
                    .SelectMany(c => c.Segments)
                    .Any(edge => Intersections.Find(s, edge, Touch).Length > 0)
            );

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

    /// <summary>The points of a zone that are asked how far they are from a groove, row by row; not those under a hollow.</summary>
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
                        if (zone.Hollows.IsEmpty || !Inside.Contains(zone.Hollows, new Point2(x, y)))
                        {
                            yield return new(x, y);
                        }
                    }
                    yield return row.End;
                }
            }
        }
    }
}
