using FixtureGen.Model;

namespace FixtureGen.Verify.Holding;

/// <summary>One small part of a contact: its middle, its size in mm2 (a line's in mm), and its own mean square distance from the middle, mm2.</summary>
internal readonly record struct Patch(Point2 At, double Size, double Spread2);

/// <summary>
/// A contact that carries pressure, as patches about its middle: coordinates in mm, Spread2 its mean square distance
/// along one axis in mm2, Share its part of the whole (they sum to 1). The arrays are filled up to a whole number of vectors by patches of no share.
/// </summary>
internal sealed class Bed
{
    public Bed(IReadOnlyCollection<Patch> patches)
    {
        double size = patches.Sum(p => p.Size);
        Size = size;
        if (size <= 0)
        {
            return;
        }
        Point2 middle = default;
        foreach (Patch p in patches)
        {
            middle += p.Size / size * p.At;
        }
        Middle = middle;
        int n = (patches.Count + BedPower.Lanes - 1) / BedPower.Lanes * BedPower.Lanes;
        (X, Y, Spread2, Share) = (new double[n], new double[n], new double[n], new double[n]);
        Array.Fill(Spread2, 1);
        int i = 0;
        foreach (Patch p in patches)
        {
            Point2 d = p.At - middle;
            (X[i], Y[i], Spread2[i], Share[i]) = (d.X, d.Y, Math.Max(p.Spread2 / 2, 1e-6), p.Size / size);
            Xx += Share[i] * ((d.X * d.X) + (p.Spread2 / 2));
            Yy += Share[i] * ((d.Y * d.Y) + (p.Spread2 / 2));
            Xy += Share[i] * d.X * d.Y;
            Reach = Math.Max(Reach, d.Length);
            i++;
        }
    }

    /// <summary>Area in mm2, or length in mm of a contact along lines; 0 where there is none.</summary>
    public double Size { get; }

    public Point2 Middle { get; }

    public double[] X { get; } = [];

    public double[] Y { get; } = [];

    public double[] Spread2 { get; } = [];

    public double[] Share { get; } = [];

    /// <summary>Distance of the farthest patch from the middle, mm.</summary>
    public double Reach { get; }

    private double Xx { get; }

    private double Yy { get; }

    private double Xy { get; }

    /// <summary>
    /// Slope of the plane of pressure whose first moment about the middle is so large (N mm): a patch then carries Share times
    /// (force + slope . place). A contact without width across a direction carries no moment there.
    /// </summary>
    public Point2 SlopeFor(Point2 moment)
    {
        double trace = Xx + Yy;
        double det = (Xx * Yy) - (Xy * Xy);
        return det > 1e-12 * trace * trace
            ? new Point2(((Yy * moment.X) - (Xy * moment.Y)) / det, ((Xx * moment.Y) - (Xy * moment.X)) / det)
            : moment * (1 / Math.Max(trace, 1e-12));
    }
}
