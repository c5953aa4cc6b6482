using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Bench;

/// <summary>The inputs of the offset benchmarks, mm; all made from formulas.</summary>
internal static class BenchShapes
{
    public static Region[] Named(string name) =>
        name switch
        {
            "rounded rectangle" => RoundedRectangle(),
            "twelve holes" => TwelveHoles(),
            "wiggle 300" => Wiggle(300),
            "wiggle 3000" => Wiggle(3000),
            "wiggle with islands" => WiggleWithIslands(),
            _ => throw new ArgumentOutOfRangeException(nameof(name), name, "no such shape"),
        };

    /// <summary>Two sets to combine.</summary>
    public static (Region[] A, Region[] B) Pair(string name)
    {
        Region[] Moved(Region[] of, double x, double y) => [.. of.Select(r => Transform.Apply(new Pose(x, y, 0), r))];
        Region[] Turned(Region[] of) => [.. of.Select(r => Transform.Apply(new Pose(0, 0, 37), r))];
        return name switch
        {
            "two waves of 5000" => (Wiggle(5000), Moved(Wiggle(5000), 3.3, 1.7)),
            "twelve holes" => (TwelveHoles(), Moved(TwelveHoles(), 5, 3)),
            "rack of 10000 upright" => (Rack(10_000), Bar(10_000)),
            "rack of 10000 turned" => (Turned(Rack(10_000)), Turned(Bar(10_000))),
            _ => throw new ArgumentOutOfRangeException(nameof(name), name, "no such pair"),
        };
    }

    /// <summary>Regions to unite: discs of 5 mm strewn so thickly that each place is covered 2.5 times, or bent strokes of 3.175 mm over a plate of 203.2 x 152.4.</summary>
    public static Region[] Many(string name, Kernel kernel)
    {
        int count = int.Parse(name.Split(' ')[0], System.Globalization.CultureInfo.InvariantCulture);
        var random = new Random(1);
        double side = Math.Sqrt(count * Math.PI * 25 / 2.5);
        bool discs = name.EndsWith("discs", StringComparison.Ordinal);
        Point2 Place() =>
            new(random.NextDouble() * (discs ? side : 203.2), random.NextDouble() * (discs ? side : 152.4));
        return discs
            ? [.. Enumerable.Range(0, count).Select(_ => Region.From(Contours.Circle(Place(), 5)))]
            :
            [
                .. Enumerable
                    .Range(0, count)
                    .SelectMany(_ =>
                    {
                        Point2 a = Place();
                        Point2 b = a + new Point2(30 * random.NextDouble(), 30);
                        return kernel.Stroke(
                            new OpenPath([Segment.Line(a, b), Segment.Line(b, b + new Point2(20, -9))]),
                            3.175
                        );
                    }),
            ];
    }

    /// <summary>A rail with n teeth 1 x 10, 2 apart.</summary>
    private static Region[] Rack(int n) =>
        [
            Region.From(
                Contours.Ccw(
                    Contours.FromPoints([
                        .. Enumerable
                            .Range(0, n)
                            .SelectMany(i =>
                                new Point2[]
                                {
                                    new(2 * i, 0),
                                    new((2 * i) + 1, 0),
                                    new((2 * i) + 1, 10),
                                    new((2 * i) + 2, 10),
                                }
                            ),
                        new(2 * n, -5),
                        new(0, -5),
                    ])
                )
            ),
        ];

    private static Region[] Bar(int n) => [Region.From(Contours.Rectangle(new(-1, 3, (2 * n) + 1, 6)))];

    /// <summary>203.2 x 152.4 with corners of 19.05: 8 curves.</summary>
    public static Region[] RoundedRectangle() => [Region.From(Plate())];

    /// <summary>The same with 12 holes (circles, rounded rectangles, slots): 60 curves.</summary>
    public static Region[] TwelveHoles()
    {
        List<Contour> holes = [];
        for (int k = 0; k < 12; k++)
        {
            int i = k % 4;
            int j = k / 4;
            double x = 30 + (i * 47.5) + (j % 2 * 3.1);
            double y = 28 + (j * 48.2) + (i % 2 * 2.3);
            Contour hole =
                k % 2 == 0 ? Contours.Circle(new(x, y), 6 + (k * 0.4))
                : k % 3 == 0 ? Contours.Slot(new(x - 8, y), new(x + 8, y), 4)
                : Contours.RoundedRectangle(new(x - 9, y - 7, x + 9, y + 7), 2.5);
            holes.Add(Contours.Reverse(hole));
        }
        return [new(Plate(), [.. holes])];
    }

    /// <summary>A closed wave of n straight lines, r = 60 + 8 sin 7t + 3 sin(23t + 0.7).</summary>
    public static Region[] Wiggle(int n) => [Region.From(Wave(n, default, 60, (8, 7), (3, 23)))];

    /// <summary>A wave of 600 lines with 12 wavy holes of 100 lines each.</summary>
    public static Region[] WiggleWithIslands()
    {
        List<Contour> holes = [];
        for (int i = 0; i < 12; i++)
        {
            double a = 2 * Math.PI * i / 12;
            double r = i % 2 == 0 ? 58 : 28;
            Point2 centre = new(r * Math.Cos(a), r * Math.Sin(a));
            holes.Add(Contours.Reverse(Wave(100, centre, 6, (1.2, 5), (0.5, 11))));
        }
        return [new(Wave(600, default, 90, (8, 7), (3, 23)), [.. holes])];
    }

    private static Contour Plate() => Contours.RoundedRectangle(new(0, 0, 203.2, 152.4), 19.05);

    private static Contour Wave(
        int n,
        Point2 centre,
        double radius,
        (double A, int K) first,
        (double A, int K) second
    ) =>
        Contours.FromPoints([
            .. Enumerable
                .Range(0, n)
                .Select(i =>
                {
                    double t = 2 * Math.PI * i / n;
                    double r = radius + (first.A * Math.Sin(first.K * t)) + (second.A * Math.Sin((second.K * t) + 0.7));
                    return centre + new Point2(r * Math.Cos(t), r * Math.Sin(t));
                }),
        ]);
}
