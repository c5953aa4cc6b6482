namespace FixtureGen.Holding.Magnets;

/// <summary>
/// Complete elliptic integrals by Carlson's duplication (Numer. Algorithms 10, 1995; DLMF 19.36) of the parameter m = k^2, and
/// Bulirsch's general complete integral cel (Numer. Math. 13, 1969), all to near machine precision. No argument is checked:
/// outside of the stated ranges the answer means nothing or never comes.
/// </summary>
public static class Elliptic
{
    private const double Fine = 1e-3;
    private const double CelTolerance = 1e-8;

    /// <summary>K(m) of the first kind, 0 &lt;= m &lt; 1.</summary>
    public static double K(double m) => Rf(0, 1 - m, 1);

    /// <summary>E(m) of the second kind, 0 &lt;= m &lt;= 1.</summary>
    public static double E(double m) => m >= 1 ? 1 : Rf(0, 1 - m, 1) - (m / 3 * Rd(0, 1 - m, 1));

    /// <summary>Pi(n | m) of the third kind, n &lt; 1 (also negative), 0 &lt;= m &lt; 1.</summary>
    public static double Pi(double n, double m) => Rf(0, 1 - m, 1) + (n / 3 * Rj(0, 1 - m, 1, 1 - n));

    /// <summary>cel(kc, p, a, b) = Int_0^(pi/2) (a cos^2 + b sin^2) / ((cos^2 + p sin^2) sqrt(cos^2 + kc^2 sin^2)), kc &gt; 0, p &gt; 0.</summary>
    public static double Cel(double kc, double p, double a, double b)
    {
        double k = kc;
        double kk = kc;
        double pp = Math.Sqrt(p);
        double ss = b / pp;
        double f = a;
        double cc = a + (ss / pp);
        double g = k / pp;
        ss = 2 * (ss + (f * g));
        pp += g;
        g = 1;
        double em = 1 + k;
        while (Math.Abs(g - k) > g * CelTolerance)
        {
            k = 2 * Math.Sqrt(kk);
            kk = k * em;
            f = cc;
            cc += ss / pp;
            double q = kk / pp;
            ss = 2 * (ss + (f * q));
            pp += q;
            g = em;
            em += k;
        }
        return Math.PI / 2 * (ss + (cc * em)) / (em * (em + pp));
    }

    private static double Rf(double x, double y, double z)
    {
        while (true)
        {
            double mean = (x + y + z) / 3;
            double dx = 1 - (x / mean);
            double dy = 1 - (y / mean);
            double dz = 1 - (z / mean);
            if (Math.Max(Math.Abs(dx), Math.Max(Math.Abs(dy), Math.Abs(dz))) < Fine)
            {
                double e2 = (dx * dy) - (dz * dz);
                double e3 = dx * dy * dz;
                return (1 - (e2 / 10) + (e3 / 14) + (e2 * e2 / 24) - (3 * e2 * e3 / 44)) / Math.Sqrt(mean);
            }
            double lambda = Pairs(x, y, z);
            (x, y, z) = ((x + lambda) / 4, (y + lambda) / 4, (z + lambda) / 4);
        }
    }

    private static double Rd(double x, double y, double z)
    {
        double sum = 0;
        double factor = 1;
        while (Spread(x, y, z, z, (x + y + (3 * z)) / 5) >= Fine)
        {
            double lambda = Pairs(x, y, z);
            sum += factor / (Math.Sqrt(z) * (z + lambda));
            factor /= 4;
            (x, y, z) = ((x + lambda) / 4, (y + lambda) / 4, (z + lambda) / 4);
        }
        return (3 * sum) + (factor * Series(x, y, z, z));
    }

    private static double Rj(double x, double y, double z, double p)
    {
        double sum = 0;
        double factor = 1;
        while (Spread(x, y, z, p, (x + y + z + (2 * p)) / 5) >= Fine)
        {
            double lambda = Pairs(x, y, z);
            double a = (p * (Math.Sqrt(x) + Math.Sqrt(y) + Math.Sqrt(z))) + Math.Sqrt(x * y * z);
            double b = p * (p + lambda) * (p + lambda);
            sum += factor * Rc(a * a, b);
            factor /= 4;
            (x, y, z, p) = ((x + lambda) / 4, (y + lambda) / 4, (z + lambda) / 4, (p + lambda) / 4);
        }
        return (3 * sum) + (factor * Series(x, y, z, p));
    }

    private static double Rc(double x, double y) => Rf(x, y, y);

    private static double Pairs(double x, double y, double z) => Math.Sqrt(x * y) + Math.Sqrt(y * z) + Math.Sqrt(z * x);

    private static double Spread(double x, double y, double z, double p, double mean) =>
        Math.Max(
            Math.Max(Math.Abs(1 - (x / mean)), Math.Abs(1 - (y / mean))),
            Math.Max(Math.Abs(1 - (z / mean)), Math.Abs(1 - (p / mean)))
        );

    private static double Series(double x, double y, double z, double p)
    {
        double mean = (x + y + z + (2 * p)) / 5;
        double dx = 1 - (x / mean);
        double dy = 1 - (y / mean);
        double dz = 1 - (z / mean);
        double dp = 1 - (p / mean);
        double e2 = (dx * dy) + (dx * dz) + (dy * dz) - (3 * dp * dp);
        double e3 = (dx * dy * dz) + (2 * e2 * dp) + (4 * dp * dp * dp);
        double e4 = ((2 * dx * dy * dz) + (e2 * dp) + (3 * dp * dp * dp)) * dp;
        double e5 = dx * dy * dz * dp * dp;
        return (1 - (3 * e2 / 14) + (e3 / 6) + (9 * e2 * e2 / 88) - (3 * e4 / 22) - (9 * e2 * e3 / 52) + (3 * e5 / 26))
            / (mean * Math.Sqrt(mean));
    }
}
