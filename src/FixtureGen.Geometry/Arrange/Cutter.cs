using System.Runtime.InteropServices;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// Cuts curves into pieces that meet only at their ends. The model: curves or points nearer to each other than the snapping
/// distance s touch. Points that touch become one (<see cref="Vertices"/>), a curve is cut at every point that touches it and
/// where it crosses another, and its pieces then run from point to point. What moved by that is looked at again with half
/// the distance, down to an eighth, until nothing touches any more. A point moves by s in the first round, s / 2 in the
/// second, ...; <see cref="Moved"/> says how far any one did. What is left is a plane graph: every point lies farther from
/// every curve that does not end in it than an eighth of s, which is far above rounding.
/// </summary>
internal sealed class Cutter
{
    // Rounds after which the work is given up; three are rare.
    private const int MostRounds = 24;

    // Parts of the snapping distance: moves below the first one cannot bring anything near, the second is the least distance.
    public const double Harmless = 0.01;
    private const double Least = 0.125;

    private const int PairsBetweenQuestions = 10_000;

    private readonly Meeting _meeting;
    private readonly PieceMaker _pieceMaker = new();
    private readonly ChainIndex _index = new();
    private readonly CurveTable _one = new();
    private readonly CurveTable _other = new();
    private readonly List<long> _pairs = [];
    private readonly List<int> _found = [];

    public Cutter() => _meeting = new(Vertices);

    public Vertices Vertices { get; } = new();

    /// <summary>Asked in every round, and every so many pairs, whether to go on.</summary>
    public CancellationToken Cancel { get; set; }

    /// <summary>The curves to be cut; they stay as they are.</summary>
    public CurveTable Input { get; } = new();

    /// <summary>The pieces, after <see cref="Cut"/>.</summary>
    public CurveTable Pieces { get; private set; } = null!;

    /// <summary>The curves of the last round, which <see cref="Index"/> indexes, and the one that each piece was cut from.</summary>
    public CurveTable LastRound { get; private set; } = null!;

    /// <summary>The index over <see cref="LastRound"/>.</summary>
    public ChainIndex Index => _index;

    /// <summary>The most that the rounds together moved a point or a curve, mm; rounding is left out.</summary>
    public double Moved { get; private set; }

    public int Rounds { get; private set; }

    public void Clear()
    {
        Vertices.Clear();
        Input.Clear();
    }

    /// <summary>Cuts everything; false where it comes to no end.</summary>
    /// <param name="snap">The snapping distance, mm.</param>
    /// <param name="sorted">True when curves that follow each other lie near each other throughout.</param>
    public bool Cut(double snap, bool sorted)
    {
        Vertices.EndGiven();
        Moved = 0;
        CurveTable from = Input;
        CurveTable to = _one;
        for (Rounds = 1; Rounds <= MostRounds; Rounds++)
        {
            double near = Math.Max(snap / (1 << Math.Min(Rounds - 1, 8)), Least * snap);
            double moved = Round(from, to, near, sorted);
            Pieces = to;
            LastRound = from;
            if (moved <= Harmless * near)
            {
                return true;
            }
            Moved += moved;
            (from, to) = (to, to == _one ? _other : _one);
        }
        return false;
    }

    private double Round(CurveTable from, CurveTable to, double near, bool sorted)
    {
        Cancel.ThrowIfCancellationRequested();
        Vertices.BeginRound();
        _meeting.Begin(from, near);
        _index.Build(from, near, sorted);
        _pairs.Clear();
        _index.TouchingPairs(_pairs);
        int known = Vertices.Count;
        int until = PairsBetweenQuestions;
        foreach (long pair in CollectionsMarshal.AsSpan(_pairs))
        {
            if (--until == 0)
            {
                Cancel.ThrowIfCancellationRequested();
                until = PairsBetweenQuestions;
            }
            _meeting.Meet((int)(pair >> 32), (int)(pair & 0xffffffff));
        }
        _index.Short.ForEach(_meeting.JoinEnds);
        CutAtNearCrossings(known, near);
        _pieceMaker.Sort(_meeting, Vertices, near);
        double farthest = Math.Max(_meeting.Farthest, Vertices.ChooseLeaders(near));
        _pieceMaker.Make(from, to, Vertices, near);
        return farthest;
    }

    /// <summary>A crossing of two curves may touch a third.</summary>
    private void CutAtNearCrossings(int first, double near)
    {
        for (int v = first; v < Vertices.Count; v++)
        {
            Point2 p = Vertices[v];
            _found.Clear();
            _index.Touching(PackedBox.Packed(p), _found);
            foreach (int i in _found)
            {
                _meeting.TouchCrossing(v, i);
            }
        }
    }
}
