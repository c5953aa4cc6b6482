namespace FixtureGen.Holding.Magnets;

/// <summary>
/// Force between two rigidly magnetised discs with parallel axes, both magnetised the same way up, N; lengths mm. Coaxial:
/// Robertson, Cazzolato and Zander, IEEE Trans. Magn. 47(8), 2011, doi 10.1109/TMAG.2011.2129524, in closed form. Aside: the
/// exact field of one disc integrated over the pole faces of the other. Real magnets pull 5 to 15 % less (permeability,
/// chamfer, plating; common practice, no source).
/// </summary>
public static class MagnetPair
{
    private const double VacuumPermeability = 4e-7 * Math.PI;

    /// <summary>Share of the computed pull that is counted: 15 % off for what the model leaves out; common practice, no source.</summary>
    public const double Derating = 0.85;

    /// <summary>Nodes (along the radius, round half a turn) for discs over each other and for discs apart.</summary>
    private static readonly (int Radial, int Angular) Near = (8, 12);
    private static readonly (int Radial, int Angular) Apart = (5, 10);

    /// <summary>Pull of two coaxial discs whose faces are a gap apart, N, positive: unlike poles face each other; gap &gt;= 0 mm.</summary>
    public static double CoaxialN(Disc lower, Disc upper, double gap)
    {
        double sum = 0;
        for (int i = 0; i < 2; i++)
        {
            for (int j = 0; j < 2; j++)
            {
                double sign = (i + j) % 2 == 0 ? -1 : 1;
                double apart = gap + (i * lower.Thickness) + (j * upper.Thickness);
                sum += sign * Term(lower.Radius, upper.Radius, apart);
            }
        }
        return lower.RemanenceT * upper.RemanenceT / (2 * VacuumPermeability) * sum * 1e-6;
    }

    /// <summary>
    /// Axial pull (positive together) and sideways force on the upper disc (positive away from the lower disc's axis), N, when
    /// the axes are offset mm apart and the faces a gap apart. A gap below zero is allowed where the discs stand side by side:
    /// -thickness puts the middles of equal discs level. Negative sideways pulls it back over the lower disc. To about 0.1 % for
    /// gaps from a tenth of the radius up.
    /// </summary>
    public static (double Pull, double Sideways) OffsetN(Disc lower, Disc upper, double gap, double offset) =>
        OffsetN(lower, upper, gap, offset, offset >= lower.Radius + upper.Radius ? Apart : Near);

    /// <summary>The same from as many nodes (along the radius, round half a turn) as asked for.</summary>
    internal static (double Pull, double Sideways) OffsetN(
        Disc lower,
        Disc upper,
        double gap,
        double offset,
        (int Radial, int Angular) nodes
    )
    {
        double near = (lower.Thickness / 2) + gap;
        (double sideNear, double axialNear) = FaceIntegral(lower, upper.Radius, offset, near, nodes);
        (double sideFar, double axialFar) = FaceIntegral(lower, upper.Radius, offset, near + upper.Thickness, nodes);
        double charge = upper.RemanenceT / VacuumPermeability * 1e-6;
        return (charge * (axialNear - axialFar), charge * (sideFar - sideNear));
    }

    private static double Term(double r1, double r2, double apart)
    {
        double a1 = Math.Max(apart, 1e-9 * (r1 + r2));
        double difference = r1 - r2;
        double a2 = 1 + (difference * difference / (a1 * a1));
        double a3 = Math.Sqrt(((r1 + r2) * (r1 + r2)) + (a1 * a1));
        double m = Math.Min(4 * r1 * r2 / (a3 * a3), 1 - 1e-15);
        double bracket = Elliptic.K(m) - (Elliptic.E(m) / a2);
        if (difference != 0)
        {
            bracket += ((a1 * a1 / (a3 * a3)) - 1) * Elliptic.Pi(m / (1 - a2), m);
        }
        return a1 * a2 * a3 * bracket;
    }

    private static (double Side, double Axial) FaceIntegral(
        Disc source,
        double radius,
        double offset,
        double height,
        (int Radial, int Angular) nodes
    )
    {
        double side = 0;
        double axial = 0;
        foreach ((double r, double weight) in GaussLegendre.On(nodes.Radial, 0, radius))
        {
            for (int k = 0; k < nodes.Angular; k++)
            {
                double angle = Math.PI * (k + 0.5) / nodes.Angular;
                double x = offset + (r * Math.Cos(angle));
                double y = r * Math.Sin(angle);
                double rho = Math.Max(Math.Sqrt((x * x) + (y * y)), 1e-9);
                (double radial, double up) = MagnetField.AtT(source, rho, height);
                double area = weight * r * 2 * Math.PI / nodes.Angular;
                side += area * radial * x / rho;
                axial += area * up;
            }
        }
        return (side, axial);
    }
}
