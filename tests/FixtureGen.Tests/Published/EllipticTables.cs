using FixtureGen.Holding.Magnets;
using Xunit;

namespace FixtureGen.Tests.Published;

/// <summary>Complete elliptic integrals by m = k^2: Abramowitz and Stegun, tables 17.1 and 17.9; DLMF 19.6 and 19.7.</summary>
public sealed class EllipticTables
{
    private const double Precision = 4e-15;

    [Theory]
    [InlineData(0, Math.PI / 2, Math.PI / 2)]
    [InlineData(0.1, 1.612441348720219, 1.530757636897763)]
    [InlineData(0.5, 1.854074677301372, 1.350643881047675)]
    [InlineData(0.9, 2.578092113348173, 1.104774732704073)]
    [InlineData(0.99, 3.695637362989874, 1.015993545025224)]
    public void First_and_second_kind(double m, double k, double e)
    {
        Assert.Equal(k, Elliptic.K(m), Precision);
        Assert.Equal(e, Elliptic.E(m), Precision);
        Assert.Equal(1, Elliptic.E(1));
    }

    // E K' + E' K - K K' = pi/2 (Legendre, DLMF 19.7.1).
    [Theory]
    [InlineData(0.001)]
    [InlineData(0.2)]
    [InlineData(0.37)]
    [InlineData(0.5)]
    public void Legendres_relation(double m)
    {
        (double k, double other) = (Elliptic.K(m), Elliptic.K(1 - m));

        double sum = (Elliptic.E(m) * other) + (Elliptic.E(1 - m) * k) - (k * other);

        Assert.Equal(Math.PI / 2, sum, 2e-14);
    }

    // First three worked to 25 digits; n = m is E(m) / (1 - m), m = 0 is pi / (2 sqrt(1 - n)) (DLMF 19.6.1 and 19.6.3).
    [Theory]
    [InlineData(-2, 0.5, 1.022697508606592)]
    [InlineData(0.3, 0.5, 2.250376821943947)]
    [InlineData(0.9, 0.2, 5.403569323280463)]
    [InlineData(0.5, 0.5, 2 * 1.350643881047675)]
    [InlineData(0.75, 0, Math.PI)]
    [InlineData(0, 0.9, 2.578092113348173)]
    public void Third_kind(double n, double m, double value) =>
        Assert.Equal(value, Elliptic.Pi(n, m), Precision * Math.Max(1, value));

    // Bulirsch's cel holds all three: cel(kc,1,1,1) = K, cel(kc,1,1,kc^2) = E, cel(kc,1-n,1,1) = Pi (DLMF 19.2.11).
    [Theory]
    [InlineData(0.1, 0.3)]
    [InlineData(0.5, -2)]
    [InlineData(0.9, 0.7)]
    [InlineData(0.99, 0.2)]
    public void Bulirschs_integral_holds_all_three(double m, double n)
    {
        double kc = Math.Sqrt(1 - m);
        double pi = Elliptic.Pi(n, m);

        Assert.Equal(Elliptic.K(m), Elliptic.Cel(kc, 1, 1, 1), 1e-14);
        Assert.Equal(Elliptic.E(m), Elliptic.Cel(kc, 1, 1, kc * kc), 1e-14);
        Assert.Equal(pi, Elliptic.Cel(kc, 1 - n, 1, 1), 1e-14 * pi);
    }

    // An n-point rule is exact for polynomials of degree 2n - 1 (Abramowitz and Stegun 25.4.29), and not for the next.
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(5)]
    [InlineData(24)]
    public void Gauss_rules_are_exact_to_their_degree(int n)
    {
        (double Node, double Weight)[] rule = GaussLegendre.On(n, 0, 1);

        for (int degree = 0; degree < 2 * n; degree++)
        {
            Assert.Equal(1.0 / (degree + 1), rule.Sum(r => r.Weight * Math.Pow(r.Node, degree)), 1e-14);
        }
        Assert.Equal(rule.OrderBy(r => r.Node), rule);
        Assert.Equal(6, GaussLegendre.On(n, 2, 8).Sum(r => r.Weight), 1e-13);
    }

    // Abramowitz and Stegun, table 25.4, n = 3.
    [Fact]
    public void Three_Gauss_points_are_the_tables()
    {
        (double Node, double Weight)[] rule = GaussLegendre.On(3, -1, 1);

        Assert.Equal(-0.774596669241483, rule[0].Node, 1e-14);
        Assert.Equal(0, rule[1].Node, 1e-14);
        Assert.Equal(5.0 / 9, rule[2].Weight, 1e-14);
        Assert.Equal(8.0 / 9, rule[1].Weight, 1e-14);
    }
}
