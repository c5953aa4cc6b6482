using System.Runtime.InteropServices;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// Puts pieces end to end into a closed loop: pieces of one curve become one again, what continues the line or circle before
/// it is joined to it, and edges shorter than the grid are left out as long as that moves no corner farther than the grid.
/// What comes out depends on the loop alone, not on where it was begun.
/// </summary>
internal sealed class LoopBuilder(double grid)
{
    // Sine between lines that are one line; and, as a part of the grid, how far a cut may lie off its line and how far apart
    // circles may lie that are one.
    private const double Straight = Rounding.Direction;
    private const double Noise = Slack.NoiseInGrids;

    private Curve[] curves = [];
    private int[] origins = [];
    private int count;
    private bool anyShort;
    private double moved;

    /// <summary>The farthest that leaving out short edges moved a corner since the start, mm; rounding is left out.</summary>
    public double Moved => moved > Noise * grid ? moved : 0;

    /// <summary>Before the first loop of a result.</summary>
    public void Start() => moved = 0;

    public void Begin() => (count, anyShort) = (0, false);

    public void Add(in Curve piece, int origin)
    {
        if (count > 0 && Continues(curves[count - 1], origins[count - 1], piece, origin))
        {
            Lengthen(piece, origin);
            return;
        }
        anyShort |= IsShort(piece);
        if (curves.Length == count)
        {
            int size = Math.Max(64, 2 * count);
            Array.Resize(ref curves, size);
            Array.Resize(ref origins, size);
        }
        curves[count] = piece;
        origins[count] = origin;
        if (count > 0)
        {
            curves[count].A = curves[count - 1].B;
        }
        count++;
    }

    /// <summary>The loop, or null where it has no two curves or is thinner than <paramref name="thin"/>, area over length, mm.</summary>
    /// <param name="reversed">Turns it round.</param>
    public Loop? Close(double thin, bool reversed)
    {
        int first = 0;
        if (count > 2 && Continues(curves[count - 1], origins[count - 1], curves[0], origins[0]))
        {
            Lengthen(curves[0], origins[0]);
            first = 1;
        }
        if (anyShort)
        {
            DropShort(first);
            first = 0;
        }
        Span<Curve> rest = curves.AsSpan(first..count);
        if (rest.Length < 2)
        {
            return null;
        }
        rest[0].A = rest[^1].B;
        LoopSums sums = CurveSums.Of(rest);
        if (Math.Abs(sums.Area) <= thin * sums.Length)
        {
            return null;
        }
        int[] sources = origins[first..count];
        if (reversed)
        {
            Array.Reverse(sources);
        }
        return Loop.Of(rest, sums, reversed) with { Sources = ImmutableCollectionsMarshal.AsImmutableArray(sources) };
    }

    /// <summary>Joins a piece to the last one; the longer of the two says best what line or circle it is.</summary>
    private void Lengthen(in Curve piece, int origin)
    {
        ref Curve last = ref curves[count - 1];
        origins[count - 1] = piece.Chord2 > last.Chord2 ? origin : origins[count - 1];
        last.B = piece.B;
    }

    /// <summary>Begins at the leftmost corner, the lowest of those, so that the same edges go whatever the loop began with.</summary>
    private void DropShort(int first)
    {
        int n = count - first;
        int start = 0;
        for (int i = 1; i < n; i++)
        {
            Point2 p = curves[first + i].A;
            Point2 best = curves[first + start].A;
            start = p.X < best.X || (p.X == best.X && p.Y < best.Y) ? i : start;
        }
        Curve[] all = curves[first..count];
        int[] from = origins[first..count];
        count = 0;
        Point2 corner = all[start].A;
        for (int i = 0; i < n; i++)
        {
            int k = (start + i) % n;
            if (IsMoreThanHalf(all[k]))
            {
                // What is left out may be all that keeps its ends apart.
                Curve half = all[k];
                half.B = half.Middle;
                Put(half, from[k]);
                corner = half.B;
                all[k].A = half.B;
            }
            if (count > 0 && IsShort(all[k]) && corner.DistanceTo(all[k].B) <= grid)
            {
                moved = Math.Max(moved, corner.DistanceTo(all[k].B));
                MoveEnd(ref curves[count - 1], all[k].B);
                continue;
            }
            corner = all[k].B;
            Put(all[k], from[k]);
        }
        if (count > 0)
        {
            // The last curve ends where the first begins, whatever was dropped last.
            MoveEnd(ref curves[count - 1], curves[0].A);
        }
    }

    private void Put(in Curve c, int origin)
    {
        if (curves.Length == count)
        {
            Array.Resize(ref curves, 2 * count);
            Array.Resize(ref origins, 2 * count);
        }
        curves[count] = c;
        curves[count].A = count > 0 ? curves[count - 1].B : c.A;
        origins[count++] = origin;
    }

    private static bool IsMoreThanHalf(in Curve c) => c.Turn != 0 && c.Turn * (c.A - c.C).Cross(c.B - c.C) < 0;

    /// <summary>An arc whose end moves by more than it bends becomes a line.</summary>
    private void MoveEnd(ref Curve c, Point2 end)
    {
        if (c.B == end)
        {
            return;
        }
        c.B = end;
        c = c.Turn != 0 && c.Chord2 < 8 * c.R * grid && !IsMoreThanHalf(c) ? Curve.Line(c.A, c.B) : c;
    }

    private bool IsShort(in Curve c) => c.Chord2 < grid * grid && c.Length < 10 * grid;

    private bool Continues(in Curve a, int originA, in Curve b, int originB)
    {
        if (a.Turn != b.Turn)
        {
            return false;
        }
        if (a.Turn == 0)
        {
            return GoesStraightOn(a, b, originA == originB);
        }
        if (originA == originB)
        {
            return a.C == b.C;
        }
        double apart = Math.Abs(a.C.X - b.C.X) + Math.Abs(a.C.Y - b.C.Y) + Math.Abs(a.R - b.R);
        return apart < Noise * grid && Math.Abs(a.Sweep) + Math.Abs(b.Sweep) < Math.PI + Rounding.Angle;
    }

    private bool GoesStraightOn(in Curve a, in Curve b, bool sameOrigin)
    {
        Point2 u = a.B - a.A;
        Point2 v = b.B - b.A;
        double cross = u.Cross(v);
        if (u.Dot(v) <= 0)
        {
            return false;
        }
        if (cross * cross < Straight * Straight * u.Dot(u) * v.Dot(v))
        {
            return true;
        }
        Point2 whole = u + v;
        return sameOrigin && cross * cross <= Noise * Noise * grid * grid * whole.Dot(whole);
    }
}
