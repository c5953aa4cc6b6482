using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Seals;

/// <summary>
/// Makes a zone's boundary one that a cord can follow on both sides: the zone and its complement become r-open, which
/// is that a disc of radius r rolls along the boundary inside and outside. Material is only ever taken from the zone,
/// but for a tenth of a micrometre where hairs become a line (<see cref="HairEdges"/>).
/// Opening rounds its convex corners; where the complement is sharper than r, it is grown: a corner by the disc of
/// radius r that touches its tip from inside, a bridge between obstacles by the strip that such a disc sweeps from one to
/// the other (of the ways to go, the one that leaves the largest zone), a small island by an outset until the disc fits, a
/// thin strip by outsetting what it grew from.
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
        ImmutableArray<Region> rounded = HairEdges.Join(kernel.Open([.. zone], radius));
        ImmutableArray<Region> sharp = TooSharp(rounded, radius, kernel);
        for (int i = 0; i < MostRounds && sharp.Length > 0; i++)
        {
            bool patient = i < MostRounds / 2;
            ImmutableArray<Region> centres = kernel.Offset(rounded, Rolling(radius));
            List<Region> growth =
            [
                .. sharp.SelectMany(s => Blunt(s, rounded, centres, cores, keep, radius, patient, kernel)),
            ];
            rounded = Without(rounded, growth, radius, kernel);
            sharp = TooSharp(rounded, radius, kernel);
        }
        return new(rounded, sharp);
    }

    /// <summary>The parts of the complement that no disc of the radius reaches without entering the zone.</summary>
    public static ImmutableArray<Region> TooSharp(IReadOnlyList<Region> zone, double radius, Kernel kernel) =>
        zone.Count == 0 ? [] : kernel.Difference(kernel.Close(zone, Rolling(radius)), kernel.Offset(zone, Slack));

    /// <summary>The disc that tests is a little smaller, or an arc of exactly the radius would fail by rounding.</summary>
    private static double Rolling(double radius) => radius - (Slack / 4);

    private static ImmutableArray<Region> Without(
        IReadOnlyList<Region> zone,
        IReadOnlyList<Region> growth,
        double radius,
        Kernel kernel
    ) => HairEdges.Join(kernel.Open(kernel.Difference(zone, kernel.UnionAll(growth)), radius));

    private static ImmutableArray<Region> Blunt(
        Region sharp,
        IReadOnlyList<Region> zone,
        ImmutableArray<Region> centres,
        IReadOnlyList<Region> cores,
        double keep,
        double radius,
        bool patient,
        Kernel kernel
    )
    {
        SharpPiece piece = SharpPiece.Between(sharp, centres, Rolling(radius));
        if (piece.Feet.IsEmpty)
        {
            double grow = radius - Widest.Radius([sharp], radius, kernel) + (Slack / 4);
            return kernel.Offset([sharp], grow);
        }
        if (piece.Feet.Length > 1)
        {
            return Bridges(sharp, piece.Feet, radius, kernel)
                .MaxBy(way => Math.Round(Without(zone, way, radius, kernel).Sum(Measure.Area), 3));
        }
        if (patient && piece.Gap <= radius)
        {
            // The piece keeps Slack away from the zone, the tip does not.
            Point2 outward = piece.Tip - piece.Feet[0];
            outward *= 1 / outward.Length;
            return [Region.From(Contours.Circle(piece.Tip - (outward * (radius - (1.25 * Slack))), radius))];
        }
        ImmutableArray<Region> near = kernel.Intersect(cores, kernel.Offset([sharp], keep + Slack));
        return kernel.Offset(near, radius);
    }

    /// <summary>Strips that join all feet: from foot to foot round the piece with any one step left out, or all from its widest place.</summary>
    private static IEnumerable<ImmutableArray<Region>> Bridges(
        Region sharp,
        ImmutableArray<Point2> feet,
        double radius,
        Kernel kernel
    )
    {
        Region Strip(Point2 a, Point2 b) => Region.From(Contours.Slot(a, b, radius));
        int chains = feet.Length > 2 ? feet.Length : 1;
        for (int from = 0; from < chains; from++)
        {
            Point2[] chain = [.. feet[from..], .. feet[..from]];
            yield return [.. chain.Zip(chain.Skip(1), Strip)];
        }
        Point2 middle = Widest.Place([sharp], radius, kernel);
        yield return [.. feet.Select(f => Strip(middle, f))];
    }
}
