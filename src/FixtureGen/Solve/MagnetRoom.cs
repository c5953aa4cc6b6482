using System.Collections.Immutable;
using FixtureGen.Design.Seals;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Solve;

/// <summary>
/// Where a magnet may stand: its pocket a wall from grooves, holes, other pockets and channels from below, a magnet's
/// diameter from steel; its jacket flat on the shell, clear of forms and keep-outs, and clear of cutter, shank and holder
/// along every move of the trim. Plate frame, mm.
/// </summary>
internal sealed class MagnetRoom
{
    private readonly FixtureDesign _design;
    private readonly double _pocket;
    private readonly double _wall;
    private readonly double _jacket;
    private readonly double _magnet;
    private readonly double _half;
    private readonly bool _byMagnets;
    private readonly double _moat;
    private readonly ImmutableArray<(OpenPath Way, double Keep)> _moves;
    private readonly ImmutableArray<(HoleFeature Hole, double Keep)> _holes;
    private readonly ImmutableArray<PocketFeature> _pockets;
    private readonly Func<double, double> _portKeep;
    private readonly ImmutableArray<(OpenPath Run, double Keep)> _channels;

    public MagnetRoom(FixtureDesign design, Job job)
    {
        _design = design;
        _byMagnets = job.HoldBy == HoldBy.Magnets;
        MagnetSpec spec = job.Magnet;
        _wall = job.Rules.Wall;
        _magnet = spec.Diameter;
        _half = job.Gasket.GrooveWidth / 2;
        _pocket = (spec.Diameter + spec.DiameterTolerance + job.Rules.MagnetPocketClearance) / 2;
        _moat = SealedForms.Moat(job) + _pocket + _wall;
        _jacket = (spec.JacketDiameter / 2) + job.Rules.JacketClearance;
        _moves = [.. Moves(job)];
        _portKeep = diameter => NetWidth.PocketFromPort(job, diameter);
        _holes = [.. design.Features.OfType<HoleFeature>().Select(h => (h, KeepFrom(h)))];
        _pockets =
        [
            .. design.Features.OfType<PocketFeature>().Where(p => p.Kind is not (FeatureKind.Skim or FeatureKind.Plug)),
        ];
        double floor = design.FixtureHeight - job.Rules.MagnetRecess - spec.Thickness - job.Rules.MagnetGlue;
        _channels =
        [
            .. design
                .Features.OfType<GrooveFeature>()
                .Where(g => g.Setup == Setup.Underside && floor - g.TopZ < job.Rules.LeastFloor)
                .SelectMany(g => g.Runs.Select(r => (r, _pocket + _wall + (g.Width / 2)))),
        ];
    }

    /// <summary>Pockets of neighbours keep a wall between them.</summary>
    public double PocketSpacing => (2 * _pocket) + _wall;

    /// <summary>How much room is left at a place, mm, and what is nearest; below 0 a magnet may not stand there.</summary>
    public (double Slack, string Against) RoomAt(Point2 p)
    {
        Room room = Least(p);
        return (room.Slack, room.Against);
    }

    /// <summary>The nearest point of what takes a place's room.</summary>
    public Point2 Nearest(Point2 p) =>
        Least(p).Thing switch
        {
            Region zone => Measure.Closest(p, zone),
            OpenPath run => Measure.Closest(p, run),
            HoleFeature hole => hole.At,
            PocketFeature other => other.Area.Select(r => Measure.Closest(p, r)).MinBy(q => q.DistanceTo(p)),
            FormRegion form => Measure.Closest(p, form.Edge),
            Contour keepOut => Measure.Closest(p, keepOut),
            _ => p,
        };

    /// <summary>Slack in mm and what takes it.</summary>
    private readonly record struct Room(double Slack, string Against, object? Thing);

    /// <summary>Whether at least so much room is left at a place, mm.</summary>
    public bool Leaves(Point2 p, double slack)
    {
        foreach (Room room in Rooms(p))
        {
            if (room.Slack < slack)
            {
                return false;
            }
        }
        return true;
    }

    private Room Least(Point2 p)
    {
        Room least = new(double.MaxValue, "", null);
        foreach (Room room in Rooms(p))
        {
            least = room.Slack < least.Slack ? room : least;
        }
        return least;
    }

    /// <summary>The room that each thing near a place leaves, the zone's or part's own first.</summary>
    private IEnumerable<Room> Rooms(Point2 p)
    {
        yield return Within(p);
        foreach ((OpenPath way, double keep) in _moves)
        {
            yield return new Room(Measure.Distance(p, way) - keep, "the trim cutter's way", way);
        }
        foreach ((HoleFeature hole, double keep) in _holes)
        {
            double off = p.DistanceTo(hole.At) - ((hole.Diameter + hole.SlotLength) / 2);
            yield return new Room(off - keep, hole.Name, hole);
        }
        foreach (PocketFeature other in _pockets)
        {
            yield return new Room(Outside(p, other.Area) - _pocket - _wall, other.Name, other);
        }
        foreach ((OpenPath run, double keep) in _channels)
        {
            yield return new Room(Measure.Distance(p, run) - keep, "a channel from below", run);
        }
        foreach (FormRegion form in _design.Part.Forms)
        {
            yield return new Room(
                Outside(p, form.Edge) - (form.Plugged ? Math.Max(_jacket, _moat) : _jacket),
                "a form of the shell",
                form
            );
        }
        foreach (Contour keepOut in _design.Part.KeepOuts)
        {
            yield return new Room(Outside(p, keepOut) - Math.Max(_pocket, _jacket), "a keep-out", keepOut);
        }
    }

