using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Tests.Support;

namespace FixtureGen.Tests.Hostile;

/// <summary>Regions and a distance made from a number alone to be hard to offset, and the family they are of.</summary>
public sealed record HostileOffset(int Number, string Family, Region[] Regions, double Distance)
{
    public static readonly string[] Families =
    [
        "arc as wide as the distance",
        "pocket corners as wide as the distance",
        "tiny corner arcs",
        "nearly full circles",
        "hardly bent edges",
        "channel twice the distance wide",
        "concentric walls",
        "many radii near the distance",
        "opened, then opened again",
        "nearly tangent joints",
        "rounded coordinates",
    ];

    public static HostileOffset Make(int number)
    {
        var random = new Random(unchecked((int)((uint)number * 2654435761)));
        int family = number % Families.Length;
        (Region[] regions, double d) = family switch
        {
            0 => ArcAsWide(number, random),
            1 => PocketCorners(random),
            2 => TinyArcs(random),
            3 => NearlyFull(random),
            4 => HardlyBent(random),
            5 => Channel(random),
            6 => Concentric(random),
            7 => ManyRadii(random),
            8 => Opened(number, random),
            9 => NearTangentJoints(random),
            _ => RoundedCoordinates(random),
        };
        if (random.Next(4) == 0)
        {
            Pose pose = new(random.NextDouble() * 10_000, random.NextDouble() * 10_000, random.NextDouble() * 360);
            regions = [.. regions.Select(r => Transform.Apply(pose, r))];
        }
        return new(number, Families[family], regions, d);
    }

    /// <summary>A hair of any size: 1e-10 to 1e-1 mm, of either sign; now and then none.</summary>
    private static double Hair(Random random) =>
        random.Next(8) == 0
            ? 0
            : (1 + (9 * random.NextDouble())) * Math.Pow(10, -2 - random.Next(9)) * (random.Next(2) == 0 ? 1 : -1);

    private static double Radius(Random random) =>
        random.Next(2) == 0 ? (1 + random.Next(20)) * 0.5 : 0.3 + (10 * random.NextDouble());

    /// <summary>The parallel of one of a random region's arcs shrinks to a hair, or to nothing.</summary>
    private static (Region[], double) ArcAsWide(int number, Random random)
    {
        OffsetCase basic = RandomRegions.Basic(number, new[] { 0, 1, 2, 3, 5 }[random.Next(5)], random);
        Segment[] arcs =
        [
            .. basic
                .Regions.SelectMany(r => r.Contours)
                .SelectMany(c => c.Segments)
                .Where(s => s.IsArc && s.Radius < 25),
        ];
        if (arcs.Length == 0)
        {
            return (basic.Regions, basic.Distance);
        }
        Segment arc = arcs[random.Next(arcs.Length)];
        double d = arc.Radius + Hair(random);
        return (basic.Regions, arc.IsCcw ? -d : d);
    }

    /// <summary>A plate with a pocket, some of whose corners are round by nearly the distance and some sharp.</summary>
    private static (Region[], double) PocketCorners(Random random)
    {
        double d = Radius(random);
        Point2[] corners =
        [
            new(0, 0),
            new(60, random.Next(3) * 5),
            new(60 + random.Next(10), 50),
            new(30, random.Next(2) == 0 ? 30 : 45),
            new(-random.Next(8), 50),
        ];
        Contour loop = Rounded(corners, _ => random.Next(3) == 0 ? 0 : Math.Max(1e-3, d + Hair(random)));
        Region outer = Region.From(loop);
        Region inner = new(Contours.Rectangle(new(-40, -40, 110, 90)), [Contours.Cw(loop)]);
        return random.Next(2) == 0 ? ([outer], -d) : ([inner], d);
    }

    /// <summary>A polygon whose corners are round by a hair or little more.</summary>
    private static (Region[], double) TinyArcs(Random random)
    {
        Point2[] corners = [.. RandomLoops.Star(random, 0).Segments.Select(s => s.Start)];
        double r = (1 + (9 * random.NextDouble())) * Math.Pow(10, -7 + random.Next(6));
        Contour loop = Rounded(corners, _ => random.Next(4) == 0 ? 0 : r * (1 + random.NextDouble()));
        double d = random.Next(3) == 0 ? r * (1 + random.NextDouble()) : Radius(random);
        return ([Region.From(loop)], random.Next(2) == 0 ? d : -d);
    }

