using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Tests.Support;

/// <summary>A block's heights without their tiles.</summary>
internal static class AllCells
{
    /// <summary>The top of every cell, rows one after another.</summary>
    public static float[] Top(this BlockGrid grid)
    {
        float[] all = new float[grid.Columns * grid.Rows];
        for (int row = 0; row < grid.Rows; row++)
        {
            grid.Top(row, all.AsSpan(row * grid.Columns, grid.Columns));
        }
        return all;
    }

    /// <summary>Gives every cell its own height.</summary>
    public static void OpenAll(this Heights heights)
    {
        for (int tile = 0; tile < heights.TileRows * heights.TileColumns; tile++)
        {
            heights.Open(tile);
        }
    }
}
