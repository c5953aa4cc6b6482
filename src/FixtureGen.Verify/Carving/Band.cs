using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Carving;

/// <summary>
/// A strip's cells in one row of tiles, in tiles: the columns First up to End that they touch, none where First is not below End,
/// and InnerFirst up to InnerEnd that lie wholly inside, none where these are equal.
/// </summary>
internal readonly record struct Band(int First, int InnerFirst, int InnerEnd, int End)
{
    public bool IsEmpty => First >= End;

    /// <summary>From the first and last cells of the eight rows.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Band Pack(Vector256<int> first, Vector256<int> last)
    {
        Vector128<int> least = Least(first, last);
        Vector128<int> most = ~Least(~first, ~last);
        int end = (most[2] + Heights.Tile) / Heights.Tile;
        int innerFirst = Math.Min(end, (most[0] + Heights.Tile - 1) / Heights.Tile);
        int innerEnd = Math.Max(innerFirst, (least[2] + 1) / Heights.Tile);
        return new Band(least[0] / Heights.Tile, innerFirst, innerEnd, end);
    }

    /// <summary>The least of the one in the first place, of the other in the third.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector128<int> Least(Vector256<int> a, Vector256<int> b)
    {
        Vector128<int> x = Vector128.Min(a.GetLower(), a.GetUpper());
        Vector128<int> y = Vector128.Min(b.GetLower(), b.GetUpper());
        Vector128<int> ofA = Vector128.Create(-1, -1, 0, 0);
        Vector128<int> one = Vector128.ConditionalSelect(ofA, x, Halves(y));
        Vector128<int> other = Vector128.ConditionalSelect(ofA, Halves(x), y);
        Vector128<int> two = Vector128.Min(one, other);
        return Vector128.Min(two, Vector128.Shuffle(two, Vector128.Create(1, 0, 3, 2)));
    }

    /// <summary>The halves changed about. Half a vector by itself has no instructions of its own everywhere.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector128<int> Halves(Vector128<int> v) => Vector128.Shuffle(v, Vector128.Create(2, 3, 0, 1));
}