    /// <summary>A disc with a flat, or a keyhole, of a hair's width; or a hole like that.</summary>
    private static (Region[], double) NearlyFull(Random random)
    {
        double r = 2 + Radius(random);
        double half = Math.Max(1e-6, Math.Abs(Hair(random)));
        double turn = random.NextDouble() * 2 * Math.PI;
        Point2 On(double side)
        {
            double angle = turn + (side * Math.Asin(half / r));
            return new(r * Math.Cos(angle), r * Math.Sin(angle));
        }
        Segment arc = Segment.Arc(On(1), On(-1), default, ccw: true);
        Point2 away = new Point2(Math.Cos(turn), Math.Sin(turn)) * 15;
        Contour loop =
            random.Next(2) == 0
                ? new([arc, Segment.Line(arc.End, arc.Start)])
                : new([
                    arc,
                    Segment.Line(arc.End, arc.End + away),
                    Segment.Line(arc.End + away, arc.Start + away),
                    Segment.Line(arc.Start + away, arc.Start),
                ]);
        double d = random.Next(2) == 0 ? r + Hair(random) : Radius(random);
        return random.Next(2) == 0
            ? ([Region.From(loop)], random.Next(2) == 0 ? -d : d)
            : ([new(Contours.Rectangle(new(-60, -60, 60, 60)), [Contours.Cw(loop)])], random.Next(2) == 0 ? -d : d);
    }

    /// <summary>A star whose edges are bent by a hair or less.</summary>
    private static (Region[], double) HardlyBent(Random random)
    {
        Point2[] p = [.. RandomLoops.Star(random, 0).Segments.Select(s => s.Start)];
        Contour loop = new([.. p.Select((a, i) => RandomLoops.Bent(a, p[(i + 1) % p.Length], Hair(random) / 10))]);
        return ([Region.From(loop)], random.Next(2) == 0 ? Radius(random) : -Radius(random));
    }

    /// <summary>A zigzag channel, straight or with round bends, that the distance just fits or just does not.</summary>
    private static (Region[], double) Channel(Random random)
    {
        double d = 1 + (random.Next(2) == 0 ? random.Next(6) : 6 * random.NextDouble());
        double width = 2 * (d + Hair(random));
        List<Segment> path = [];
        Point2 at = default;
        Point2 heading = new(1, 0);
        int n = 2 + random.Next(4);
        double bend = width * (0.5 + random.NextDouble());
        for (int i = 0; i < n; i++)
        {
            Point2 to = at + (heading * (20 + random.Next(20)));
            path.Add(Segment.Line(at, to));
            at = to;
            bool left = i % 2 == 0;
            Point2 centre = at + (heading.Left * (left ? bend : -bend));
            double angle = (60 + random.Next(60)) * (left ? 1 : -1);
            if (random.Next(2) == 0)
            {
                Point2 end = centre + Transform.Apply(new Pose(0, 0, angle), at - centre);
                path.Add(Segment.Arc(at, end, centre, left));
                at = end;
            }
            heading = Transform.Apply(new Pose(0, 0, angle), heading);
        }
        Region[] channel =
        [
            .. new Kernel(Tolerances.House).Stroke(
                new OpenPath([.. path]),
                width,
                random.Next(2) == 0 ? CornerJoin.Mitre : CornerJoin.Round,
                (PathCap)random.Next(3),
                4
            ),
        ];
        if (random.Next(2) == 0)
        {
            return (channel, -d);
        }
        Box2 box = Measure.Bounds(channel);
        Region[] plate =
        [
            Region.From(Contours.Rectangle(new(box.MinX - 30, box.MinY - 30, box.MaxX + 30, box.MaxY + 30))),
        ];
        return ([.. new Kernel(Tolerances.House).Difference(plate, channel)], d);
    }

    /// <summary>Sectors of rings about one centre, or nearly one, with walls and radii near the distance or twice it.</summary>
    private static (Region[], double) Concentric(Random random)
    {
        double d = Radius(random);
        double r = d + (random.Next(2) == 0 ? Hair(random) : 0.5 + random.Next(20));
        List<Region> rings = [];
        for (int i = 0; i < 3; i++)
        {
            double wall = (random.Next(3) + 1) * d + Hair(random);
            rings.Add(Sector(random, r, r + wall));
            r += wall + (2 * d) + Hair(random);
        }
        return ([.. rings], random.Next(2) == 0 ? d : -d);
    }

    private static Region Sector(Random random, double inner, double outer)
    {
        Point2 aside = random.Next(3) == 0 ? new(Hair(random) / 100, Hair(random) / 100) : default;
        if (random.Next(3) == 0)
        {
            return new(Contours.Circle(default, outer), [Contours.Cw(Contours.Circle(aside, inner))]);
        }
        double from = random.NextDouble() * 2 * Math.PI;
        double to = from + 0.3 + (5.5 * random.NextDouble());
        Point2 a = new(Math.Cos(from), Math.Sin(from));
        Point2 b = new(Math.Cos(to), Math.Sin(to));
        return Region.From(
            new([
                Segment.Line(a * inner, a * outer),
                Segment.Arc(a * outer, b * outer, default, ccw: true),
                Segment.Line(b * outer, b * inner),
                Segment.Arc(b * inner, a * inner, default, ccw: false),
            ])
        );
    }

