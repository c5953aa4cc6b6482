using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Holding.Seal;

/// <summary>
/// How far the shell sinks over grooves, pockets and holes under all the vacuum that the pump can reach: the thinnest shell, the
/// softest of its material, edges free to turn, which sag most. Strip of width b: 5 p b^4 / (384 D), 0.75 p (b/t)^2 (beam tables,
/// from memory). Circle of radius a: (5 + v) / (1 + v) p a^4 / (64 D), 3 (3 + v) / 8 p (a/t)^2 (Civil Engineering Handbook,
/// 2nd ed., 47-50). D = E t^3 / (12 (1 - v^2)).
/// </summary>
internal static class Deflection
{
    /// <summary>More is a finding, mm.</summary>
    public const double MostSag = SheetStrength.MostSagMm;

    /// <summary>More is a finding, N/mm2.</summary>
    public const double MostStress = SheetStrength.MostBendingMPa;

    /// <summary>Every opening once by its name; empty where the material states no stiffness.</summary>
    public static ImmutableArray<Dimple> Over(FixtureDesign design, Job job, double pressureKPa)
    {
        if (job.ShellMaterial.Sheet is not { } sheet)
        {
            return [];
        }
        Plate plate = new(sheet, job.Shell.ThicknessMin, pressureKPa / 1000);
        return [.. design.Features.Where(f => f.Setup == Setup.Top).SelectMany(f => Over(f, plate))];
    }

    /// <summary>
    /// The widest groove, or round opening, that sags no more than <see cref="MostSag"/> and strains no more than
    /// <see cref="MostStress"/>, mm.
    /// </summary>
    public static double Widest(bool round, SheetStrength sheet, double thickness, double pressureKPa)
    {
        Plate plate = new(sheet, thickness, pressureKPa / 1000);
        Dimple unit = round ? plate.Circle("", 1, 0) : plate.Strip("", 1, 0);
        return Math.Min(Math.Pow(MostSag / unit.SagMm, 0.25), Math.Sqrt(MostStress / unit.StressMPa));
    }

    private static IEnumerable<Dimple> Over(Feature feature, Plate plate)
    {
        switch (feature)
        {
            case GrooveFeature { Kind: FeatureKind.Net or FeatureKind.GasketGroove } groove:
                yield return plate.Strip(groove.Name, groove.Width, groove.TopZ - groove.FloorZ);
                break;
            case PocketFeature { Kind: FeatureKind.MagnetPocket } pocket:
                double area = FixtureGen.Geometry.Measure.Area(pocket.Area);
                yield return plate.Circle(pocket.Name, 2 * Math.Sqrt(area / Math.PI), pocket.TopZ - pocket.FloorZ);
                break;
            case HoleFeature { Kind: FeatureKind.Port } port:
                yield return plate.Circle(port.Name, port.Diameter, port.TopZ - port.FloorZ);
                break;
        }
    }

    /// <summary>The shell as a thin plate under a pressure in N/mm2.</summary>
    private readonly struct Plate(SheetStrength sheet, double thickness, double pressure)
    {
        private double Rigidity =>
            sheet.ModulusMPa.Least * Math.Pow(thickness, 3) / (12 * (1 - (sheet.Poisson * sheet.Poisson)));

        public Dimple Strip(string name, double width, double room) =>
            new(
                name,
                width,
                5 * pressure * Math.Pow(width, 4) / (384 * Rigidity),
                room,
                0.75 * pressure * Math.Pow(width / thickness, 2)
            );

        public Dimple Circle(string name, double diameter, double room)
        {
            double a = diameter / 2;
            double v = sheet.Poisson;
            return new(
                name,
                diameter,
                (5 + v) / (1 + v) * pressure * Math.Pow(a, 4) / (64 * Rigidity),
                room,
                3 * (3 + v) / 8 * pressure * Math.Pow(a / thickness, 2)
            )
            {
                Round = true,
            };
        }
    }
}
