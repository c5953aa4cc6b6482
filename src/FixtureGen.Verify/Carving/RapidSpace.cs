using FixtureGen.Model;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Carving;

/// <summary>
/// The room that a rapid needs. Controls differ in how the axes of a rapid run: straight, each at its own speed until it is there, or
/// one after the other. All of these lie in the rectangle between the two ends, at no height below the lower end.
/// </summary>
internal sealed class RapidSpace(BlockGrid grid)
{
    private readonly Strips _strips = new(grid.Columns);
    private readonly double _perMm = 1 / grid.Cell;

    /// <summary>The ground that a motion's tip may pass over on its way.</summary>
    public static Box2 Ground(Motion motion) =>
        new(
            Math.Min(motion.From.X, motion.To.X),
            Math.Min(motion.From.Y, motion.To.Y),
            Math.Max(motion.From.X, motion.To.X),
            Math.Max(motion.From.Y, motion.To.Y)
        );

    /// <summary>How far p lies outside a box, mm; 0 in it.</summary>
    public static double Away(Box2 box, Point2 p)
    {
        double x = Math.Max(0, Math.Max(box.MinX - p.X, p.X - box.MaxX));
        double y = Math.Max(0, Math.Max(box.MinY - p.Y, p.Y - box.MaxY));
        return Math.Sqrt((x * x) + (y * y));
    }

    /// <summary>The highest cell that stands within a radius of the ground; null where the block has none there.</summary>
    public float? Highest(Box2 ground, double radius)
    {
        Fill(ground, radius);
        Standing standing = new(grid);
        for (int i = 0; i < _strips.Count; i++)
        {
            standing.Look(_strips[i]);
        }
        return standing.Highest;
    }

    /// <summary>
    /// The least height, mm, of a cutter's own surface over what stands while its tip is anywhere over the ground at a height;
    /// negative in material, null over nothing. Cells at the raw top count as so much higher.
    /// </summary>
    public double? Gap(Box2 ground, double tip, Cutter cutter, double radius, double higher)
    {
        if (Highest(ground, radius) is not { } highest)
        {
            return null;
        }
        double raw = grid.RawTopZ - 1e-4;
        double flat = tip - highest - (highest >= raw ? higher : 0);
        if (cutter.Shape == CutterShape.Flat || flat >= JudgeRules.RapidGap)
        {
            return flat;
        }
        double least = double.MaxValue;
        foreach (Span1 span in _strips.Spans())
        {
            double y = grid.Box.MinY + ((span.Row + 0.5) * grid.Cell);
            for (int i = span.First; i < span.First + span.Count; i++)
            {
                double top = grid.TopHeights.HeightAt(span.Row, i);
                if (top > grid.BottomHeights.HeightAt(span.Row, i))
                {
                    double away = Away(ground, new Point2(grid.Box.MinX + ((i + 0.5) * grid.Cell), y));
                    double surface = tip + cutter.HeightAt(Math.Min(away, cutter.Radius));
                    least = Math.Min(least, surface - top - (top >= raw ? higher : 0));
                }
            }
        }
        return least;
    }

    /// <summary>The cells whose centres lie within a radius of the ground.</summary>
    private void Fill(Box2 ground, double radius)
    {
        _strips.Clear();
        double low = Row(ground.MinY);
        double high = Row(ground.MaxY);
        double r = radius * _perMm;
        int first = (int)Math.Ceiling(Math.Clamp(low - r, 0, grid.Rows));
        int last = (int)Math.Floor(Math.Clamp(high + r, -1, grid.Rows - 1));
        double left = ((ground.MinX - grid.Box.MinX) * _perMm) - 0.5;
        double right = ((ground.MaxX - grid.Box.MinX) * _perMm) - 0.5;
        int strip = _strips.AddEmpty(first, last);
        for (int row = first; row <= last; row++)
        {
            double aside = Math.Max(0, Math.Max(low - row, row - high));
            double reach = Math.Sqrt(Math.Max(0, (r * r) - (aside * aside)));
            _strips.Put(
                strip,
                row,
                (int)Math.Ceiling(Math.Max(0, left - reach)),
                (int)Math.Floor(Math.Min(grid.Columns - 1, right + reach))
            );
        }
    }

    private double Row(double y) => ((y - grid.Box.MinY) * _perMm) - 0.5;
}
