using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Shape;

namespace FixtureGen.Verify.Facts;

/// <summary>
/// Whether a form that the vacuum pulls on stands without a plug: caps by the clamped spherical cap's design value (NASA SP-8032,
/// 4.2.1.1), round walls by the cone's (NASA SP-8019, from memory), flat walls and tops as simply supported plates by Levy's single
/// series (Timoshenko and Woinowsky-Krieger, art. 30, from memory). Thinnest shell, least modulus, all that the pump can reach. mm, N/mm2.
/// </summary>
internal static class BearingFacts
{
    /// <summary>Over what the pump reaches, the least that stands alone (common practice, no source).</summary>
    private const double Margin = 2;

    /// <summary>A quarter of yield, for creep (common practice, no source).</summary>
    private const double MostStress = 10;

    /// <summary>The thinnest place of a drawn wall over what an even stretch leaves (common practice, no source).</summary>
    private const double Thinnest = 0.8;

    /// <summary>Two reckonings of the same may differ by so much.</summary>
    private const double Same = 0.01;

    /// <summary>A contour that is off a circle by more is none.</summary>
    private const double Round = 0.06;

    private sealed record Sheet(double T, double E, double V, double Yield, double Load);

    /// <summary>Of a form that no plug carries: says so where it does not bear the vacuum.</summary>
    public static void Check(FactRun facts, FormRegion form, ImmutableArray<Piece> edge)
    {
        Area area = new(edge);
        if (!facts.Design.Zones.Any(z => new Area(z.Boundary).Contains(edge[0].PointAt(0.5))))
        {
            return;
        }
        if (facts.Job.ShellMaterial.Sheet is not { } stated)
        {
            FactFindings.Unsupported(facts, area.Bounds.Middle, 0, Margin, "the shell's material states no sheet");
            return;
        }
        double t = form.ThicknessMin ?? Drawn(form, edge, facts.Job.Shell.ThicknessMin);
        double load = Holding.VacuumAt.DeadHead(facts.Job.Vacuum) / 1000;
        Sheet sheet = new(t, stated.ModulusMPa.Least, stated.Poisson, stated.YieldMPa, load);
        (double margin, double stress) = Bears(form, edge, area, sheet);
        if (margin < Margin * (1 - Same) || stress > MostStress * (1 + Same))
        {
            string why =
                margin < Margin
                    ? "it may buckle"
                    : FormattableString.Invariant($"it is strained by {stress:0.#} N/mm2");
            FactFindings.Unsupported(facts, area.Bounds.Middle, margin, Margin, why);
        }
    }

    private static (double Margin, double Stress) Bears(
        FormRegion form,
        ImmutableArray<Piece> edge,
        Area area,
        Sheet sheet
    )
    {
        (double h, double slope) = (form.Height, form.DraftDeg * Math.PI / 180);
        double width = area.Bounds.Width;
        double depth = area.Bounds.Height;
        bool round = edge.All(p => Math.Abs(p.PointAt(0.5).DistanceTo(area.Bounds.Middle) - (width / 2)) < Round);
        if (form.Top == FormTop.Cap && round)
        {
            double radius = (((width * width / 4) + (h * h)) / (2 * h)) + (sheet.T / 2);
            double sine = Math.Sin(Math.Min(Math.PI / 4, Math.Atan(2 * h / width)));
            double lambda =
                2 * sine * Math.Sqrt(radius / sheet.T) * Math.Sqrt(Math.Sqrt(12 * (1 - (sheet.V * sheet.V))));
            double classical = 2 * sheet.E * Math.Pow(sheet.T / radius, 2) / Math.Sqrt(3 * (1 - (sheet.V * sheet.V)));
            if (lambda > 2)
            {
                return (((3.2 / (lambda * lambda)) + 0.14) * classical / sheet.Load, 0);
            }
            double shallow = Disc(width / 2, sheet);
            return (sheet.Yield / shallow, shallow);
        }
        double inward = h * Math.Tan(slope);
        if (round)
        {
            double head = Math.Max(0, (width / 2) - inward);
            double tall = slope > 0 ? Math.Min(h, width / 2 / Math.Tan(slope)) : h;
            double mean = ((width / 2) + head) / (2 * Math.Cos(slope));
            double wall = 0.69 * sheet.E * mean * Math.Cos(slope) / tall * Math.Pow(sheet.T / mean, 2.5);
            double disc = Disc(head, sheet);
            return (Math.Min(wall / sheet.Load, disc > 0 ? sheet.Yield / disc : double.MaxValue), disc);
        }
        double stress = Panel(Math.Max(width, depth), h / Math.Cos(slope), sheet);
        double smaller = Math.Min(width, depth) - (2 * inward);
        stress = smaller > 0 ? Math.Max(stress, Panel(width - (2 * inward), depth - (2 * inward), sheet)) : stress;
        return (sheet.Yield / stress, stress);
    }

    private static double Disc(double radius, Sheet s) => 0.375 * (3 + s.V) * s.Load * Math.Pow(radius / s.T, 2);

    /// <summary>Greatest bending stress in the middle of a plate a x b whose edges may turn.</summary>
    private static double Panel(double a, double b, Sheet s)
    {
        (double xx, double yy) = (0, 0);
        for (int m = 1; m < 200; m += 2)
        {
            double alpha = m * Math.PI * b / (2 * a);
            double cosh = Math.Cosh(alpha);
            double bulk = (m % 4 == 1 ? 4 : -4) / (Math.Pow(Math.PI, 5) * Math.Pow(m, 5));
            double turn = alpha * Math.Tanh(alpha) / (2 * cosh);
            xx += bulk * Math.Pow(m * Math.PI / a, 2) * (1 - turn - (1 / cosh));
            yy += bulk * 4 * alpha * alpha / (b * b) * turn;
        }
        double scale = s.Load * Math.Pow(a, 4);
        double moment = scale * Math.Max(xx + (s.V * yy), yy + (s.V * xx));
        return 6 * moment / (s.T * s.T);
    }

    private static double Drawn(FormRegion form, ImmutableArray<Piece> edge, double sheet)
    {
        double foot = Holding.Patches.AreaOf([Region.From(form.Edge)]);
        double more =
            form.Top == FormTop.Cap ? Math.PI * form.Height * form.Height : edge.Sum(p => p.Length) * form.Height;
        return Thinnest * sheet * Math.Abs(foot) / (Math.Abs(foot) + more);
    }
}
