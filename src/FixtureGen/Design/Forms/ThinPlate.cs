namespace FixtureGen.Design.Forms;

/// <summary>
/// A thin plate under uniform pressure, its edges held but free to turn, which sags and strains most: sag and bending stress in the
/// middle by the linear theory. mm, N/mm2. Rectangle: Navier's double series (Timoshenko and Woinowsky-Krieger, Theory of Plates and
/// Shells, art. 30, from memory). Circle of radius a: (5 + v) / (1 + v) p a^4 / (64 D), 3 (3 + v) / 8 p (a/t)^2.
/// </summary>
internal sealed record ThinPlate(double SagMm, double StressMPa)
{
    /// <summary>Odd terms each way; the stress is then good to a thousandth.</summary>
    private const int Terms = 99;

    public static ThinPlate Circle(double radius, double thickness, double pressure, double modulus, double poisson) =>
        new(
            (5 + poisson)
                / (1 + poisson)
                * pressure
                * Math.Pow(radius, 4)
                / (64 * Rigidity(thickness, modulus, poisson)),
            3 * (3 + poisson) / 8 * pressure * Math.Pow(radius / thickness, 2)
        );

    public static ThinPlate Rectangle(
        double length,
        double width,
        double thickness,
        double pressure,
        double modulus,
        double poisson
    )
    {
        double d = Rigidity(thickness, modulus, poisson);
        (double sag, double alongLength, double alongWidth) = (0, 0, 0);
        for (int m = 1; m <= Terms; m += 2)
        {
            for (int n = 1; n <= Terms; n += 2)
            {
                (double x, double y) = (Math.Pow(m / length, 2), Math.Pow(n / width, 2));
                int sign = ((m + n) / 2) % 2 == 1 ? 1 : -1;
                double w = sign * 16 * pressure / (Math.Pow(Math.PI, 6) * m * n * d * Math.Pow(x + y, 2));
                sag += w;
                alongLength += w * (x + (poisson * y));
                alongWidth += w * (y + (poisson * x));
            }
        }
        double moment = d * Math.PI * Math.PI * Math.Max(alongLength, alongWidth);
        return new(sag, 6 * moment / (thickness * thickness));
    }

    private static double Rigidity(double thickness, double modulus, double poisson) =>
        modulus * Math.Pow(thickness, 3) / (12 * (1 - (poisson * poisson)));
}
