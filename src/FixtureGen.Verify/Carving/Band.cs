using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace FixtureGen.Verify.Carving;

/// <summary>
/// Spans one above the other that hang together, all in one row of tiles: how many they are, and in tiles the columns First up to
/// End that they touch and InnerFirst up to InnerEnd that lie wholly inside, none where these are equal.
/// </summary>
internal readonly record struct Band(int Spans, int First, int InnerFirst, int InnerEnd, int End)
{
    /// <summary>The first such spans of these.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Band Of(ReadOnlySpan<Span1> spans)
    {
        int row = spans[0].Row;
        int most = Math.Min(Heights.Tile - (row % Heights.Tile), spans.Length);
        Vector128<int> last = Ends(in spans[0]);
        Vector128<int> outer = last;
        Vector128<int> inner = last;
        int n = 1;
        for (; n < most; n++)
        {
            Vector128<int> ends = Ends(in spans[n]);
            if (spans[n].Row != row + n || ends[0] + last[1] >= 0 || last[0] + ends[1] >= 0)
            {
                break;
            }
            last = ends;
            outer = Vector128.Min(outer, ends);
            inner = Vector128.Max(inner, ends);
        }
        int end = Up(-outer[1]);
        int innerFirst = n == Heights.Tile ? Math.Min(end, Up(inner[0])) : end;
        return new Band(n, outer[0] / Heights.Tile, innerFirst, Math.Max(innerFirst, -inner[1] / Heights.Tile), end);
    }

    /// <summary>A span's first cell and the negative of its end: the greatest of both, or the least, come in one step.</summary>
    private static Vector128<int> Ends(in Span1 span) => Vector128.Create(span.First, -span.First - span.Count, 0, 0);

    private static int Up(int cells) => (cells + Heights.Tile - 1) / Heights.Tile;
}
