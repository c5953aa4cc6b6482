using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Tests.Support;

/// <summary>Tells by the definition whether a combination is right: probes beside every edge, asked of A and B alone.</summary>
public static class CombineOracle
{
    private const double Step = 2e-4;

    /// <summary>Null when every probe that is clear of all edges agrees; else where it does not.</summary>
    public static string? Complaint(
        IReadOnlyList<Region> a,
        IReadOnlyList<Region> b,
        Func<bool, bool, bool> wanted,
        IReadOnlyList<Region> result
    )
    {
        Segment[] edges = [.. a.Concat(b).SelectMany(r => r.Contours).SelectMany(c => c.Segments)];
        Segment[] made = [.. result.SelectMany(r => r.Contours).SelectMany(c => c.Segments)];
        foreach (Segment s in edges.Concat(made))
        {
            foreach (double side in (double[])[Step, -Step])
            {
                Point2 p = Measure.PointAt(s, 0.37) + (Measure.TangentAt(s, 0.37).Left * side);
                if (edges.Min(e => Measure.Distance(p, e)) < Step / 2)
                {
                    continue;
                }
                bool right = wanted(Inside.Contains(a, p), Inside.Contains(b, p));
                if (right != Inside.Contains(result, p))
                {
                    return FormattableString.Invariant($"({p.X:R}, {p.Y:R}) should be {(right ? "in" : "out")}");
                }
            }
        }
        return null;
    }
}
