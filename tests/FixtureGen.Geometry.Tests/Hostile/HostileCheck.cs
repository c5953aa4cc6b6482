using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Tests.Support;

namespace FixtureGen.Tests.Hostile;

/// <summary>Whether the kernel combines two sets rightly: by the laws of sets, by the definition, and by exact fractions.</summary>
public static class HostileCheck
{
    // What the kernel promises: no point is moved farther, mm. Beside it the rounding of an area's sum, as a part of it.
    private const double Moved = 1e-6;
    private const double Rounding = 1e-13;

    private static readonly Func<int, int, bool>[] Wishes =
    [
        (a, b) => a > 0 || b > 0,
        (a, b) => a > 0 && b > 0,
        (a, b) => a > 0 && b <= 0,
        (a, b) => b > 0 && a <= 0,
    ];

    /// <summary>Null where everything agrees; else what does not.</summary>
    public static string? Complaint(HostilePair pair, Kernel kernel)
    {
        IReadOnlyList<Region>[] results =
        [
            kernel.Union(pair.A, pair.B),
            kernel.Intersect(pair.A, pair.B),
            kernel.Difference(pair.A, pair.B),
            kernel.Difference(pair.B, pair.A),
        ];
        double[] areas = [.. results.Select(r => Measure.Area(r))];
        double length = pair.A.Concat(pair.B).Sum(Measure.Length);
        Box2 box = Measure.Bounds(pair.A.Concat(pair.B));
        double size = Math.Max(Math.Max(Math.Abs(box.MaxX), Math.Abs(box.MinY)), length);
        double slop = (Moved * length) + (Rounding * size * length);
        return Laws(pair, kernel, areas, slop) ?? Fractions(pair, areas, slop) ?? Definition(pair, results);
    }

    private static string? Laws(HostilePair pair, Kernel kernel, double[] areas, double slop)
    {
        (double union, double both, double onlyA, double onlyB) = (areas[0], areas[1], areas[2], areas[3]);
        if (Math.Abs(union - both - onlyA - onlyB) > slop)
        {
            return FormattableString.Invariant($"parts add up to {both + onlyA + onlyB} of {union}");
        }
        double otherWay = Measure.Area(kernel.Union(pair.B, pair.A));
        if (Math.Abs(union - otherWay) > 1e-3 * slop)
        {
            return FormattableString.Invariant($"A with B is {union}, B with A {otherWay}");
        }
        if (pair.A.Length == 1 && pair.B.Length == 1)
        {
            double a = Measure.Area(pair.A);
            double b = Measure.Area(pair.B);
            return Math.Abs(a - both - onlyA) > slop
                    ? FormattableString.Invariant($"A is {a}, its parts {both} and {onlyA}")
                : Math.Abs(b - both - onlyB) > slop
                    ? FormattableString.Invariant($"B is {b}, its parts {both} and {onlyB}")
                : null;
        }
        return null;
    }

    private static string? Fractions(HostilePair pair, double[] areas, double slop)
    {
        if (!pair.ArePolygons || pair.Number % 5 != 0)
        {
            return null;
        }
        double[] exact = RationalOverlay.Areas(pair.A, pair.B, Wishes);
        for (int i = 0; i < exact.Length; i++)
        {
            if (Math.Abs(exact[i] - areas[i]) > slop)
            {
                return FormattableString.Invariant($"area {i} is {areas[i]}, exactly {exact[i]}");
            }
        }
        return null;
    }

    private static string? Definition(HostilePair pair, IReadOnlyList<Region>[] results)
    {
        for (int i = 0; i < results.Length; i++)
        {
            Func<int, int, bool> wish = Wishes[i];
            string? complaint = CombineOracle.Complaint(
                pair.A,
                pair.B,
                (inA, inB) => wish(inA ? 1 : 0, inB ? 1 : 0),
                results[i]
            );
            if (complaint is not null)
            {
                return FormattableString.Invariant($"{i}: ") + complaint;
            }
        }
        return null;
    }
}
