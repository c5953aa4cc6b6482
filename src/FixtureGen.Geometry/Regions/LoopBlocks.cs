using System.Runtime.Intrinsics;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>Loops in stretches of a few segments with a box around each, so that most need not be looked at. Keeps its memory.</summary>
internal sealed class LoopBlocks
{
    private const int Size = 16;

    // By how much of its radius an arc's circle is taken for larger: its ends may lie off it.
    private const double Loose = Rounding.Box;

    private Vector256<double>[] _boxes = [];
    private (int Loop, int First)[] _at = [];
    private List<Loop> _loops = [];
    private int _count;

    /// <summary>The packed box around each stretch.</summary>
    public ReadOnlySpan<Vector256<double>> Boxes => _boxes.AsSpan(0, _count);

    /// <param name="outer">Leaves out the loops that run clockwise.</param>
    public void Build(List<Loop> of, bool outer)
    {
        _loops = of;
        _count = 0;
        for (int k = 0; k < of.Count; k++)
        {
            if (outer && of[k].Area <= 0)
            {
                continue;
            }
            ReadOnlySpan<Segment> segments = of[k].Contour.Segments.AsSpan();
            for (int first = 0; first < segments.Length; first += Size)
            {
                int size = _count;
                Growing.Append(ref _at, ref size, (k, first));
                Growing.Append(
                    ref _boxes,
                    ref _count,
                    Around(segments[first..Math.Min(segments.Length, first + Size)])
                );
            }
        }
    }

    /// <summary>The loop that a stretch belongs to.</summary>
    public int Loop(int block) => _at[block].Loop;

    /// <summary>The segments of a stretch.</summary>
    public ReadOnlySpan<Segment> Segments(int block)
    {
        (int loop, int first) = _at[block];
        ReadOnlySpan<Segment> all = _loops[loop].Contour.Segments.AsSpan();
        return all[first..Math.Min(all.Length, first + Size)];
    }

    /// <summary>Adds to scan lines, as a set, every segment that one may cross.</summary>
    public void AddCrossed(ScanLines lines, int set)
    {
        for (int block = 0; block < _count; block++)
        {
            lines.Add(Segments(block), _boxes[block], set);
        }
    }

    private static Vector256<double> Around(ReadOnlySpan<Segment> block)
    {
        Vector256<double> box = PackedBox.Packed(block[0].Start);
        foreach (ref readonly Segment s in block)
        {
            box = Vector256.Min(box, PackedBox.Packed(s.Start, s.End));
            if (s.IsArc)
            {
                double r = s.Start.DistanceTo(s.Centre) * (1 + Loose);
                box = Vector256.Min(box, PackedBox.Packed(s.Centre) - Vector256.Create(r));
            }
        }
        return box;
    }
}
