using FixtureGen.Model;

namespace FixtureGen.Verify.Holding;

/// <summary>
/// The pull of a disc in the block on its partner above the shell, both magnetised the same way up, N; lengths mm, Br in tesla. By
/// the surface charges of uniformly magnetised discs: F = pi Br^2 R^2 / mu0 Int J1(q)^2 / q J0(q s / R) e^(-q g / R) (1 - e^(-q t / R))^2 dq
/// for faces a gap g and axes s apart (Bessel's form of the coaxial force after Vokoun and others, JMMM 321, 2009, 3758).
/// </summary>
internal sealed class DiscPair(double radius, double thickness, double remanenceT)
{
    /// <summary>What the ideal magnet pulls more than a real one: 15 % off; common practice, no source.</summary>
    private const double Derating = 0.85;

    /// <summary>Remanence falls by so much a kelvin; a warm shop and warm chips are 20 K above the table's 20 C (grade tables).</summary>
    private const double PerKelvin = 0.0012;

    private const double Warmer = 20;
    private const double Mu0 = 4e-7 * Math.PI;
    private const double Step = 0.1;
    private const int Steps = 1000;

    private static readonly double[] Weights = [.. Enumerable.Range(0, Steps).Select(i => Weight((i + 0.5) * Step))];

    /// <summary>The weakest disc that the shop's file allows.</summary>
    public static DiscPair Weakest(MagnetSpec spec) =>
        new((spec.Diameter - spec.DiameterTolerance) / 2, spec.Thickness, spec.BrMinT * (1 - (PerKelvin * Warmer)));

    /// <summary>Between the faces with the thickest shell down: recess, glue, both platings, the jacket's floor, mm.</summary>
    public static double Gap(Job job) =>
        job.Shell.ThicknessMax
        + job.Rules.MagnetRecess
        + job.Rules.MagnetGlue
        + (2 * job.Magnet.Plating)
        + job.Magnet.JacketFloor;

    /// <summary>What is counted of the pull at a gap above 0 and an offset of the axes, mm.</summary>
    public double PullN(double gap, double aside) => Derating * ForceN(gap, aside);

    /// <summary>The ideal force at a gap above 0, N.</summary>
    public double ForceN(double gap, double aside)
    {
        double g = gap / radius;
        double t = thickness / radius;
        double s = aside / radius;
        double sum = 0;
        for (int i = 0; i < Steps; i++)
        {
            double q = (i + 0.5) * Step;
            double decay = Math.Exp(-q * g);
            if (decay < 1e-12)
            {
                break;
            }
            double far = 1 - Math.Exp(-q * t);
            sum += Weights[i] * decay * far * far * (s > 0 ? Bessel.J0(q * s) : 1);
        }
        return Math.PI * remanenceT * remanenceT * radius * radius * 1e-6 / Mu0 * sum * Step;
    }

    /// <summary>
    /// What the disc of another place adds to a partner's pull, N, derated, mostly below 0; the faces are a gap apart and the axes so
    /// far aside, at least two diameters. Each face is eight charges on a ring of the face's own mean square radius.
    /// </summary>
    public double NeighbourN(double gap, double aside)
    {
        const int Around = 8;
        double ring = radius / Math.Sqrt(2);
        double charge = remanenceT * Math.PI * radius * radius * 1e-6 / Around;
        double sum = 0;
        for (int i = 0; i < Around * Around; i++)
        {
            (double s1, double c1) = Math.SinCos(2 * Math.PI * (i / Around) / Around);
            (double s2, double c2) = Math.SinCos(2 * Math.PI * ((i % Around) + 0.5) / Around);
            double x = aside + (ring * (c2 - c1));
            double y = ring * (s2 - s1);
            double flat = (x * x) + (y * y);
            sum += Term(flat, gap) - (2 * Term(flat, gap + thickness)) + Term(flat, gap + (2 * thickness));
        }
        return Derating * charge * charge / (4 * Math.PI * Mu0) * sum * 1e6;
    }

    /// <summary>How far a partner may be pushed aside before its pull has fallen by a share, mm, at most the disc's radius.</summary>
    public double SlipFor(double gap, double share)
    {
        double wanted = (1 - share) * ForceN(gap, 0);
        (double low, double high) = (0, radius);
        for (int i = 0; i < 12; i++)
        {
            double slip = (low + high) / 2;
            (low, high) = ForceN(gap, slip) > wanted ? (slip, high) : (low, slip);
        }
        return low;
    }

    private static double Term(double flat, double z) => z / Math.Pow(flat + (z * z), 1.5);

    private static double Weight(double q)
    {
        double j = Bessel.J1(q);
        return j * j / q;
    }
}
