using System.Runtime.Intrinsics;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Carving;

/// <summary>Looks for the highest of the cells that are not cut through.</summary>
internal ref struct Standing(BlockGrid grid)
{
    private static readonly Vector256<int> Lane = Vector256.Create(0, 1, 2, 3, 4, 5, 6, 7);

    private readonly Heights _top = grid.TopHeights;
    private readonly Heights _bottom = grid.BottomHeights;
    private readonly ReadOnlySpan<float> _tops = grid.TopHeights.Alike;
    private readonly ReadOnlySpan<float> _bottoms = grid.BottomHeights.Alike;
    private float _highest = float.MinValue;

    /// <summary>Null while none was seen.</summary>
    public readonly float? Highest => _highest > float.MinValue ? _highest : null;

    public void Look(Strip strip)
    {
        for (int i = 0; i < strip.Rows; i += Heights.Tile)
        {
            Vector256<int> first = Vector256.Create(strip.First.Slice(i, Heights.Tile));
            Vector256<int> last = Vector256.Create(strip.Last.Slice(i, Heights.Tile));
            Band band = Band.Pack(first, last);
            int tiles = _top.TileAt(strip.Row + i);
            for (int x = band.First; x < band.End; x++)
            {
                float top = _tops[tiles + x];
                if (!(top <= _highest) && Touches(first, last, x))
                {
                    Tile(strip, i, x, tiles + x);
                }
            }
        }
    }

    /// <summary>Whether a row has cells in a column of tiles.</summary>
    private static bool Touches(Vector256<int> first, Vector256<int> last, int x)
    {
        Vector256<int> left = Vector256.Create(x * Heights.Tile);
        Vector256<int> right = left + Vector256.Create(Heights.Tile - 1);
        Vector256<int> touched =
            Vector256.LessThanOrEqual(first, right)
            & Vector256.GreaterThanOrEqual(last, left)
            & Vector256.LessThanOrEqual(first, last);
        return touched != Vector256<int>.Zero;
    }

    /// <summary>The strip's cells in one tile.</summary>
    private void Tile(Strip strip, int from, int x, int tile)
    {
        float top = _tops[tile];
        float bottom = _bottoms[tile];
        if (!float.IsNaN(top) && !float.IsNaN(bottom))
        {
            _highest = top > bottom ? top : _highest;
            return;
        }
        Vector256<int> lane = Lane + Vector256.Create(x * Heights.Tile);
        Vector256<float> highest = Vector256.Create(_highest);
        for (int i = 0; i < Heights.Tile; i++)
        {
            Vector256<float> high = _top.Eight(tile, i);
            Vector256<float> low = _bottom.Eight(tile, i);
            Vector256<int> mine =
                Vector256.GreaterThanOrEqual(lane, Vector256.Create(strip.First[from + i]))
                & Vector256.LessThanOrEqual(lane, Vector256.Create(strip.Last[from + i]));
            Vector256<float> stands = mine.AsSingle() & Vector256.GreaterThan(high, low);
            highest = Vector256.ConditionalSelect(stands, Vector256.MaxNative(highest, high), highest);
        }
        _highest = Lanes.Greatest(highest);
    }
}
