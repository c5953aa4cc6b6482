using FixtureGen.Shop.Reading;
using static FixtureGen.Shop.Reading.PlausibleRange;

namespace FixtureGen.Shop.Jobs;

/// <summary>What a job's own figures may be, as far as a hold rests on them.</summary>
internal static class JobRanges
{
    private const string Practice = "common practice, no source";
    private const string House = "house limits (common practice, no source)";
    private const string Sheet = "sheet is sold 10 % either way and forms thinner (trade pages)";

    public static PlausibleRange ShellThickness { get; } =
        Length("thickness", 0.2, 0.5, 6.5, 12, "thermoformed shells 1 to 3.2 mm (common practice)");

    /// <summary>mm, of a nominal thickness in mm: no sheet has its nominal thickness all over.</summary>
    public static PlausibleRange ThicknessMax(double nominal) =>
        Length("thickness_max", 1.01 * nominal, 1.05 * nominal, 1.25 * nominal, 1.6 * nominal, Sheet);

    /// <summary>mm, of a nominal thickness in mm: a deep draw leaves a third.</summary>
    public static PlausibleRange ThicknessMin(double nominal) =>
        Length("thickness_min", 0.25 * nominal, 0.7 * nominal, 0.95 * nominal, 0.99 * nominal, Sheet);

    public static PlausibleRange SlackMin { get; } = Length("slack_min", 0, 0, 1, 5, Practice);

    /// <summary>mm: a shell that lies exactly where it should does not exist.</summary>
    public static PlausibleRange SlackMax { get; } = Length("slack_max", 0.02, 0.1, 1, 5, Practice);

    /// <summary>A worn edge's force over a sharp one's.</summary>
    public static PlausibleRange Dull { get; } = Number("dull_factor", 1, 1.5, 2, 5, Practice);

    public static PlausibleRange VacuumFactor { get; } = Number("vacuum_factor", 1, 2, 5, 100, House);

    public static PlausibleRange MagnetFactor { get; } = Number("magnet_factor", 1, 1, 3, 100, House);

    public static PlausibleRange BlockFactor { get; } = Number("block_factor", 1, 2, 5, 100, House);

    /// <summary>mm: a disc that is flush is ground away by the shell, and its gap is none.</summary>
    public static PlausibleRange MagnetRecess { get; } =
        Length("magnet_recess", 0.02, 0.1, 0.5, 5, "0.13 to 0.25 mm (common practice)");

    public static PlausibleRange MagnetGlue { get; } = Length("magnet_glue", 0.01, 0.05, 0.3, 2, Practice);

    public static PlausibleRange TabLength { get; } = Length("tab_length", 0.5, 2, 10, 50, Practice);

    public static PlausibleRange TabThickness { get; } = Length("tab_thickness", 0.05, 0.2, 1.5, 10, Practice);

    public static PlausibleRange LocatorPin { get; } = Length("locator_pin_diameter", 1, 3, 10, 20, Practice);

    /// <summary>mm, on the diameter.</summary>
    public static PlausibleRange LocatorClearance { get; } =
        Length("locator_hole_clearance", 0.02, 0.1, 0.6, 3, "formed holes 0.25 mm either way (trade pages)");

    public static PlausibleRange LocatorProjection { get; } = Length("locator_pin_projection", 0.5, 1, 6, 20, Practice);

    public static PlausibleRange RunningClearance { get; } = Length("running_clearance", 0.02, 0.1, 1, 5, Practice);

    /// <summary>mm: a zone is pumped through its grooves, and the shell's own roughness carries air only so far.</summary>
    public static PlausibleRange NetReach { get; } = Length("net_reach", 2, 5, 40, 200, Practice);
}
