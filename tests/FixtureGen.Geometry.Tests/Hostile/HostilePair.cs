using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Tests.Support;

namespace FixtureGen.Tests.Hostile;

/// <summary>Two sets of regions made from a number alone to be hard to combine, and the family they are of.</summary>
public sealed record HostilePair(int Number, string Family, Region[] A, Region[] B)
{
    /// <summary>The families; the first ones are polygons throughout.</summary>
    public static readonly string[] Families =
    [
        "turned plates, rounded",
        "hair-shifted polygons",
        "slits and spikes",
        "fans through a point",
        "dense edges",
        "hair-shifted arcs",
        "near-tangent discs",
        "lenses",
        "coincident islands",
        "offset of itself",
        "round numbers",
        "whole-number grid",
    ];

    private const int Polygons = 5;

    public bool ArePolygons => Array.IndexOf(Families, Family) < Polygons;

    public static HostilePair Make(int number)
    {
        var random = new Random(unchecked((int)((uint)number * 2654435761)));
        int family = number % Families.Length;
        (Region[] a, Region[] b) = family switch
        {
            0 => TurnedPlates(random),
            1 => HairShifted(random, RandomLoops.Star(random, 0)),
            2 => SlitsAndSpikes(random),
            3 => Fans(random),
            4 => DenseEdges(random),
            5 => HairShifted(random, Curved(random)),
            6 => NearTangent(random),
            7 => Lenses(random),
            8 => Islands(random),
            9 => OffsetOfItself(random),
            10 => RoundNumbers(number, random),
            _ => Grid(random),
        };
        if (random.Next(5) == 0)
        {
            double far = Math.Pow(10, 3 + random.Next(5));
            Pose moved = new(far, -far / 3, 0);
            a = [.. a.Select(r => Transform.Apply(moved, r))];
            b = [.. b.Select(r => Transform.Apply(moved, r))];
        }
        return random.Next(2) == 0 ? new(number, Families[family], a, b) : new(number, Families[family], b, a);
    }

    /// <summary>A hair of any size: 1e-9 to 1e-1 mm, of either sign; now and then none.</summary>
    private static double Hair(Random random) =>
        random.Next(8) == 0
            ? 0
            : (1 + (9 * random.NextDouble())) * Math.Pow(10, -2 - random.Next(8)) * (random.Next(2) == 0 ? 1 : -1);

    private static Region Polygon(IReadOnlyList<Point2> points) =>
        Region.From(Contours.Ccw(Contours.FromPoints(points)));

    private static Region Rounded(Region r, int decimals)
    {
        Point2 Round(Point2 p) => new(Math.Round(p.X, decimals), Math.Round(p.Y, decimals));
        return Polygon([.. r.Outer.Segments.Select(s => Round(s.Start))]);
    }

    /// <summary>A plate and one that shares its sides but has a notch, both turned, corners rounded as a drawing program does.</summary>
    private static (Region[] A, Region[] B) TurnedPlates(Random random)
    {
        double w = 40 + random.Next(80);
        double h = 30 + random.Next(50);
        double n = 5 + random.Next((int)w - 20);
        double deep = 3 + random.Next((int)h - 10);
        double hair = random.Next(2) == 0 ? 0 : Hair(random);
        Region plate = Polygon([new(0, 0), new(w, 0), new(w, h), new(0, h)]);
        Region notched = Polygon([
            new(0, hair),
            new(n, hair),
            new(n, deep),
            new(n + 6, deep),
            new(n + 6, hair),
            new(w, hair),
            new(w, h),
            new(0, h),
        ]);
        Pose turned = new(random.NextDouble() * 100, random.NextDouble() * 100, random.NextDouble() * 360);
        int decimals = 3 + random.Next(7);
        return (
            [Rounded(Transform.Apply(turned, plate), decimals)],
            [Rounded(Transform.Apply(turned, notched), decimals)]
        );
    }

