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

    private Curve[] _curves = [];
    private bool[] _keeps = [];
    private int[] _origins = [];
    private int _count;
    private bool _anyShort;
    private double _moved;

    /// <summary>The farthest that leaving out short edges moved a corner since the start, mm; rounding is left out.</summary>
    public double Moved => _moved > Noise * grid ? _moved : 0;

    /// <summary>Before the first loop of a result.</summary>
    public void Start() => _moved = 0;

    public void Begin() => (_count, _anyShort) = (0, false);

    /// <summary>Adds the pieces of a run.</summary>
    /// <param name="backwards">From the last one to the first, each reversed.</param>
    public void Add(ReadOnlySpan<Curve> pieces, ReadOnlySpan<int> from, bool backwards)
    {
        Reserve(pieces.Length);
        int i = backwards ? pieces.Length - 1 : 0;
        int step = backwards ? -1 : 1;
        while ((uint)i < (uint)pieces.Length)
        {
            // What turns at every corner, as most loops do, needs little.
            i += _count > 0 ? step * AddPlain(pieces, from, i, step) : 0;
            if ((uint)i < (uint)pieces.Length)
            {
                Add(backwards ? pieces[i].Reversed : pieces[i], from[i]);
                i += step;
            }
        }
    }

    /// <summary>Adds pieces up to the first one that may be short or continue the one before it; returns how many.</summary>
    private int AddPlain(ReadOnlySpan<Curve> pieces, ReadOnlySpan<int> from, int start, int step)
    {
        Span<Curve> to = _curves.AsSpan(_count);
        Span<int> toOrigins = _origins.AsSpan(_count);
        ref readonly Curve last = ref _curves[_count - 1];
        int lastOrigin = _origins[_count - 1];
        int lastTurn = last.Turn;
        Point2 corner = last.B;
        Point2 u = corner - last.A;
        int added = 0;
        for (int i = start; (uint)i < (uint)pieces.Length; i += step)
        {
            ref readonly Curve c = ref pieces[i];
            int turn = step * c.Turn;
            Point2 end = step > 0 ? c.B : c.A;
            Point2 v = step > 0 ? c.B - c.A : c.A - c.B;
            double vv = v.Dot(v);
            if (
                from[i] == lastOrigin
                || vv < grid * grid
                || (turn == lastTurn && (turn != 0 || IsNearlyStraight(u, v, vv)))
            )
            {
                break;
            }
            ref Curve slot = ref to[added];
            slot = c;
            slot.A = corner;
            slot.B = end;
            slot.Turn = turn;
            lastOrigin = from[i];
            toOrigins[added++] = lastOrigin;
            lastTurn = turn;
            // As the curve now is, from the corner before it.
            u = end - corner;
            corner = end;
        }
        _count += added;
        return added;
    }

    private static bool IsNearlyStraight(Point2 u, Point2 v, double vv)
    {
        double cross = u.Cross(v);
        return cross * cross < 2 * Straight * Straight * u.Dot(u) * vv;
    }

    private void Reserve(int more)
    {
        if (_curves.Length < _count + more)
        {
            int size = Math.Max(Math.Max(64, 2 * _curves.Length), _count + more);
            Array.Resize(ref _curves, size);
            Array.Resize(ref _origins, size);
        }
    }

    private void Add(in Curve piece, int origin)
    {
        ref Curve slot = ref _curves[_count];
        if (_count > 0)
        {
            ref readonly Curve last = ref _curves[_count - 1];
            if (last.Turn == piece.Turn && Continues(last, _origins[_count - 1], piece, origin))
            {
                Lengthen(piece, origin);
                return;
            }
            slot = piece;
            slot.A = last.B;
        }
        else
        {
            slot = piece;
        }
        _anyShort |= piece.Chord2 < grid * grid && IsShort(piece);
        _origins[_count++] = origin;
    }

    /// <summary>The loop, or null where it has no two curves or is thinner than <paramref name="thin"/>, area over length, mm.</summary>
    /// <param name="reversed">Turns it round.</param>
    public Loop? Close(double thin, bool reversed)
    {
        int first = 0;
        if (_count > 2 && Continues(_curves[_count - 1], _origins[_count - 1], _curves[0], _origins[0]))
        {
            Lengthen(_curves[0], _origins[0]);
            first = 1;
        }
        if (_anyShort)
        {
            DropShort(first);
            first = 0;
        }
        Span<Curve> rest = _curves.AsSpan(first.._count);
        if (rest.Length < 2)
        {
            return null;
        }
        rest[0].A = rest[^1].B;
        LoopSums sums = CurveSums.Sum(rest);
        if (Math.Abs(sums.Area) <= thin * sums.Length)
        {
            return null;
        }
        int[] sources = _origins[first.._count];
        if (reversed)
        {
            Array.Reverse(sources);
        }
        return Loop.From(rest, sums, reversed) with { Sources = ImmutableCollectionsMarshal.AsImmutableArray(sources) };
    }

    /// <summary>Joins a piece to the last one; the longer of the two says best what line or circle it is.</summary>
    private void Lengthen(in Curve piece, int origin)
    {
        ref Curve last = ref _curves[_count - 1];
        _origins[_count - 1] = piece.Chord2 > last.Chord2 ? origin : _origins[_count - 1];
        last.B = piece.B;
    }

    /// <summary>Begins at the leftmost corner, the lowest of those, so that the same edges go whatever the loop began with.</summary>
    private void DropShort(int first)
    {
        int n = _count - first;
        int start = 0;
        for (int i = 1; i < n; i++)
        {
            Point2 p = _curves[first + i].A;
            Point2 best = _curves[first + start].A;
            start = p.X < best.X || (p.X == best.X && p.Y < best.Y) ? i : start;
        }
        Rotate(_curves.AsSpan(first, n), start);
        Rotate(_origins.AsSpan(first, n), start);
        int halves = SplitLongArcs(first, n);
        n += halves;
        _count = 0;
        Point2 corner = _curves[first].A;
        for (int i = first; i < first + n; i++)
        {
            // What is kept moves to the front, over what was read already.
            Curve c = _curves[i];
            bool isHalf = halves > 0 && _keeps[i];
            if (!isHalf && _count > 0 && IsShort(c) && corner.DistanceTo(c.B) <= grid)
            {
                _moved = Math.Max(_moved, corner.DistanceTo(c.B));
                MoveEnd(ref _curves[_count - 1], c.B);
                continue;
            }
            corner = c.B;
            _origins[_count] = _origins[i];
            c.A = _count > 0 ? _curves[_count - 1].B : c.A;
            _curves[_count++] = c;
        }
        if (_count > 0)
        {
            // The last curve ends where the first begins, whatever was dropped last.
            MoveEnd(ref _curves[_count - 1], _curves[0].A);
        }
    }

    private static void Rotate<T>(Span<T> items, int start)
    {
        items[..start].Reverse();
        items[start..].Reverse();
        items.Reverse();
    }

    /// <summary>
    /// Arcs of more than half a turn in two parts: what is left out may be all that keeps their ends apart. The first part of each
    /// is noted, for it stays however short it is.
    /// </summary>
    /// <returns>How many there were.</returns>
    private int SplitLongArcs(int first, int n)
    {
        int more = 0;
        for (int i = first; i < first + n; i++)
        {
            more += IsMoreThanHalf(_curves[i]) ? 1 : 0;
        }
        if (more == 0)
        {
            return 0;
        }
        Reserve(more);
        _keeps = new bool[first + n + more];
        int to = first + n + more - 1;
        for (int i = first + n - 1; i >= first; i--)
        {
            Curve c = _curves[i];
            int origin = _origins[i];
            if (IsMoreThanHalf(c))
            {
                Curve rest = c;
                rest.A = c.Middle;
                c.B = rest.A;
                _curves[to] = rest;
                _origins[to--] = origin;
                _keeps[to] = true;
            }
            _curves[to] = c;
            _origins[to--] = origin;
        }
        return more;
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
        double ux = a.B.X - a.A.X;
        double uy = a.B.Y - a.A.Y;
        double vx = b.B.X - b.A.X;
        double vy = b.B.Y - b.A.Y;
        double cross = (ux * vy) - (uy * vx);
        if ((ux * vx) + (uy * vy) <= 0)
        {
            return false;
        }
        if (cross * cross < Straight * Straight * ((ux * ux) + (uy * uy)) * ((vx * vx) + (vy * vy)))
        {
            return true;
        }
        if (!sameOrigin)
        {
            return false;
        }
        Point2 whole = new(ux + vx, uy + vy);
        return cross * cross <= Noise * Noise * grid * grid * whole.Dot(whole);
    }
}
