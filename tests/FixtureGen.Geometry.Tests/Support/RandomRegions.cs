using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Tests.Support;

/// <summary>One random case: regions and a distance to offset them by, made from its number alone.</summary>
public sealed record OffsetCase(int Number, string Kind, Region[] Regions, double Distance);

/// <summary>
/// Regions as they come in a shop, and worse: random star polygons with arcs, filleted outlines, plates with holes and slots
/// at round numbers, cells of a whole-number grid that touch at corners, wiggles of nearly tangent arcs, and offsets of all
/// these; half of them moved far away, turned and mirrored.
/// </summary>
public static class RandomRegions
{
    private const int Kinds = 7;

    public static OffsetCase Make(int number)
    {
        // Neighbouring seeds give alike first numbers, so they are spread first.
        var random = new Random(unchecked((int)((uint)number * 2654435761)));
        int kind = random.Next(Kinds);
        OffsetCase made = Basic(number, kind, random);
        if (random.Next(2) == 0 && kind is not (3 or 4))
        {
            Pose pose = new(random.NextDouble() * 10_000, random.NextDouble() * 10_000, random.NextDouble() * 360);
            made = made with { Regions = [.. made.Regions.Select(r => Transform.Apply(pose, r))] };
        }
        return random.Next(2) == 0
            ? made
            : made with
            {
                Regions = [.. made.Regions.Select(r => Transform.Apply(new Flip(7), r))],
            };
    }

    /// <summary>A case of the given kind, 0 to 6, where it was made.</summary>
    public static OffsetCase Basic(int number, int kind, Random random)
    {
        double any = Math.Round((random.NextDouble() * 24) - 12, 3) + 0.0005;
        double half = (random.Next(30) - 15) * 0.5;
        double grid = half == 0 ? 2.5 : half;
        return kind switch
        {
            0 => new(number, "star with arcs", [Region.From(RandomLoops.Star(random, 0.4))], any),
            1 => new(number, "filleted", [Region.From(RandomLoops.Filleted(random))], any),
            2 => new(number, "star with islands", [WithIslands(random)], any / 2),
            3 => new(number, "round numbers", [RoundNumbers(random)], grid),
            4 => new(number, "grid", Cells(random), grid),
            5 => new(number, "arc wiggle", [Region.From(RandomLoops.ArcWiggle(random))], any),
            _ => Chained(number, random),
        };
    }

    private static OffsetCase Chained(int number, Random random)
    {
        OffsetCase basic = Basic(number, random.Next(Kinds - 1), random);
        double d = random.Next(3) == 0 ? -basic.Distance : Math.Round((random.NextDouble() * 10) - 5, 1) + 0.5;
        Region[] grown = [.. new Kernel(Tolerances.House).Offset(basic.Regions, basic.Distance)];
        return new(number, "offset of " + basic.Kind, grown, d);
    }

    private static Region WithIslands(Random random)
    {
        Contour outer = Contours.RoundedRectangle(new(0, 0, 120, 90), 4 + (random.NextDouble() * 20));
        List<Contour> holes = [];
        for (int i = 0; i < 4; i++)
        {
            Contour loop = RandomLoops.Star(random, 0.4);
            Box2 b = Measure.Bounds(loop);
            double k = 30 / Math.Max(b.Width, b.Height);
            Point2 at = new(35 + (i % 2 * 48) + random.NextDouble(), 26 + (i / 2 * 38) + random.NextDouble());
            holes.Add(Contours.Cw(RandomLoops.Scaled(loop, k, at - (b.Middle * k))));
        }
        return new(outer, [.. holes]);
    }

    private static Region RoundNumbers(Random random)
    {
        List<Contour> holes = [];
        for (int x = 15; x < 100; x += 20)
        {
            for (int y = 15; y < 80; y += 20)
            {
                double r = (1 + random.Next(12)) * 0.5;
                int shape = random.Next(4);
                Point2 c = new(x, y);
                Contour? hole = shape switch
                {
                    0 => Contours.Circle(c, r),
                    1 => Contours.Slot(new(x - 3, y), new(x + 3, y), Math.Min(r, 5)),
                    2 => Contours.RoundedRectangle(new(x - 7, y - 5, x + 7, y + 5), Math.Min(r, 5)),
                    _ => null,
                };
                if (hole is not null)
                {
                    holes.Add(Contours.Cw(hole));
                }
            }
        }
        return new(Contours.RoundedRectangle(new(0, 0, 110, 90), random.Next(12)), [.. holes]);
    }

    private static Region[] Cells(Random random)
    {
        List<Region> cells = [];
        for (int x = 0; x < 7; x++)
        {
            for (int y = 0; y < 6; y++)
            {
                if (random.Next(10) < 7)
                {
                    cells.Add(Region.From(Contours.Rectangle(new(x * 5, y * 5, (x * 5) + 5, (y * 5) + 5))));
                }
            }
        }
        return [.. new Kernel(Tolerances.House).UnionAll(cells)];
    }
}
