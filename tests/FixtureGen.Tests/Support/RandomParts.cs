using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Tests.Support;

/// <summary>Rounded plates with one to eight round and slotted cutouts, 4 mm and more from each other and 5 from the edge.</summary>
internal static class RandomParts
{
    private const int MostTries = 200;

    public static Part Holed(Random random)
    {
        Box2 box = new(0, 0, Between(random, 90, 220), Between(random, 60, 170));
        double corner = Between(random, 4, 14);
        int wanted = random.Next(1, 9);
        List<Contour> cutouts = [];
        List<(Point2 At, double Radius)> discs = [];
        for (int tries = 0; tries < MostTries && cutouts.Count < wanted; tries++)
        {
            double radius = Between(random, 1.5, 10.5);
            double half = random.NextDouble() < 0.3 ? Between(random, 4, 20) : 0;
            double disc = radius + half;
            double angle = Between(random, 0, Math.PI);
            Point2 at = new(
                Between(random, disc + 5, box.Width - disc - 5),
                Between(random, disc + 5, box.Height - disc - 5)
            );
            bool fits = 2 * (disc + 6) <= Math.Min(box.Width, box.Height);
            if (!fits || discs.Any(d => d.At.DistanceTo(at) < d.Radius + disc + 4))
            {
                continue;
            }
            discs.Add((at, disc));
            Point2 end = half * new Point2(Math.Cos(angle), Math.Sin(angle));
            cutouts.Add(half > 0 ? Contours.Slot(at - end, at + end, radius) : Contours.Circle(at, radius));
        }
        Contour outer = Contours.Ccw(Contours.RoundedRectangle(box, corner));
        return new Part(outer, [.. cutouts.Select(Contours.Cw)], [], [], [], []);
    }

    private static double Between(Random random, double least, double most) =>
        least + ((most - least) * random.NextDouble());
}
