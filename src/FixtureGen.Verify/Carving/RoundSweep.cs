using FixtureGen.Model;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Carving;

/// <summary>Ball ends and cones along level lines and arcs and along ramps; one closed form per cell.</summary>
internal static class RoundSweep
{
    public static Tally Cut(
        BlockGrid grid,
        Footprint footprint,
        Piece piece,
        double z0,
        double z1,
        Cutter cutter,
        double limit
    )
    {
        footprint.Sweep(piece, cutter.Radius);
        Lowering lower = new(grid.TopHeights, (float)limit);
        double length = piece.Length;
        double slope = length > 1e-9 ? (z1 - z0) / length : 0;
        Point2 along = piece.IsArc ? default : piece.Tangent(0);
        foreach (Span1 span in footprint.Strips.Spans())
        {
            lower.Settle();
            double y = grid.Box.MinY + ((span.Row + 0.5) * grid.Cell);
            for (int i = 0; i < span.Count; i++)
            {
                Point2 p = new(grid.Box.MinX + ((span.First + i + 0.5) * grid.Cell), y);
                double z =
                    slope == 0
                        ? Math.Min(z0, z1) + cutter.HeightAt(Math.Min(cutter.Radius, Distance.To(piece, p)))
                        : OnRamp(
                            (p - piece.A).Dot(along),
                            Math.Abs(along.Cross(p - piece.A)),
                            length,
                            z0,
                            slope,
                            cutter
                        );
                lower.LowerCell(span.Row, span.First + i, (float)Math.Max(z, grid.RawBottomZ));
            }
        }
        return lower.Result(grid.Cell);
    }

    /// <summary>
    /// The least of z0 + slope u + height(distance) over the tip's way u in 0..length, for a cell at u0 along and w beside it. It lies
    /// where the surface's own slope answers the ramp's, or where the flat tip or the cutter leaves the cell, or at an end.
    /// </summary>
    private static double OnRamp(double u0, double w, double length, double z0, double slope, Cutter cutter)
    {
        double best = double.MaxValue;
        void Try(double v)
        {
            double u = Math.Clamp(u0 + v, 0, length);
            double d = Math.Sqrt((w * w) + ((u - u0) * (u - u0)));
            if (d <= cutter.Radius + 1e-9)
            {
                best = Math.Min(best, z0 + (slope * u) + cutter.HeightAt(Math.Min(d, cutter.Radius)));
            }
        }
        double rim = Math.Sqrt(Math.Max(0, (cutter.Radius * cutter.Radius) - (w * w)));
        double tip = Math.Sqrt(Math.Max(0, (cutter.TipRadius * cutter.TipRadius) - (w * w)));
        Try(-rim);
        Try(rim);
        Try(-tip);
        Try(tip);
        Try(-u0);
        Try(length - u0);
        if (cutter.Shape == CutterShape.Ball)
        {
            Try(-slope * rim / Math.Sqrt(1 + (slope * slope)));
        }
        else if (Math.Abs(slope) < cutter.Slope)
        {
            Try(-slope * w / Math.Sqrt((cutter.Slope * cutter.Slope) - (slope * slope)));
        }
        return best;
    }
}
