using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Tests.Output;

/// <summary>The block as if a design's removals had been cut perfectly, on a coarse grid.</summary>
internal static class SampleBlock
{
    public static BlockGrid Carve(FixtureDesign design, double cell)
    {
        BlockGrid grid = new(design.Placement.BlankBox, cell, 0, design.RawThickness);
        grid.TopHeights.Alike.Fill((float)design.FixtureHeight);
        foreach (Removal removal in design.Removals)
        {
            Carve(grid, removal);
        }
        return grid;
    }

    private static void Carve(BlockGrid grid, Removal removal)
    {
        List<(Point2 A, Point2 B)> sides = [];
        foreach (Contour contour in removal.Area.SelectMany(r => r.Contours))
        {
            Point2[] p = [.. Flatten.Points(contour, 0.01)];
            sides.AddRange(p.Select((a, i) => (a, p[(i + 1) % p.Length])));
        }
        for (int row = 0; row < grid.Rows; row++)
        {
            double y = grid.Box.MinY + ((row + 0.5) * grid.Cell);
            double[] cuts =
            [
                .. sides
                    .Where(s => s.A.Y > y != s.B.Y > y)
                    .Select(s => s.A.X + ((s.B.X - s.A.X) * (y - s.A.Y) / (s.B.Y - s.A.Y)))
                    .Order(),
            ];
            for (int k = 0; k + 1 < cuts.Length; k += 2)
            {
                int from = Math.Max(0, (int)Math.Ceiling(((cuts[k] - grid.Box.MinX) / grid.Cell) - 0.5));
                int to = Math.Min(grid.Columns - 1, (int)Math.Floor(((cuts[k + 1] - grid.Box.MinX) / grid.Cell) - 0.5));
                for (int c = from; c <= to; c++)
                {
                    Take(grid, row, c, removal);
                }
            }
        }
    }

    private static void Take(BlockGrid grid, int row, int column, Removal removal)
    {
        if (removal.Setup == Setup.Underside)
        {
            float z = Math.Max(grid.BottomHeights.HeightAt(row, column), (float)removal.TopZ);
            grid.BottomHeights.Set(row, column, z);
        }
        else
        {
            float z = Math.Min(grid.TopHeights.HeightAt(row, column), (float)removal.FloorZ);
            grid.TopHeights.Set(row, column, z);
        }
    }
}
