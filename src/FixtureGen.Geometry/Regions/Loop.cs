using System.Collections.Immutable;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>A closed contour with its sums and its box.</summary>
internal readonly record struct Loop(Contour Contour, LoopSums Sums, Box2 Box)
{
    /// <summary>For each segment the number of the curve that it is a part of; default where nobody knows.</summary>
    public ImmutableArray<int> Sources { get; init; }

    /// <summary>Signed area, mm2.</summary>
    public double Area => Sums.Area;

    /// <summary>The loop of the given curves, run backwards if so wanted.</summary>
    public static Loop From(ReadOnlySpan<Curve> curves, LoopSums sums, bool reversed)
    {
        Segment[] segments = GC.AllocateUninitializedArray<Segment>(curves.Length);
        Vector256<double> box = Vector256.Create(double.PositiveInfinity);
        for (int i = 0; i < curves.Length; i++)
        {
            ref readonly Curve c = ref curves[i];
            ref Segment s = ref segments[reversed ? curves.Length - 1 - i : i];
            if (c.Turn == 0)
            {
                s = reversed ? Segment.Line(c.B, c.A) : Segment.Line(c.A, c.B);
                box = Vector256.Min(box, PackedBox.Packed(c.A));
                continue;
            }
            s = reversed ? c.ToReversedSegment() : c.ToSegment();
            box = Vector256.Min(box, c.StaysInOneQuadrant() ? PackedBox.Packed(c.A) : c.Packed());
        }
        Contour contour = new(ImmutableCollectionsMarshal.AsImmutableArray(segments));
        return new(contour, reversed ? sums.Reversed : sums, PackedBox.Unpacked(box));
    }

    /// <summary>The loops of finished regions.</summary>
    public static List<Loop> From(IReadOnlyList<Region> regions)
    {
        List<Loop> loops = [];
        foreach (Contour c in regions.SelectMany(static r => r.Contours))
        {
            Curve[] curves = [.. c.Segments.Select(static s => Curve.From(s))];
            loops.Add(From(curves, CurveSums.Sum(curves), reversed: false));
        }
        return loops;
    }
}
