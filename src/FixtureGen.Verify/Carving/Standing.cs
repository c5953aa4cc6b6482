using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace FixtureGen.Verify.Carving;

/// <summary>Looks for the highest of the cells that are not cut through.</summary>
internal ref struct Standing(BlockGrid grid)
{
    private static readonly Vector256<int> s_lane = Vector256.Create(0, 1, 2, 3, 4, 5, 6, 7);

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
            Band band = Band.Of(first, last);
            int row = strip.Row + i;
            int end = row + Heights.Tile <= _top.Rows ? Math.Min(band.End, _top.TileColumns) : 0;
            int tiles = _top.TileAt(row);
            for (int x = band.First; x < end; x++)
            {
                float top = _tops[tiles + x];
                if (!(top <= _highest) && Touches(first, last, x))
                {
                    Tile(strip, i, x, top, _bottoms[tiles + x]);
                }
            }
            if (end < band.End)
            {
                Edge(strip, i, end * Heights.Tile);
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

    /// <summary>The strip's cells in one tile; top and bottom are its common heights, or Differ.</summary>
    private void Tile(Strip strip, int from, int x, float top, float bottom)
    {
        if (!float.IsNaN(top) && !float.IsNaN(bottom))
        {
            _highest = top > bottom ? top : _highest;
            return;
        }
        Vector256<int> lane = s_lane + Vector256.Create(x * Heights.Tile);
        Vector256<float> highest = Vector256.Create(_highest);
        int at = ((strip.Row + from) * _top.Columns) + (x * Heights.Tile);
        for (int i = from; i < from + Heights.Tile; i++, at += _top.Columns)
        {
            Vector256<float> high = float.IsNaN(top) ? Eight(_top, at) : Vector256.Create(top);
            Vector256<float> low = float.IsNaN(bottom) ? Eight(_bottom, at) : Vector256.Create(bottom);
            Vector256<int> mine =
                Vector256.GreaterThanOrEqual(lane, Vector256.Create(strip.First[i]))
                & Vector256.LessThanOrEqual(lane, Vector256.Create(strip.Last[i]));
            Vector256<float> stands = mine.AsSingle() & Vector256.GreaterThan(high, low);
            highest = Vector256.ConditionalSelect(stands, Vector256.MaxNative(highest, high), highest);
        }
        for (int i = 0; i < Heights.Tile; i++)
        {
            _highest = Math.Max(_highest, highest[i]);
        }
    }

    private static Vector256<float> Eight(Heights heights, int at) =>
        Vector256.LoadUnsafe(ref Unsafe.Add(ref MemoryMarshal.GetReference(heights.Raw), at));

    /// <summary>The cells of up to eight rows from a column on, where no whole tile is.</summary>
    private void Edge(Strip strip, int from, int column)
    {
        for (int i = from; i < from + Heights.Tile; i++)
        {
            for (int at = Math.Max(column, strip.First[i]); at <= strip.Last[i]; at++)
            {
                float top = _top.At(strip.Row + i, at);
                if (top > _bottom.At(strip.Row + i, at) && top > _highest)
                {
                    _highest = top;
                }
            }
        }
    }
}
