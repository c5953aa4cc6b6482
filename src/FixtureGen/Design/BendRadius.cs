using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design;

/// <summary>
/// Makes a zone's boundary one that a cord can follow on both sides: the zone and its complement become r-open, which
/// is that a disc of radius r rolls along the boundary inside and outside. Material is only ever taken from the zone.
/// Opening rounds its convex corners; where the complement is sharper than r, it is grown: a corner by the disc of
/// radius r that touches its tip from inside, a small island by an outset until such a disc fits, a thin strip by
/// outsetting what it grew from.
/// </summary>
internal static class BendRadius
{
    /// <summary>What may stick out of an r-disc before the boundary counts as too sharp, mm.</summary>
    public const double Slack = 0.02;

    private const int MostRounds = 16;

    /// <summary>The rounded zone and what is still too sharp in it (empty when it came out).</summary>
    public sealed record Rounded(ImmutableArray<Region> Zone, ImmutableArray<Region> Sharp);

    /// <param name="zone">Where the boundary may run.</param>
    /// <param name="cores">What the zone keeps clear of by <paramref name="keep"/>: reliefs, pockets, keep-outs.</param>
    /// <param name="radius">The least radius of the boundary, mm.</param>
    public static Rounded Both(
        IReadOnlyList<Region> zone,
        IReadOnlyList<Region> cores,
        double keep,
        double radius,
        Kernel kernel
    )
    {
        ImmutableArray<Region> room = [.. zone];
        ImmutableArray<Region> rounded = kernel.Open(room, radius);
        ImmutableArray<Region> sharp = TooSharp(rounded, radius, kernel);
        for (int i = 0; i < MostRounds && sharp.Length > 0; i++)
        {
            bool patient = i < MostRounds / 2;
            ImmutableArray<Region> grown = rounded;
            List<Region> growth = [.. sharp.SelectMany(s => Blunt(s, grown, cores, keep, radius, patient, kernel))];
            room = kernel.Difference(rounded, kernel.UnionAll(growth));
            rounded = kernel.Open(room, radius);
            sharp = TooSharp(rounded, radius, kernel);
        }
        return new(rounded, sharp);
    }

    /// <summary>The parts of the complement that no disc of the radius reaches without entering the zone.</summary>
    public static ImmutableArray<Region> TooSharp(IReadOnlyList<Region> zone, double radius, Kernel kernel) =>
        zone.Count == 0
            ? []
            : kernel.Difference(kernel.Close(zone, radius - (Slack / 4)), kernel.Offset(zone, Slack));

    private static ImmutableArray<Region> Blunt(
        Region sharp,
        ImmutableArray<Region> zone,
        IReadOnlyList<Region> cores,
        double keep,
        double radius,
        bool patient,
        Kernel kernel
    )
    {
        Region[] piece = [sharp];
        ImmutableArray<Region> open = kernel.Close(zone, radius);
        (Point2 tip, Point2 foot, double gap) = Tip(sharp, open);
        if (IsIsland(sharp, open))
        {
            double grow = radius - Widest.Radius(piece, radius, kernel) + (Slack / 4);
            return kernel.Offset(piece, grow);
        }
        if (patient && gap is > 1e-6 && gap <= radius)
        {
            // The piece keeps Slack away from the zone, the tip does not.
            Point2 outward = (tip - foot) * (1 / gap);
            return [Region.Of(Contours.Circle(tip - (outward * (radius - (1.25 * Slack))), radius))];
        }
        ImmutableArray<Region> near = kernel.Intersect(cores, kernel.Offset(piece, keep + Slack));
        return kernel.Offset(near, radius);
    }

    /// <summary>The point of the piece farthest from where a disc of the radius still reaches, and the nearest such place.</summary>
    private static (Point2 Tip, Point2 Foot, double Gap) Tip(Region sharp, ImmutableArray<Region> open)
    {
        Point2 tip = default;
        Point2 foot = default;
        double gap = -1;
        Contour[] walls = [.. open.SelectMany(r => r.Contours)];
        foreach (Point2 p in Flatten.Points(sharp.Outer, Slack / 4))
        {
            Point2 near = walls.Select(w => Measure.Closest(p, w)).MinBy(q => q.DistanceTo(p));
            if (near.DistanceTo(p) > gap + 1e-9)
            {
                (tip, foot, gap) = (p, near, near.DistanceTo(p));
            }
        }
        return (tip, foot, gap);
    }

    /// <summary>True where no disc of the radius fits anywhere in the obstacle: the closed zone runs right over it.</summary>
    private static bool IsIsland(Region sharp, ImmutableArray<Region> open) =>
        Flatten
            .Points(sharp.Outer, Slack)
            .All(p => open.SelectMany(r => r.Contours).All(w => Measure.Distance(p, w) > 2 * Slack));
}