    private static Contour Curved(Random random)
    {
        Contour loop = random.Next(3) switch
        {
            0 => RandomLoops.Star(random, 0.4),
            1 => RandomLoops.Filleted(random),
            _ => RandomLoops.ArcWiggle(random),
        };
        return RandomLoops.CrossesItself(loop) ? RandomLoops.Star(random, 0) : loop;
    }

    private static (Region[] A, Region[] B) HairShifted(Random random, Contour loop)
    {
        Region a = Region.From(Contours.Ccw(loop));
        double turn = random.Next(3) == 0 ? Hair(random) : 0;
        Pose moved = new(Hair(random), random.Next(3) == 0 ? 0 : Hair(random), turn);
        return ([a], [Transform.Apply(moved, a)]);
    }

    /// <summary>Plates with slits and thin spikes whose tips are as sharp as a hair over the length.</summary>
    private static (Region[] A, Region[] B) SlitsAndSpikes(Random random)
    {
        Region Make(double y)
        {
            double half = Math.Abs(Hair(random));
            double tip = random.Next(2) == 0 ? 20 + (60 * random.NextDouble()) : 120 + (60 * random.NextDouble());
            return Polygon([
                new(0, 0),
                new(100, 0),
                new(100, y - half),
                new(tip, y),
                new(100, y + half),
                new(100, 60),
                new(0, 60),
            ]);
        }
        double at = 10 + random.Next(40);
        Region[] a = [Make(at)];
        Region[] b = [Make(random.Next(3) == 0 ? at : at + Hair(random))];
        Pose moved = new(Hair(random), Hair(random), random.Next(2) == 0 ? 0 : random.NextDouble() * 360);
        return random.Next(2) == 0 ? (a, b) : (a, [.. b.Select(r => Transform.Apply(moved, r))]);
    }

    /// <summary>Triangles whose sides all pass within a hair of one point.</summary>
    private static (Region[] A, Region[] B) Fans(Random random)
    {
        Region Wedge()
        {
            double t = random.NextDouble() * 2 * Math.PI;
            double narrow = random.Next(2) == 0 ? Math.Abs(Hair(random)) : 0.1 + random.NextDouble();
            Point2 tip = new(Hair(random), Hair(random));
            Point2 back = new(-30 * Math.Cos(t), -30 * Math.Sin(t));
            Point2 At(double angle) => tip + new Point2(50 * Math.Cos(angle), 50 * Math.Sin(angle));
            return random.Next(2) == 0
                ? Polygon([tip, At(t), At(t + narrow)])
                : Polygon([back + tip, At(t), At(t + narrow)]);
        }
        return ([Wedge(), Wedge()], [Wedge(), Wedge()]);
    }

    /// <summary>A wave whose edges are as short as a hair in part, and a hair-shifted window on it.</summary>
    private static (Region[] A, Region[] B) DenseEdges(Random random)
    {
        List<Point2> points = [new(0, -10), new(10, -10)];
        double step = Math.Max(2e-8, Math.Abs(Hair(random)));
        double x = 10;
        for (int i = 0; i < 14; i++)
        {
            points.Add(new(x, Math.Sin(x)));
            x -= i is > 3 and < 11 ? Math.Min(step, 0.7) : 0.3;
        }
        points.Add(new(0, 0));
        Region a = Polygon(points);
        Region b = Polygon([new(2, -5), new(9.9, -5), new(9.9 + Hair(random), 0.3), new(2, 0.2)]);
        return ([a], [b]);
    }

