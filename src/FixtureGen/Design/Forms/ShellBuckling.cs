namespace FixtureGen.Design.Forms;

/// <summary>
/// The pressure, N/mm2, from outside at which thin shells of revolution buckle, as design values with the knock-down for what real
/// shells are off their shape. Lengths mm, moduli N/mm2.
/// </summary>
internal static class ShellBuckling
{
    /// <summary>
    /// A clamped spherical cap (NASA SP-8032, August 1969, 4.2.1.1): p = (0.14 + 3.2 / lambda^2) 2 E (t/R)^2 / sqrt(3 (1 - v^2)),
    /// lambda = (12 (1 - v^2))^(1/4) sqrt(R/t) 2 sin(phi/2) above 2. Null at 2 and below, where a cap is as good as a plate.
    /// </summary>
    /// <param name="radius">Mean, of the sphere.</param>
    /// <param name="halfAngle">Half of the cap's included angle, radians, at most a right angle for a hemisphere.</param>
    public static double? Cap(double radius, double halfAngle, double thickness, double modulus, double poisson)
    {
        double v = 1 - (poisson * poisson);
        double lambda = Math.Pow(12 * v, 0.25) * Math.Sqrt(radius / thickness) * 2 * Math.Sin(halfAngle / 2);
        double classical = 2 * modulus * Math.Pow(thickness / radius, 2) / Math.Sqrt(3 * v);
        return lambda > 2 ? (0.14 + (3.2 / (lambda * lambda))) * classical : null;
    }

    /// <summary>
    /// The wall of a truncated cone, its ends held round (NASA SP-8019, September 1968, from memory): p = 0.75 x 0.92 E / ((L/r)
    /// (r/t)^(5/2)), L along the slant, r the mean of the end radii over the cosine of the half angle. Short walls bear more.
    /// </summary>
    /// <param name="draft">The wall's angle against the axis, radians.</param>
    public static double Cone(double foot, double head, double height, double draft, double thickness, double modulus)
    {
        double slant = height / Math.Cos(draft);
        double r = (foot + head) / (2 * Math.Cos(draft));
        return 0.75 * 0.92 * modulus / (slant / r * Math.Pow(r / thickness, 2.5));
    }
}
