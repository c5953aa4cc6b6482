using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Toolpaths.Moves;

/// <summary>
/// A region that runs to the block's edge is cut past it: the tool's path goes on straight out, so that no rounded corner
/// stays at the edge however the raw block lies on its stops.
/// </summary>
internal static class OpenEdge
{
    /// <summary>Where along the edge the region is open is looked for this far inside, mm.</summary>
    private const double Inset = 0.02;

    /// <summary>The path's way out is narrower than the opening by this on both sides, so that no edges coincide, mm.</summary>
    private const double Narrower = 0.004;

    /// <summary>A region that reaches this far past the block needs no help, mm.</summary>
    private const double Enough = 1;

    public static ImmutableArray<Region> Extend(Region area, Box2 block, double beyond, Kernel kernel)
    {
        Box2 b = Measure.Bounds(area);
        List<Region> all = [area];
        (double x0, double y0, double x1, double y1) = (
            block.MinX + Inset,
            block.MinY + Inset,
            block.MaxX - Inset,
            block.MaxY - Inset
        );
        if (IsOpen(b.MinX, block.MinX, -1))
        {
            all.AddRange(
                Openings(new(x0, y0 - 1), new(x0, y1 + 1)).Select(o => Way(new(x0 - beyond, o.A.Y, x0, o.B.Y), 0, 1))
            );
        }
        if (IsOpen(b.MaxX, block.MaxX, 1))
        {
            all.AddRange(
                Openings(new(x1, y0 - 1), new(x1, y1 + 1)).Select(o => Way(new(x1, o.A.Y, x1 + beyond, o.B.Y), 0, 1))
            );
        }
        if (IsOpen(b.MinY, block.MinY, -1))
        {
            all.AddRange(
                Openings(new(x0 - 1, y0), new(x1 + 1, y0)).Select(o => Way(new(o.A.X, y0 - beyond, o.B.X, y0), 1, 0))
            );
        }
        if (IsOpen(b.MaxY, block.MaxY, 1))
        {
            all.AddRange(
                Openings(new(x0 - 1, y1), new(x1 + 1, y1)).Select(o => Way(new(o.A.X, y1, o.B.X, y1 + beyond), 1, 0))
            );
        }
        return all.Count == 1 ? [area] : kernel.UnionAll(all);

        IEnumerable<(Point2 A, Point2 B)> Openings(Point2 from, Point2 to) =>
            Clip.Line(from, to, [area])
                .Select(p => (p.Start, p.End))
                .Where(o => o.Start.DistanceTo(o.End) > 4 * Narrower);
    }

    /// <summary>The region comes to the edge and does not itself go on well past it.</summary>
    private static bool IsOpen(double reach, double edge, int outward) =>
        (reach - edge) * outward > -Inset && (reach - edge) * outward < Enough;

    private static Region Way(Box2 box, double alongX, double alongY) =>
        Region.From(
            Contours.Rectangle(
                new Box2(
                    box.MinX + (alongX * Narrower),
                    box.MinY + (alongY * Narrower),
                    box.MaxX - (alongX * Narrower),
                    box.MaxY - (alongY * Narrower)
                )
            )
        );
}