    /// <summary>Holes and a rounded edge whose radii all lie within hairs of the distance.</summary>
    private static (Region[], double) ManyRadii(Random random)
    {
        double d = 1 + random.Next(5);
        List<Contour> holes = [];
        for (int i = 0; i < 8; i++)
        {
            Point2 c = new(14 + (i % 4 * 22), 14 + (i / 4 * 22));
            double r = d + Hair(random);
            holes.Add(
                Contours.Cw(
                    random.Next(3) switch
                    {
                        0 => Contours.Circle(c, r),
                        1 => Contours.Slot(c, c + new Point2(Math.Abs(Hair(random)) + 1e-6, random.Next(3)), r),
                        _ => Contours.RoundedRectangle(new(c.X - d - 2, c.Y - d - 1, c.X + d + 2, c.Y + d + 1), r),
                    }
                )
            );
        }
        return (
            [new(Contours.RoundedRectangle(new(0, 0, 94, 50), d + Hair(random)), [.. holes])],
            random.Next(3) == 0 ? -d : d
        );
    }

    /// <summary>What an opening or a closing leaves is full of arcs of its radius.</summary>
    private static (Region[], double) Opened(int number, Random random)
    {
        OffsetCase basic = RandomRegions.Basic(number, random.Next(6), random);
        var kernel = new Kernel(Tolerances.House);
        double d = Math.Abs(basic.Distance);
        double sign = random.Next(2) == 0 ? 1 : -1;
        double hair = random.Next(3) == 0 ? 0 : Hair(random);
        Region[] once = [.. kernel.Offset(kernel.Offset(basic.Regions, sign * d), -sign * d)];
        return (once, sign * Math.Max(1e-3, d + hair));
    }

    /// <summary>Corner arcs that miss being tangent to their sides by a hair.</summary>
    private static (Region[], double) NearTangentJoints(Random random)
    {
        Contour loop = RandomLoops.Filleted(random);
        Segment[] s = [.. loop.Segments];
        for (int i = 0; i < s.Length; i++)
        {
            if (s[i].IsArc)
            {
                Point2 along = (s[i].End - s[i].Start) * (Hair(random) / 10 / s[i].Start.DistanceTo(s[i].End));
                s[i] = s[i] with { Centre = s[i].Centre + along.Left };
            }
        }
        Segment[] arcs = [.. s.Where(x => x.IsArc)];
        double d =
            arcs.Length > 0 && random.Next(2) == 0
                ? arcs[random.Next(arcs.Length)].Radius + Hair(random)
                : Radius(random);
        return ([Region.From(new([.. s]))], random.Next(3) == 0 ? d : -d);
    }

    /// <summary>A curved outline as a drawing program writes it: ends and centres rounded to 4 to 9 decimals each.</summary>
    private static (Region[], double) RoundedCoordinates(Random random)
    {
        Contour loop = random.Next(3) switch
        {
            0 => RandomLoops.Star(random, 0.5),
            1 => RandomLoops.Filleted(random),
            _ => RandomLoops.ArcWiggle(random),
        };
        int decimals = 4 + random.Next(6);
        Point2 Round(Point2 p) => new(Math.Round(p.X, decimals), Math.Round(p.Y, decimals));
        Segment[] s =
        [
            .. loop.Segments.Select(x =>
                x with
                {
                    Start = Round(x.Start),
                    End = Round(x.End),
                    Centre = Round(x.Centre),
                }
            ),
        ];
        Segment[] arcs = [.. s.Where(x => x.IsArc && x.Radius < 25)];
        double d = arcs.Length > 0 && random.Next(2) == 0 ? arcs[random.Next(arcs.Length)].Radius : Radius(random);
        return ([Region.From(new([.. s]))], random.Next(2) == 0 ? d : -d);
    }

    /// <summary>A polygon with tangent arcs in its corners, of the given radii where there is room.</summary>
    private static Contour Rounded(Point2[] p, Func<int, double> radius)
    {
        int n = p.Length;
        List<Segment> corners = [];
        for (int i = 0; i < n; i++)
        {
            corners.Add(RandomLoops.Fillet(p[(i + n - 1) % n], p[i], p[(i + 1) % n], radius(i)));
        }
        List<Segment> loop = [];
        for (int i = 0; i < n; i++)
        {
            Segment next = corners[(i + 1) % n];
            if (corners[i].IsArc)
            {
                loop.Add(corners[i]);
            }
            loop.Add(Segment.Line(corners[i].End, next.Start));
        }
        return new([.. loop]);
    }
}
