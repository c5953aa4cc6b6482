namespace FixtureGen.Holding.Magnets;

/// <summary>Gauss-Legendre nodes and weights by Newton's method on the Legendre polynomial.</summary>
internal static class GaussLegendre
{
    /// <summary>Nodes and weights of an n-point rule on an interval, in rising order.</summary>
    public static (double Node, double Weight)[] On(int n, double from, double to)
    {
        var rule = new (double Node, double Weight)[n];
        double half = (to - from) / 2;
        double middle = (to + from) / 2;
        for (int i = 0; i < n; i++)
        {
            double x = -Math.Cos(Math.PI * (i + 0.75) / (n + 0.5));
            double slope = 1;
            for (int pass = 0; pass < 8; pass++)
            {
                (double value, slope) = Legendre(n, x);
                x -= value / slope;
            }
            rule[i] = (middle + (half * x), half * 2 / ((1 - (x * x)) * slope * slope));
        }
        return rule;
    }

    private static (double Value, double Slope) Legendre(int n, double x)
    {
        double before = 1;
        double now = x;
        for (int k = 2; k <= n; k++)
        {
            (before, now) = (now, ((((2 * k) - 1) * x * now) - ((k - 1) * before)) / k);
        }
        return (now, n * ((x * now) - before) / ((x * x) - 1));
    }
}
