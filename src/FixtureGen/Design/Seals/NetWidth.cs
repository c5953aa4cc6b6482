using FixtureGen.Model;

namespace FixtureGen.Design.Seals;

/// <summary>
/// The net's width is an end mill's diameter, so that one pass cuts it, and at most two shell thicknesses, so that the
/// vacuum does not dimple the shell into it.
/// </summary>
internal static class NetWidth
{
    /// <summary>Wider gains no flow worth the land it takes, mm (common practice, no source).</summary>
    private const double Enough = 5;

    /// <summary>How far the port lies inside the net's room at least, mm.</summary>
    private const double Leave = 0.5;

    /// <summary>Young's modulus of thermoforming sheet (ABS, PETG, PVC), MPa; common practice, no source.</summary>
    private const double Modulus = 2000;

    private const double Poisson = 0.38;

    /// <summary>The widest end mill within the limit, else the thinnest there is; null without end mills.</summary>
    public static Tool? Choose(Job job)
    {
        Tool[] mills =
        [
            .. job
                .Tools.Where(t => t.Kind == ToolKind.EndMill && t.FluteLength >= job.Rules.NetDepth)
                .OrderBy(t => t.Diameter)
                .ThenBy(t => t.Number),
        ];
        double most = Math.Min(2 * job.Shell.Thickness, Enough);
        return mills.LastOrDefault(t => t.Diameter <= most) ?? mills.FirstOrDefault();
    }

    /// <summary>How far a magnet pocket's wall stays from a port hole's, mm, so that a groove can leave the port.</summary>
    public static double PocketFromPort(Job job, double portDiameter) =>
        Math.Max(job.Rules.Wall, job.Rules.Land + HalfPassage(job) - (portDiameter / 2));

    /// <summary>From the middle of a passage that the net runs through to its land, mm.</summary>
    public static double HalfPassage(Job job) => (Choose(job)?.Radius ?? 0) + Leave;

    public static IEnumerable<Finding> Check(Tool cutter, Job job)
    {
        double most = 2 * job.Shell.Thickness;
        if (cutter.Diameter > most + 1e-9)
        {
            double pressure = job.Vacuum.PumpRatedKPa / 1000;
            yield return ZoneFindings.NetWide(
                cutter.Diameter,
                most,
                Dimple(cutter.Diameter, job.Shell.Thickness, pressure)
            );
        }
    }

    /// <summary>
    /// Sag of a long strip with built-in edges under uniform pressure, mm: w = p b^4 / (384 D), D = E t^3 / (12 (1 - v^2))
    /// (plate theory; Timoshenko, Theory of Plates and Shells, long rectangular plate, from memory). Pressure in MPa.
    /// </summary>
    public static double Dimple(double width, double thickness, double pressureMPa)
    {
        double stiffness = Modulus * Math.Pow(thickness, 3) / (12 * (1 - (Poisson * Poisson)));
        return pressureMPa * Math.Pow(width, 4) / (384 * stiffness);
    }
}
