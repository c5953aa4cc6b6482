using System.Runtime.Intrinsics;
using FixtureGen.Model;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Carving;

/// <summary>
/// A flat cutter on a helix. A cell at distance d from the helix's axis is under the disc while the tip's direction is within
/// acos((d2 + R2 - r2) / 2dR) of the cell's own; the lowest height is at the last such moment (going down) or the first (up).
/// </summary>
internal static class HelixSweep
{
    private static readonly Vector256<float> Lanes = Vector256.Create(0f, 1, 2, 3, 4, 5, 6, 7);

    public static Tally Cut(BlockGrid grid, Footprint footprint, Piece arc, Motion motion, double radius, double limit)
    {
        Lowering lower = new(grid.TopHeights, (float)limit);
        // Under the disc at the lower end all is as deep as the motion goes: most of a bore, and no angle is needed there.
        float low = (float)Math.Max(Math.Min(motion.From.Z, motion.To.Z), grid.RawBottomZ);
        Point2 lowEnd = motion.To.Z < motion.From.Z ? arc.B : arc.A;
        footprint.Sweep(Piece.Line(lowEnd, lowEnd), radius);
        lower.Flat(footprint.Strips, low);
        footprint.Sweep(arc, radius);
        Helix helix = new(arc, radius, motion.From.Z, motion.To.Z);
        Vector256<float> least = Vector256.Create(low);
        Vector256<float> step = Lanes * (float)grid.Cell;
        foreach (Span1 span in footprint.Strips.Spans())
        {
            lower.Settle();
            float y = (float)(grid.Box.MinY + ((span.Row + 0.5) * grid.Cell) - arc.C.Y);
            for (int tile = span.FirstTile; tile <= span.LastTile; tile++)
            {
                if (lower.IsDown(span, tile, low))
                {
                    continue;
                }
                float x = (float)(grid.Box.MinX + (((tile * Heights.Tile) + 0.5) * grid.Cell) - arc.C.X);
                Vector256<float> z = helix.LowestOver(Vector256.Create(x) + step, y);
                lower.Each(span, tile, Vector256.Max(z, least));
            }
        }
        return lower.Result(grid.Cell);
    }

    private readonly struct Helix(Piece arc, double radius, double z0, double z1)
    {
        private readonly bool _down = z1 < z0;
        private readonly float _a0 = (float)arc.A0;
        private readonly float _turn = Math.Sign(arc.Sweep);
        private readonly float _z0 = (float)z0;
        private readonly float _perRadian = (float)((z1 - z0) / Math.Abs(arc.Sweep));
        private readonly float _power = (float)((arc.R * arc.R) - (radius * radius));
        private readonly float _perDiameter = (float)(0.5 / arc.R);
        private readonly Vector256<float> _sweep = Vector256.Create((float)Math.Abs(arc.Sweep));

        public Vector256<float> LowestOver(Vector256<float> x, float y)
        {
            const float Turn = 2 * MathF.PI;
            Vector256<float> d2 = (x * x) + Vector256.Create(y * y);
            Vector256<float> d = Vector256.Max(Vector256.Sqrt(d2), Vector256.Create(1e-6f));
            Vector256<float> cos = (d2 + Vector256.Create(_power)) / d * _perDiameter;
            cos = Vector256.Max(Vector256.Min(cos, Vector256<float>.One), -Vector256<float>.One);
            Vector256<float> half = VectorAngle.Acos(cos);
            Vector256<float> own = (VectorAngle.Atan2(Vector256.Create(y), x) - Vector256.Create(_a0)) * _turn;
            own -= Vector256.Floor(own * (1 / Turn)) * Turn;
            Vector256<float> best = _down ? Vector256<float>.Zero : _sweep;
            for (int k = -1; k <= 1; k++)
            {
                Vector256<float> shift = Vector256.Create(k * Turn);
                Vector256<float> from = Vector256.Max(own - half + shift, Vector256<float>.Zero);
                Vector256<float> to = Vector256.Min(own + half + shift, _sweep);
                Vector256<float> met = Vector256.LessThanOrEqual(from, to);
                best = Vector256.ConditionalSelect(
                    met,
                    _down ? Vector256.Max(best, to) : Vector256.Min(best, from),
                    best
                );
            }
            return Vector256.Create(_z0) + (best * _perRadian);
        }
    }
}
