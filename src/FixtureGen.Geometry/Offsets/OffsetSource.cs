using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// Closed loops ready to be offset: packed curves, the tangents at their ends and one index over all loops. The side that is
/// offset towards is always the left, so growing works on reversed loops.
/// </summary>
internal sealed class OffsetSource(Slack slack)
{
    public Curve[] Curves { get; private set; } = [];

    public Point2[] StartTangents { get; private set; } = [];

    public Point2[] EndTangents { get; private set; } = [];

    /// <summary>First curve of each loop, and one entry more for the end.</summary>
    public List<int> LoopStarts { get; } = [];

    public CurveIndex Index { get; } = new();

    public int Count { get; private set; }

    /// <summary>True when the loops were reversed to grow.</summary>
    public bool Reversed { get; private set; }

    /// <summary>Area, length and sweeps of all loops, as they are run here.</summary>
    public LoopSums Sums { get; private set; }

    /// <summary>The greatest coordinate or radius, mm.</summary>
    public double Greatest { get; private set; }

    /// <summary>How many curves shorter than the grid were left out.</summary>
    public int Dropped { get; private set; }

    public void Begin(bool reversed)
    {
        Count = 0;
        Dropped = 0;
        Reversed = reversed;
        LoopStarts.Clear();
    }

    public void AddAll(IReadOnlyList<Region> regions)
    {
        for (int i = 0; i < regions.Count; i++)
        {
            Add(regions[i].Outer.Segments);
            foreach (Contour hole in regions[i].Holes)
            {
                Add(hole.Segments);
            }
        }
    }

    public void Add(ImmutableArray<Segment> loop)
    {
        EnsureRoom(loop.Length);
        int start = Count;
        ReadOnlySpan<Segment> segments = loop.AsSpan();
        for (int i = 0; i < segments.Length; i++)
        {
            Curve c = Curve.Of(segments[Reversed ? segments.Length - 1 - i : i]);
            if (Reversed)
            {
                c.Reverse();
            }
            if (c.Chord2 < slack.Grid * slack.Grid && c.Length < 2 * slack.Grid)
            {
                Dropped++;
                continue;
            }
            if (Count > start)
            {
                c.A = Curves[Count - 1].B;
            }
            Curves[Count++] = c;
        }
        Close(start);
    }

    public void End()
    {
        LoopStarts.Add(Count);
        Greatest = 0;
        for (int i = 0; i < Count; i++)
        {
            Greatest = Math.Max(Greatest, LoopLoader.Greatest(Curves[i]));
            StartTangents[i] = Curves[i].StartTangent;
            EndTangents[i] = Curves[i].Turn == 0 ? StartTangents[i] : Curves[i].EndTangent;
        }
        Index.Build(Curves, Count, slack.Near);
        Sums = default;
        for (int k = 0; k + 1 < LoopStarts.Count; k++)
        {
            Sums += CurveSums.Of(Curves.AsSpan(LoopStarts[k]..LoopStarts[k + 1]));
        }
    }

    private void Close(int start)
    {
        if (Count - start < 2)
        {
            Count = start;
            return;
        }
        Curves[Count - 1].B = Curves[start].A;
        LoopStarts.Add(start);
    }

    private void EnsureRoom(int more)
    {
        int need = Count + more;
        if (Curves.Length >= need)
        {
            return;
        }
        int size = Math.Max(need, 2 * Curves.Length);
        Curve[] grown = new Curve[size];
        Array.Copy(Curves, grown, Count);
        Curves = grown;
        StartTangents = new Point2[size];
        EndTangents = new Point2[size];
    }
}
