using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using FixtureGen.Model;

namespace FixtureGen.Verify.Holding;

/// <summary>Power of friction at one motion, its growth with the load's multiple (PerLoad), and the sums of the least squares.</summary>
internal struct Pass
{
    public double Power;
    public double PerLoad;
    public double Xx;
    public double Yy;
    public double Xy;
    public double Xt;
    public double Yt;
    public double Tt;

    /// <summary>Adds a weight at a place from the middle; across a unit vector only, or every way.</summary>
    public void Add(double weight, Point2 d, Point2 across, double spread2)
    {
        if (across == default)
        {
            Xx += weight;
            Yy += weight;
            Xt -= weight * d.Y;
            Yt += weight * d.X;
            Tt += weight * (d.Dot(d) + spread2);
            return;
        }
        double arm = d.Cross(across);
        Xx += weight * across.X * across.X;
        Yy += weight * across.Y * across.Y;
        Xy += weight * across.X * across.Y;
        Xt += weight * across.X * arm;
        Yt += weight * across.Y * arm;
        Tt += weight * ((arm * arm) + spread2);
    }
}

/// <summary>The sums over a bed's patches, a vector at a time.</summary>
internal static class BedPower
{
    /// <summary>Patches of one vector: the same on every machine, so that sums are rounded alike.</summary>
    public const int Lanes = 4;

    private static Vector256<double> Load(double[] from, int i) =>
        Vector256.LoadUnsafe(ref MemoryMarshal.GetArrayDataReference(from), (nuint)i);

    public static Pass Sum(Bed bed, Twist w, in Pressed p, double friction)
    {
        Pass pass = default;
        Vector256<double> wx = Vector256.Create(w.X);
        Vector256<double> wy = Vector256.Create(w.Y);
        Vector256<double> wt = Vector256.Create(w.Turn);
        Vector256<double> force = Vector256.Create(p.Force);
        Vector256<double> sx = Vector256.Create(p.Slope.X);
        Vector256<double> sy = Vector256.Create(p.Slope.Y);
        Vector256<double> perForce = Vector256.Create(p.PerForce);
        Vector256<double> perX = Vector256.Create(p.PerSlope.X);
        Vector256<double> perY = Vector256.Create(p.PerSlope.Y);
        Vector256<double> least = Vector256.Create(1e-30);
        Vector256<double> power = default;
        Vector256<double> perLoad = default;
        Vector256<double> one = default;
        Vector256<double> x1 = default;
        Vector256<double> y1 = default;
        Vector256<double> squares = default;
        for (int i = 0; i < bed.X.Length; i += Lanes)
        {
            Vector256<double> x = Load(bed.X, i);
            Vector256<double> y = Load(bed.Y, i);
            Vector256<double> spread2 = Load(bed.Spread2, i);
            Vector256<double> share = Load(bed.Share, i);
            Vector256<double> u = wx - (wt * y);
            Vector256<double> v = wy + (wt * x);
            Vector256<double> speed = Vector256.Sqrt((u * u) + (v * v) + (wt * wt * spread2) + least);
            Vector256<double> pressed = share * Vector256.Max(force + (sx * x) + (sy * y), Vector256<double>.Zero);
            power += pressed * speed;
            perLoad += share * (perForce + (perX * x) + (perY * y)) * speed;
            Vector256<double> weight = pressed / speed;
            one += weight;
            x1 += weight * x;
            y1 += weight * y;
            squares += weight * ((x * x) + (y * y) + spread2);
        }
        double scale = friction * p.Rescale;
        pass.Power = scale * Vector256.Sum(power);
        pass.PerLoad = Math.Min(0, scale * Vector256.Sum(perLoad));
        pass.Xx = pass.Yy = scale * Vector256.Sum(one);
        pass.Xt = -scale * Vector256.Sum(y1);
        pass.Yt = scale * Vector256.Sum(x1);
        pass.Tt = scale * Vector256.Sum(squares);
        return pass;
    }

    /// <summary>What is left of a plane of pressure once no patch pulls, N.</summary>
    public static double Carried(Bed bed, double force, Point2 slope)
    {
        Vector256<double> sum = default;
        for (int i = 0; i < bed.X.Length; i += Lanes)
        {
            Vector256<double> plane =
                Vector256.Create(force)
                + (Vector256.Create(slope.X) * Load(bed.X, i))
                + (Vector256.Create(slope.Y) * Load(bed.Y, i));
            sum += Load(bed.Share, i) * Vector256.Max(plane, Vector256<double>.Zero);
        }
        return Vector256.Sum(sum);
    }
}
