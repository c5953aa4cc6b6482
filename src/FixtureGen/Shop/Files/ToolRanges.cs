using FixtureGen.Shop.Reading;
using static FixtureGen.Shop.Reading.PlausibleRange;

namespace FixtureGen.Shop.Files;

/// <summary>What the figures of cutters, fasteners and blanks may be, as far as a hold rests on them.</summary>
internal static class ToolRanges
{
    /// <summary>mm: no cutter turns exactly true.</summary>
    public static PlausibleRange RunOut { get; } =
        Length("run_out", 0.001, 0.005, 0.05, 0.5, "collets 0.005 to 0.03 mm (common practice)");

    /// <summary>Degrees, of flutes that are not straight: the pull on the shell grows with its tangent.</summary>
    public static PlausibleRange Helix { get; } =
        Number("helix_angle_deg", 1, 15, 45, 60, "end-mill catalogues (common practice)");

    /// <summary>K of torque = K x body x force.</summary>
    public static PlausibleRange NutFactor { get; } =
        Number(
            "nut_factor",
            0.08,
            0.12,
            0.30,
            0.5,
            "0.15 oiled to 0.2 dry, give or take 30 %, machine design handbooks"
        );

    /// <summary>mm, either way, of a sheet's thickness in mm.</summary>
    public static PlausibleRange BlankTolerance(double thickness) =>
        Length(
            "thickness_tolerance",
            0.01,
            0.05,
            Math.Max(0.1, 0.1 * thickness),
            Math.Max(0.1, 0.15 * thickness),
            "ground plate to sheet sold 10 % either way (trade pages)"
        );
}
