using System.Collections.Immutable;
using System.Runtime.InteropServices;
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
    public static Loop Of(ReadOnlySpan<Curve> curves, LoopSums sums, bool reversed)
    {
        Segment[] segments = GC.AllocateUninitializedArray<Segment>(curves.Length);
        double x0 = double.MaxValue;
        double y0 = double.MaxValue;
        double x1 = double.MinValue;
        double y1 = double.MinValue;
        for (int i = 0; i < curves.Length; i++)
        {
            ref readonly Curve c = ref curves[i];
            if (reversed)
            {
                segments[curves.Length - 1 - i] = c.ToReversedSegment();
            }
            else
            {
                segments[i] = c.ToSegment();
            }
            x0 = Math.Min(x0, c.A.X);
            y0 = Math.Min(y0, c.A.Y);
            x1 = Math.Max(x1, c.A.X);
            y1 = Math.Max(y1, c.A.Y);
            if (c.Turn != 0 && !c.StaysInOneQuadrant())
            {
                Box2 b = c.Box();
                x0 = Math.Min(x0, b.MinX);
                y0 = Math.Min(y0, b.MinY);
                x1 = Math.Max(x1, b.MaxX);
                y1 = Math.Max(y1, b.MaxY);
            }
        }
        Contour contour = new(ImmutableCollectionsMarshal.AsImmutableArray(segments));
        return new(contour, reversed ? sums.Reversed : sums, new(x0, y0, x1, y1));
    }

    /// <summary>The loops of finished regions.</summary>
    public static List<Loop> Of(IReadOnlyList<Region> regions)
    {
        List<Loop> loops = [];
        foreach (Contour c in regions.SelectMany(static r => r.Contours))
        {
            Curve[] curves = [.. c.Segments.Select(static s => Curve.Of(s))];
            loops.Add(Of(curves, CurveSums.Of(curves), reversed: false));
        }
        return loops;
    }
}