    private static (Region[] A, Region[] B) NearTangent(Random random)
    {
        double r = Math.Pow(10, random.NextDouble() * 4 - 1);
        double s = Math.Pow(10, random.NextDouble() * 4 - 1);
        double angle = random.Next(3) == 0 ? 0 : random.NextDouble() * 2 * Math.PI;
        double between = (random.Next(2) == 0 ? r + s : Math.Abs(r - s)) + Hair(random);
        Point2 c = new(between * Math.Cos(angle), between * Math.Sin(angle));
        Region a = Region.From(Contours.Circle(default, r));
        Region disc = Region.From(Contours.Circle(c, s));
        if (random.Next(3) > 0)
        {
            return ([a], [disc]);
        }
        double edge = r + Hair(random);
        return ([a], [Region.From(Contours.Rectangle(new(edge, -2 * r, edge + r, 3 * r)))]);
    }

    /// <summary>Lenses and crescents of two arcs over one chord, some thinner than rounding.</summary>
    private static (Region[] A, Region[] B) Lenses(Random random)
    {
        Point2 end = new(20, 3);
        Region Lens(double low, double high) =>
            Region.From(Contours.Ccw(new([RandomLoops.Bent(default, end, low), RandomLoops.Bent(end, default, high)])));
        double bulge = 0.05 + (0.8 * random.NextDouble());
        Region a = Lens(bulge, random.Next(2) == 0 ? bulge : -bulge + Math.Abs(Hair(random)));
        Region b = Lens(bulge + Hair(random), random.Next(2) == 0 ? 0 : 0.3);
        return ([a], [b]);
    }

    /// <summary>Plates with the same holes, the second's a hair larger, smaller, aside, or not at all.</summary>
    private static (Region[] A, Region[] B) Islands(Random random)
    {
        List<Contour> first = [];
        List<Contour> second = [];
        for (int i = 0; i < 5; i++)
        {
            Point2 c = new(15 + (18 * i), 20 + random.Next(20));
            double r = 2 + random.Next(6);
            first.Add(Contours.Cw(Contours.Circle(c, r)));
            Point2 aside = random.Next(2) == 0 ? c : c + new Point2(Hair(random), Hair(random));
            second.Add(Contours.Cw(Contours.Circle(aside, random.Next(2) == 0 ? r : r + (Hair(random) / 10))));
        }
        Contour outer = Contours.RoundedRectangle(new(0, 0, 104, 60), random.Next(3) * 4);
        return ([new(outer, [.. first])], [new(outer, [.. second])]);
    }

    private static (Region[] A, Region[] B) OffsetOfItself(Random random)
    {
        Region a = Region.From(Contours.Ccw(Curved(random)));
        double d = random.Next(2) == 0 ? Hair(random) : (random.Next(9) - 4) * 0.5;
        return ([a], [.. new Kernel(Tolerances.House).Offset(a, d)]);
    }

    private static (Region[] A, Region[] B) RoundNumbers(int number, Random random)
    {
        Region[] a = RandomRegions.Basic(number, 3, random).Regions;
        Pose moved = new(random.Next(5) * 5, random.Next(3) * 5, random.Next(4) * 90);
        return (a, [.. RandomRegions.Basic(number, 3, random).Regions.Select(r => Transform.Apply(moved, r))]);
    }

    /// <summary>Overlapping whole-number boxes, discs and slots, many to a set.</summary>
    private static (Region[] A, Region[] B) Grid(Random random)
    {
        Region Cell()
        {
            Point2 p = new(5 * random.Next(8), 5 * random.Next(8));
            return random.Next(4) switch
            {
                0 => Region.From(Contours.Circle(p, 5 * (1 + random.Next(2)))),
                1 => Region.From(Contours.Slot(p, p + new Point2(10, 0), 5)),
                2 => Region.From(Contours.RoundedRectangle(new(p.X, p.Y, p.X + 10, p.Y + 15), 5)),
                _ => Region.From(Contours.Rectangle(new(p.X, p.Y, p.X + 5 + (5 * random.Next(2)), p.Y + 5))),
            };
        }
        Region[] Cells() => [.. Enumerable.Range(0, 1 + random.Next(8)).Select(_ => Cell())];
        return (Cells(), Cells());
    }
}
