using System.Collections.Immutable;
using System.Runtime.Intrinsics;
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
        Curve[] curves = Curves;
        int count = Count;
        for (int i = 0; i < segments.Length; i++)
        {
            ref readonly Segment s = ref segments[Reversed ? segments.Length - 1 - i : i];
            ref Curve c = ref curves[count];
            if (s.IsArc)
            {
                c = Curve.From(s);
                if (Reversed)
                {
                    c.Reverse();
                }
            }
            else
            {
                (c.A, c.B) = Reversed ? (s.End, s.Start) : (s.Start, s.End);
                (c.C, c.R, c.Turn) = (default, 0, 0);
            }
            if (c.Chord2 < slack.Grid * slack.Grid && c.Length < 2 * slack.Grid)
            {
                Dropped++;
                continue;
            }
            if (count > start)
            {
                c.A = curves[count - 1].B;
            }
            count++;
        }
        Count = count;
        Close(start);
    }

    public void End()
    {
        LoopStarts.Add(Count);
        Greatest = 0;
        Sums = default;
        for (int k = 0; k + 1 < LoopStarts.Count; k++)
        {
            Sums += Measure(LoopStarts[k], LoopStarts[k + 1]);
        }
        Index.Build(Curves, Count, slack.Near);
    }

    /// <summary>Sums and tangents of one loop.</summary>
    private LoopSums Measure(int first, int end)
    {
        ReadOnlySpan<Curve> loop = Curves.AsSpan(first..end);
        Span<Point2> starts = StartTangents.AsSpan(first..end);
        Span<Point2> ends = EndTangents.AsSpan(first..end);
        var sum = new CurveSums.Adder(loop[0].A);
        Vector128<double> corner = Vector128<double>.Zero;
        for (int i = 0; i < loop.Length; i++)
        {
            ref readonly Curve c = ref loop[i];
            if (c.Turn != 0)
            {
                Greatest = Math.Max(Greatest, LoopLoader.Greatest(c));
                starts[i] = c.StartTangent;
                ends[i] = c.EndTangent;
                sum.AddArc(c);
                continue;
            }
            corner = Vector128.Max(corner, Vector128.Abs(Vector128.Create(c.A.X, c.A.Y)));
            double length = Math.Sqrt(c.Chord2);
            Point2 heading = (c.B - c.A) * (1 / length);
            starts[i] = heading;
            ends[i] = heading;
            sum.AddLine(c, length);
        }
        Greatest = Math.Max(Greatest, Math.Max(corner[0], corner[1]));
        return sum.Sums;
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
