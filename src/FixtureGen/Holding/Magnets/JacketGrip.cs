using FixtureGen.Cutting;
using FixtureGen.Model;

namespace FixtureGen.Holding.Magnets;

/// <summary>
/// Whether the loose jackets stay where they are in the wind of the spinning tool: air that moves as fast as the rim of whatever
/// turns, an upper bound that no air beside it reaches, presses on the jacket's side with 1/2 rho v^2 Cd A (Cd 1.2 of a cylinder across
/// the wind, from memory). Friction at its least holds it from sliding, its own pull from tipping.
/// </summary>
internal static class JacketGrip
{
    private const double AirKgPerM3 = 1.2;
    private const double Drag = 1.2;

    /// <summary>Less than this many times the wind is a finding (common practice, no source).</summary>
    public const double Least = 2;

    /// <summary>How many times over the weakest pair (N) holds its jacket, 0 to 999.</summary>
    public static double Margin(Job job, double pullN, double friction)
    {
        double wind = Wind(job);
        double sliding = friction * pullN / wind;
        double tipping = pullN * (job.Magnet.JacketDiameter / 2) / (wind * job.Magnet.JacketHeight / 2);
        return Math.Clamp(Math.Min(sliding, tipping), 0, 999);
    }

    /// <summary>The most that the wind pushes on one jacket, N.</summary>
    public static double Wind(Job job)
    {
        Tool tool = job.TrimTool;
        double rim = Math.PI * Math.Max(tool.HolderDiameter, tool.Diameter) / 1000 * TrimFeeds.For(job, tool).Rpm / 60;
        double area = job.Magnet.JacketDiameter * job.Magnet.JacketHeight / 1e6;
        return 0.5 * AirKgPerM3 * rim * rim * Drag * area;
    }
}
