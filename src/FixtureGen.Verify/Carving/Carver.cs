using System.Runtime.Intrinsics;
using FixtureGen.Model;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Carving;

/// <summary>
/// Carves a grid of heights by swept cutters: every cell gets the lowest height of the cutter's surface over its centre while
/// the tip runs along the motion. Flat cutters on level lines, level arcs, ramps and helices, and round or conical cutters on
/// level motions and ramps are closed forms; only their helices go by chords that leave the arc by under half a micrometre.
/// </summary>
internal sealed class Carver(BlockGrid grid)
{
    private const double HelixSagitta = 0.0005;

    /// <summary>Enough for a full turn of 100 m radius; what is larger is beyond any travel and refused for that.</summary>
    private const int MostChords = 32_000;

    private readonly Footprint _footprint = new(grid);

    /// <summary>Carves one motion; limit is the depth in mm beyond which lowered area is counted as deep.</summary>
    public Tally Cut(Motion motion, Cutter cutter, double limit)
    {
        Piece piece = Piece.From(motion);
        double low = Math.Min(motion.From.Z, motion.To.Z);
        if (low >= grid.RawTopZ)
        {
            return default;
        }
        bool level = Math.Abs(motion.From.Z - motion.To.Z) < 1e-9;
        if (piece.Length < 1e-9)
        {
            return Plunge(piece.A, low, cutter, limit);
        }
        if (cutter.Shape == CutterShape.Flat)
        {
            return level ? Level(piece, low, cutter.Radius, limit)
                : piece.IsArc ? HelixSweep.Cut(grid, _footprint, piece, motion, cutter.Radius, limit)
                : Ramp(piece, motion, cutter.Radius, limit);
        }
        return level || !piece.IsArc
            ? RoundSweep.Cut(grid, _footprint, piece, motion.From.Z, motion.To.Z, cutter, limit)
            : Chords(piece, motion, cutter, limit);
    }

    /// <summary>The highest cell under a disc that goes along the motion; null where the block has none there.</summary>
    public float? Highest(Piece piece, double radius)
    {
        _footprint.Sweep(piece, radius);
        Standing standing = new(grid);
        for (int i = 0; i < _footprint.Strips.Count; i++)
        {
            standing.Look(_footprint.Strips[i]);
        }
        return standing.Highest;
    }

    /// <summary>The centre of the first cell under the sweep that is cut through and lies where <paramref name="where"/> says.</summary>
    public Point2? FirstOpen(Piece piece, double radius, Func<Point2, bool> where)
    {
        _footprint.Sweep(piece, radius);
        foreach (Span1 span in _footprint.Strips.Spans())
        {
            for (int i = span.First; i < span.First + span.Count; i++)
            {
                Point2 p = new(grid.Box.MinX + ((i + 0.5) * grid.Cell), grid.Box.MinY + ((span.Row + 0.5) * grid.Cell));
                if (
                    grid.TopHeights.HeightAt(span.Row, i) <= grid.BottomHeights.HeightAt(span.Row, i) + 1e-3f
                    && where(p)
                )
                {
                    return p;
                }
            }
        }
        return null;
    }

    private Tally Level(Piece piece, double z, double radius, double limit)
    {
        _footprint.Sweep(piece, radius);
        Lowering lower = new(grid.TopHeights, (float)limit);
        float floor = (float)Math.Max(z, grid.RawBottomZ);
        lower.Flat(_footprint.Strips, floor);
        return lower.Result(grid.Cell);
    }

    private Tally Plunge(Point2 at, double z, Cutter cutter, double limit)
    {
        Piece spot = Piece.Line(at, at);
        return cutter.Shape == CutterShape.Flat
            ? Level(spot, z, cutter.Radius, limit)
            : RoundSweep.Cut(grid, _footprint, spot, z, z, cutter, limit);
    }

    /// <summary>
    /// Over a cell the disc is lowest where it leaves it (going down) or where it comes (going up): z is linear along the move. How
    /// far a tile lies along and beside the move is worked out in double figures: the rim's root loses half of a float's figures
    /// where the disc but grazes a cell.
    /// </summary>
    private Tally Ramp(Piece piece, Motion motion, double radius, double limit)
    {
        _footprint.Sweep(piece, radius);
        Lowering lower = new(grid.TopHeights, (float)limit);
        double perMm = 1 / grid.Cell;
        double ax = ((piece.A.X - grid.Box.MinX) * perMm) - 0.5;
        double ay = ((piece.A.Y - grid.Box.MinY) * perMm) - 0.5;
        double ux = (piece.B.X - piece.A.X) / piece.Length;
        double uy = (piece.B.Y - piece.A.Y) / piece.Length;
        Vector256<float> r2 = Vector256.Create((float)(radius * radius * perMm * perMm));
        float perLength = (float)(grid.Cell / piece.Length);
        float z0 = (float)motion.From.Z;
        float dz = (float)(motion.To.Z - motion.From.Z);
        Vector256<float> lanes = Vector256.Create(0f, 1, 2, 3, 4, 5, 6, 7);
        Vector256<float> onward = lanes * (float)ux;
        Vector256<float> aside = lanes * (float)uy;
        Vector256<float> least = Vector256.Create((float)grid.RawBottomZ);
        foreach (Span1 span in _footprint.Strips.Spans())
        {
            double y = span.Row - ay;
            lower.Settle();
            for (int tile = span.FirstTile; tile <= span.LastTile; tile++)
            {
                double x = (tile * Heights.Tile) - ax;
                Vector256<float> along = Vector256.Create((float)((x * ux) + (y * uy))) + onward;
                Vector256<float> beside = Vector256.Create((float)((x * uy) - (y * ux))) + aside;
                Vector256<float> root = Vector256.Sqrt(Vector256.Max(r2 - (beside * beside), Vector256<float>.Zero));
                Vector256<float> t = (dz < 0 ? along + root : along - root) * perLength;
                t = Vector256.Max(Vector256.Min(t, Vector256<float>.One), Vector256<float>.Zero);
                Vector256<float> z = Vector256.Max(Vector256.Create(z0) + (t * dz), least);
                lower.Each(span, tile, z);
            }
        }
        return lower.Result(grid.Cell);
    }

    private Tally Chords(Piece arc, Motion motion, Cutter cutter, double limit)
    {
        double step = 2 * Math.Acos(Math.Max(0.5, 1 - (HelixSagitta / arc.R)));
        int n = (int)Math.Clamp(Math.Ceiling(Math.Abs(arc.Sweep) / step), 1, MostChords);
        Tally sum = default;
        double dz = motion.To.Z - motion.From.Z;
        for (int i = 0; i < n; i++)
        {
            Piece chord = Piece.Line(arc.PointAt((double)i / n), arc.PointAt((i + 1.0) / n));
            double z0 = motion.From.Z + (dz * i / n);
            sum += RoundSweep.Cut(grid, _footprint, chord, z0, z0 + (dz / n), cutter, limit);
        }
        return sum;
    }
}
