using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Seals;

/// <summary>The largest disc that fits into an area: its radius and a point near its middle, mm, by halving offsets.</summary>
internal static class Widest
{
    private const double Precision = 0.002;

    /// <summary>The radius, at most <paramref name="most"/>; 0 for an empty area.</summary>
    public static double Radius(IReadOnlyList<Region> area, double most, Kernel kernel)
    {
        double fits = 0;
        double not = most;
        if (area.Count == 0 || kernel.Offset(area, -most).Length > 0)
        {
            return area.Count == 0 ? 0 : most;
        }
        while (not - fits > Precision)
        {
            double mid = (fits + not) / 2;
            (fits, not) = kernel.Offset(area, -mid).Length > 0 ? (mid, not) : (fits, mid);
        }
        return fits;
    }

    /// <summary>Middle of the widest place; the area must not be empty.</summary>
    public static Point2 Place(IReadOnlyList<Region> area, double most, Kernel kernel)
    {
        double radius = Radius(area, most, kernel);
        ImmutableArray<Region> core = kernel.Offset(area, -Math.Max(0, radius - (2 * Precision)));
        return Middle(core.Length > 0 ? core[0] : area[0]);
    }

    /// <summary>A point inside: the box's middle where it lies inside, else the middle of the longest cut through it.</summary>
    private static Point2 Middle(Region region)
    {
        Box2 box = Measure.Bounds(region.Outer);
        if (Inside.Contains(region, box.Middle))
        {
            return box.Middle;
        }
        OpenPath longest = Clip.Line(new(box.MinX - 1, box.Middle.Y), new(box.MaxX + 1, box.Middle.Y), [region])
            .OrderByDescending(p => Math.Round(Measure.Length(p), 6))
            .First();
        return 0.5 * (longest.Start + longest.End);
    }
}
