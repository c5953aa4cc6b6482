namespace FixtureGen.Verify.Holding;

/// <summary>Bessel functions of the first kind by the polynomials of Abramowitz and Stegun, 9.4.1 to 9.4.6; off by at most 1.5e-8. Arguments from 0 up.</summary>
internal static class Bessel
{
    public static double J0(double x)
    {
        double y = x / 3;
        if (y <= 1)
        {
            return Sum(y * y, 1, -2.2499997, 1.2656208, -0.3163866, 0.0444479, -0.0039444, 0.0002100);
        }
        double z = 3 / x;
        double f = Sum(z, 0.79788456, -0.00000077, -0.00552740, -0.00009512, 0.00137237, -0.00072805, 0.00014476);
        double t = Sum(z, -0.78539816, -0.04166397, -0.00003954, 0.00262573, -0.00054125, -0.00029333, 0.00013558);
        return f * Math.Cos(x + t) / Math.Sqrt(x);
    }

    public static double J1(double x)
    {
        double y = x / 3;
        if (y <= 1)
        {
            return x * Sum(y * y, 0.5, -0.56249985, 0.21093573, -0.03954289, 0.00443319, -0.00031761, 0.00001109);
        }
        double z = 3 / x;
        double f = Sum(z, 0.79788456, 0.00000156, 0.01659667, 0.00017105, -0.00249511, 0.00113653, -0.00020033);
        double t = Sum(z, -2.35619449, 0.12499612, 0.00005650, -0.00637879, 0.00074348, 0.00079824, -0.00029166);
        return f * Math.Cos(x + t) / Math.Sqrt(x);
    }

    private static double Sum(double x, double a, double b, double c, double d, double e, double f, double g) =>
        a + (x * (b + (x * (c + (x * (d + (x * (e + (x * (f + (x * g)))))))))));
}
