using FixtureGen.Design.Block;
using FixtureGen.Design.Trim;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design;

/// <summary>
/// The search at one angle: shifts on a grid, from the block's middle outwards; the first that fits and feeds most
/// zones straight from the plate wins.
/// </summary>
internal static class PlaceSearch
{
    private const double Step = 2;

    /// <summary>
    /// What keeps a part off a blank: amount in mm, and by what. One that is small enough but meets a bolt says more than
    /// one that is too big at this angle.
    /// </summary>
    public sealed record Shortage(double By, string What, bool TooBig)
    {
        public bool SaysMoreThan(Shortage? other) =>
            other is null || (TooBig == other.TooBig ? By < other.By - 1e-6 : !TooBig);
    }

    /// <summary>Fed counts the zones over a port or plate groove; -1 where nothing fits. Short is the smallest shortage met.</summary>
    public sealed record Result(Pose? Pose, int Fed, Shortage? Short)
    {
        public static Result None { get; } = new(null, -1, null);

        public Result Or(Result later) =>
            later.Fed > Fed ? later
            : later.Pose is null && Pose is null && later.Short is { } s && s.SaysMoreThan(Short) ? later
            : this;
    }

    public static Result TryAngle(
        double angle,
        Footprint turned,
        IReadOnlyList<Obstacle> obstacles,
        Box2 block,
        Job job
    )
    {
        Box2 need = Measure.Bounds(turned.Outer);
        Box2 room = block.Outset(-BlankSeat.EdgeMargin(job));
        double over = Math.Max(need.Width - room.Width, need.Height - room.Height);
        if (over > 0)
        {
            string what = FormattableString.Invariant(
                $"the relief needs {need.Width:0.0} x {need.Height:0.0} mm at {angle:0} degrees, inside the margins there are {room.Width:0.0} x {room.Height:0.0} mm"
            );
            return new(null, -1, new(over, what, TooBig: true));
        }
        Result best = Result.None;
        foreach (Point2 shift in Shifts(need, room))
        {
            if (ShortAt(shift, turned, obstacles, room, job) is { } shortage)
            {
                best = best.Or(new(null, -1, shortage));
                continue;
            }
            int fed = turned.PortRooms.Count(z => IsFed(z, shift, job.Plate));
            Pose pose = new(shift.X, shift.Y, angle);
            if (fed > best.Fed && HasWayOut(turned, pose, obstacles, block, job))
            {
                best = new(pose, fed, null);
            }
            if (best.Fed == turned.PortRooms.Length)
            {
                break;
            }
        }
        return best.Pose is null && best.Short is null
            ? new(null, -1, new(0, "no channel leads from the relief to the block's edge", TooBig: false))
            : best;
    }

    /// <summary>Shifts that keep the relief in the room, the one that centres it first.</summary>
    private static IEnumerable<Point2> Shifts(Box2 need, Box2 room)
    {
        Point2 centred = room.Middle - need.Middle;
        Point2 start = new(Math.Round(centred.X, 2), Math.Round(centred.Y, 2));
        int nx = (int)Math.Floor((room.Width - need.Width) / 2 / Step);
        int ny = (int)Math.Floor((room.Height - need.Height) / 2 / Step);
        return Enumerable
            .Range(-ny, (2 * ny) + 1)
            .SelectMany(j => Enumerable.Range(-nx, (2 * nx) + 1).Select(i => (I: i, J: j)))
            .OrderBy(c => (c.I * c.I) + (c.J * c.J))
            .Select(c => start + new Point2(c.I * Step, c.J * Step));
    }

    /// <summary>The worst of what is in the way at this shift; null where nothing is.</summary>
    private static Shortage? ShortAt(
        Point2 shift,
        Footprint turned,
        IReadOnlyList<Obstacle> obstacles,
        Box2 room,
        Job job
    )
    {
        Shortage? worst = null;
        foreach (Obstacle o in obstacles)
        {
            Point2 p = o.At - shift;
            double needed = o.Radius + job.Rules.Wall;
            double distance = Measure.Distance(p, turned.Outer);
            worst = Worse(worst, Inside.Contains(turned.Outer, p) ? needed + distance : needed - distance, o.Name);
            foreach (Point2 pin in turned.LocatorPins)
            {
                worst = Worse(worst, needed + (job.Rules.LocatorPinDiameter / 2) - p.DistanceTo(pin), o.Name);
            }
        }
        Box2 pinRoom = room.Outset(-job.Rules.LocatorPinDiameter / 2);
        foreach (Point2 pin in turned.LocatorPins.Select(p => p + shift))
        {
            double outside = Math.Max(
                Math.Max(pinRoom.MinX - pin.X, pin.X - pinRoom.MaxX),
                Math.Max(pinRoom.MinY - pin.Y, pin.Y - pinRoom.MaxY)
            );
            worst = Worse(worst, outside, "the block's edge (locator pin)");
        }
        return worst;
    }

    private static Shortage? Worse(Shortage? worst, double by, string what) =>
        by > 1e-9 && (worst is null || by > worst.By)
            ? new(by, $"the part's relief meets {what}", TooBig: false)
            : worst;

    private static bool IsFed(IReadOnlyList<Region> portRoom, Point2 shift, Plate plate) =>
        plate.Ports.Any(p =>
            BreakThrough.Allowed(p, PortSize.LeastDiameter, 0) && Inside.Contains(portRoom, p.At - shift)
        )
        || plate.Grooves.Any(g =>
            Clip.Path(Transform.Apply(new Pose(-shift.X, -shift.Y, 0), g.Run), portRoom).Length > 0
        );

    private static bool HasWayOut(Footprint turned, Pose pose, IReadOnlyList<Obstacle> obstacles, Box2 block, Job job)
    {
        TrimCut outline = turned.Outline with
        {
            Edge = Transform.Apply(pose, turned.Outline.Edge),
            Path = Transform.Apply(pose, turned.Outline.Path),
        };
        Contour middle = Transform.Apply(pose, turned.Middle);
        return BreakOut.Shortest(Relief.WayOut(outline, middle, obstacles, block, job)) is not null;
    }
}
