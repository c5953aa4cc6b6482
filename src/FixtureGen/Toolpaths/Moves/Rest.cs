using System.Collections.Immutable;
using FixtureGen.Cutting;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Toolpaths.Moves;

/// <summary>
/// What a tool could not reach in a region (corners, necks), cut again by a smaller one: the smaller tool's rings of the
/// whole region, kept only near what is left. A stretch begins and ends where the ground is already cleared.
/// </summary>
internal static class Rest
{
    /// <summary>Left-over thinner than this is not worth a path, mm; the judge allows 0.1.</summary>
    public const double Thin = 0.04;

    /// <summary>How far a stretch begins beyond what it cuts, mm.</summary>
    private const double RunIn = 0.75;

    /// <summary>The part of the region, as the smallest tool would leave it, that the larger tool leaves standing.</summary>
    public static ImmutableArray<Region> Left(Region area, double larger, double smallest, Kernel kernel)
    {
        ImmutableArray<Region> wanted = kernel.Open([area], smallest);
        ImmutableArray<Region> done = kernel.Open([area], larger);
        ImmutableArray<Region> left = done.IsEmpty ? wanted : kernel.Difference(wanted, done);
        return [.. left.Where(r => Measure.Area(r) > Thin * Thin && !kernel.Offset(r, -Thin / 2).IsEmpty)];
    }

    public static ImmutableArray<Piece> Cut(
        string feature,
        Region area,
        ImmutableArray<Region> left,
        Tool tool,
        CutData data,
        Heights heights,
        double topZ,
        double floorZ,
        Kernel kernel
    )
    {
        ImmutableArray<Region> near = kernel.UnionAll([.. left.SelectMany(r => kernel.Offset(r, tool.Radius + RunIn))]);
        ImmutableArray<Region> within =
        [
            .. kernel.UnionAll([.. left.SelectMany(r => kernel.Offset(r, tool.Radius - (Thin / 4)))]),
        ];
        Entry entry = new(area, tool, data, null);
        var pieces = ImmutableArray.CreateBuilder<Piece>();
        foreach (ImmutableArray<Region> level in kernel.Rings([area], tool.Radius, data.StepOver).Reverse())
        {
            foreach (Contour ring in level.SelectMany(r => r.Contours))
            {
                ImmutableArray<OpenPath> stretches = [.. Clip.Path(Contours.ToPath(ring, 0), near)];
                if (stretches.Length == 1 && Math.Abs(Measure.Length(stretches[0]) - Measure.Length(ring)) < 1e-3)
                {
                    pieces.Add(Whole(feature, ring, entry, data, heights, topZ, floorZ));
                    continue;
                }
                // both ends stand on ground that the larger tool cleared, and the rings run with the climb
                pieces.AddRange(
                    Joined(stretches, ring)
                        .Where(s => Clip.Path(s, within).Any())
                        .Select(s => Groove.FromCleared(feature, s, data, heights, topZ, floorZ))
                );
            }
        }
        return pieces.ToImmutable();
    }

    private static Piece Whole(
        string feature,
        Contour ring,
        Entry entry,
        CutData data,
        Heights heights,
        double topZ,
        double floorZ
    )
    {
        Pen pen = new(Point3.From(ring.Segments[0].Start, heights.Hop));
        double above = topZ;
        foreach (double z in Passes.Down(topZ, floorZ, data.StepDown))
        {
            pen.RapidZ(heights.Hop);
            entry.Enter(pen, ring, 0, above, z);
            above = z;
        }
        pen.RapidZ(heights.Hop);
        return Piece.From(feature, pen.Moves[0].To.Xy, pen.Moves);
    }

    /// <summary>A stretch over the ring's own start is one, not two.</summary>
    private static ImmutableArray<OpenPath> Joined(ImmutableArray<OpenPath> stretches, Contour ring)
    {
        Point2 seam = ring.Segments[0].Start;
        if (
            stretches.Length > 1
            && stretches[0].Start.DistanceTo(seam) < 1e-6
            && stretches[^1].End.DistanceTo(seam) < 1e-6
        )
        {
            OpenPath over = new([.. stretches[^1].Segments, .. stretches[0].Segments]);
            return [over, .. stretches[1..^1]];
        }
        return stretches;
    }
}
