namespace FixtureGen.Holding.Magnets;

/// <summary>
/// Flux density of an axially magnetised disc, T; lengths mm. On the axis the standard closed form; off it the solenoid form
/// with the general complete elliptic integral (Derby and Olbert, Am. J. Phys. 78, 2010, doi 10.1119/1.3256157).
/// </summary>
public static class MagnetField
{
    /// <summary>Flux density on the axis at z mm outside of the north face (below 0 inside the disc), T.</summary>
    public static double OnAxisT(Disc disc, double z)
    {
        double far = z + disc.Thickness;
        double r2 = disc.Radius * disc.Radius;
        return disc.RemanenceT / 2 * ((far / Math.Sqrt(r2 + (far * far))) - (z / Math.Sqrt(r2 + (z * z))));
    }

    /// <summary>
    /// Flux density at a distance (0 or more) from the axis and a height over the disc's middle, T: radial positive outwards,
    /// axial positive along the magnetisation. Anywhere but on the two edges; on the rim between them, where the axial part
    /// jumps, the mean of both sides.
    /// </summary>
    public static (double Radial, double Axial) AtT(Disc disc, double fromAxis, double overMiddle)
    {
        double a = disc.Radius;
        double up = overMiddle + (disc.Thickness / 2);
        double down = overMiddle - (disc.Thickness / 2);
        (double radialUp, double axialUp) = Sheet(a, fromAxis, up);
        (double radialDown, double axialDown) = Sheet(a, fromAxis, down);
        double scale = disc.RemanenceT / Math.PI;
        return (scale * (radialUp - radialDown), scale * a / (a + fromAxis) * (axialUp - axialDown));
    }

    /// <summary>
    /// Distance from a face, on the axis, at which a number of discs magnetised alike fall to a flux density (T), mm; 0 where one
    /// has less at its face. Several discs are bounded by one with their whole moment: the single distance, at most 10 m, times
    /// the cube root of the number.
    /// </summary>
    public static double DistanceTo(Disc disc, double fluxDensityT, int discs)
    {
        double low = 0;
        double high = 10_000;
        for (int i = 0; i < 80; i++)
        {
            double z = (low + high) / 2;
            (low, high) = OnAxisT(disc, z) > fluxDensityT ? (z, high) : (low, z);
        }
        return high * Math.Cbrt(Math.Max(1, discs));
    }

    private static (double Radial, double Axial) Sheet(double a, double rho, double z)
    {
        double plus = a + rho;
        double minus = a - rho;
        double reach = Math.Sqrt((z * z) + (plus * plus));
        double k = Math.Sqrt(((z * z) + (minus * minus)) / ((z * z) + (plus * plus)));
        double gamma = minus / plus;
        // straight over the edge the integral's two limits lie pi / 2k to either side of K
        double axial = gamma == 0 ? Elliptic.Cel(k, 1, 1, 1) : Elliptic.Cel(k, gamma * gamma, 1, gamma);
        return (a / reach * Elliptic.Cel(k, 1, 1, -1), z / reach * axial);
    }
}