    private Room Within(Point2 p)
    {
        if (_byMagnets)
        {
            double edge = Measure.Distance(p, _design.Part.Outer);
            return new Room(
                (Inside.Contains(_design.Part.Outer, p) ? edge : -edge) - _wall - _pocket,
                "the part's edge",
                _design.Part.Outer
            );
        }
        Room most = new(double.MinValue, "the edge of the sealed zone", null);
        foreach (SealedZone zone in _design.Zones)
        {
            double distance = Measure.Distance(p, zone.Boundary);
            double inside = Inside.Contains(zone.Boundary, p) ? distance : -distance;
            double slack = inside - _half - _wall - _pocket;
            most = slack > most.Slack ? most with { Slack = slack, Thing = zone.Boundary } : most;
        }
        return most;
    }

    /// <summary>The box that magnets are looked for in: of the sealed zones, of the part where it has none.</summary>
    public static Box2 Field(FixtureDesign design) =>
        design.Zones.IsEmpty ? Measure.Bounds(design.Part.Outer) : Measure.Bounds(design.Zones.Select(z => z.Boundary));

    /// <summary>Allowed places on a grid, row by row; the pitch is a multiple of 0.5 mm and at most about the given number come out.</summary>
    public (Point2[] Places, double Pitch) Grid(int most)
    {
        if (_design.Zones.IsEmpty && !_byMagnets)
        {
            return ([], 1);
        }
        Box2 box = Field(_design);
        double pitch = Math.Max(1, Math.Floor(2 * Math.Sqrt(box.Width * box.Height / (3.0 * most))) / 2);
        while (true)
        {
            Point2[] places = [.. On(box, pitch)];
            if (places.Length <= most)
            {
                return (places, pitch);
            }
            pitch += 0.5;
        }
    }

    private IEnumerable<Point2> On(Box2 box, double pitch)
    {
        int columns = (int)(box.Width / pitch);
        int rows = (int)(box.Height / pitch);
        Point2 first = box.Middle - (new Point2(columns, rows) * (pitch / 2));
        first = new Point2(Math.Round(first.X, 1), Math.Round(first.Y, 1));
        for (int row = 0; row <= rows; row++)
        {
            for (int column = 0; column <= columns; column++)
            {
                Point2 p = first + new Point2(column * pitch, row * pitch);
                if (Leaves(p, 0))
                {
                    yield return p;
                }
            }
        }
    }

    private IEnumerable<(OpenPath, double)> Moves(Job job)
    {
        foreach (TrimCut cut in _design.TrimCuts)
        {
            double keep = _jacket + Reach(cut.Tool, cut.FloorZ, job);
            foreach (Contour ring in cut.Clearing.Append(cut.Path))
            {
                yield return (new OpenPath(ring.Segments), keep);
            }
            yield return (cut.LeadIn, keep);
            yield return (cut.LeadOut, keep);
        }
        foreach (DrilledHole hole in _design.DrilledHoles)
        {
            // the way is the drill's own circle, so its radius is not kept twice
            double keep = _jacket + Reach(hole.Tool, hole.FloorZ, job) - hole.Tool.Radius;
            yield return (new OpenPath(hole.Sweep.Outer.Segments), keep);
        }
        if (job.Tools.FirstOrDefault(t => t.Kind == ToolKind.Engraver) is { } engraver)
        {
            double tip = _design.FixtureHeight + job.Shell.Thickness - job.Rules.EngraveDepth;
            double keep = _jacket + Reach(engraver, tip, job);
            foreach (OpenPath stroke in _design.Part.Engravings.SelectMany(m => m.Strokes))
            {
                yield return (stroke, keep);
            }
        }
    }

    /// <summary>Widest part of the tool that passes at a jacket's height: cutter, shank, holder.</summary>
    private double Reach(Tool tool, double tipZ, Job job)
    {
        double top =
            _design.FixtureHeight + job.Shell.ThicknessMax + job.Magnet.JacketHeight + job.Rules.JacketClearance;
        double reach = tool.Radius;
        if (tipZ + tool.FluteLength < top)
        {
            reach = Math.Max(reach, tool.ShankDiameter / 2);
        }
        return tipZ + tool.StickOut < top ? Math.Max(reach, tool.HolderDiameter / 2) : reach;
    }

    private double KeepFrom(HoleFeature hole)
    {
        if (hole.Kind == FeatureKind.Port)
        {
            return _pocket + _portKeep(hole.Diameter);
        }
        bool steel =
            hole.Kind
            is FeatureKind.BoltHole
                or FeatureKind.Counterbore
                or FeatureKind.PinHole
                or FeatureKind.PinSlot
                or FeatureKind.LocatorHole;
        return steel ? Math.Max(_pocket + _wall, 1.5 * _magnet) : _pocket + _wall;
    }

    private static double Outside(Point2 p, ImmutableArray<Region> area)
    {
        double distance = Measure.Distance(p, area);
        return Inside.Contains(area, p) ? -distance : distance;
    }

    private static double Outside(Point2 p, Contour edge)
    {
        double distance = Measure.Distance(p, edge);
        return Inside.Contains(edge, p) ? -distance : distance;
    }
}
