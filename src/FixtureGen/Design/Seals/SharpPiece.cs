using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Seals;

/// <summary>
/// A part of the complement that is sharper than the disc. Feet are the centres of the discs it hangs on: none for an
/// island, one for a tip, more for a bridge. Tip is its point farthest from those discs, Gap that distance, mm.
/// </summary>
internal sealed record SharpPiece(ImmutableArray<Point2> Feet, Point2 Tip, double Gap)
{
    private const double Chord = 0.005;
    private const double Contact = 0.002;

    /// <param name="centres">The zone outset by the radius: outside it, discs of that radius stay clear of the zone.</param>
    public static SharpPiece Between(Region sharp, ImmutableArray<Region> centres, double radius)
    {
        Contour[] walls = [.. centres.SelectMany(r => r.Contours)];
        ImmutableArray<Point2> rim = Flatten.Points(sharp.Outer, Chord);
        Point2[] feet = [.. rim.Select(p => walls.Select(w => Measure.Closest(p, w)).MinBy(q => q.DistanceTo(p)))];
        double[] gaps = [.. rim.Select((p, i) => p.DistanceTo(feet[i]) - radius)];
        int tip = Array.IndexOf(gaps, gaps.Max());
        int[] contacts = Contacts(gaps);
        ImmutableArray<Point2> distinct = contacts.Length == 1 ? [feet[tip]] : [.. contacts.Select(c => feet[c])];
        return new(distinct, rim[tip], gaps[tip]);
    }

    /// <summary>One index in the middle of each run of the rim that lies on a disc.</summary>
    private static int[] Contacts(double[] gaps)
    {
        int n = gaps.Length;
        int start = Array.FindIndex(gaps, g => g > Contact);
        if (start < 0)
        {
            return [0];
        }
        List<int> middles = [];
        int from = -1;
        for (int k = 1; k <= n; k++)
        {
            int i = (start + k) % n;
            if (gaps[i] <= Contact && from < 0)
            {
                from = k;
            }
            if (gaps[i] > Contact && from >= 0)
            {
                middles.Add((start + ((from + k - 1) / 2)) % n);
                from = -1;
            }
        }
        return [.. middles];
    }
}
