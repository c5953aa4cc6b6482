using FixtureGen.Shop.Reading;
using static FixtureGen.Shop.Reading.PlausibleRange;

namespace FixtureGen.Shop.Files;

/// <summary>What a cord's figures may be.</summary>
internal static class GasketRanges
{
    /// <summary>Weakest and strongest grade of ASTM D1056 end here: 2 psi at 25 % squeeze is grade 0, 25 psi the end of grade 5; kPa.</summary>
    private const double HighestGradeKPa = 172.4;

    public static PlausibleRange Section { get; } =
        Length("section", 0.5, 1.5, 7, 15, "cord sections from 1/16 in to AS568's 0.275 in");

    /// <summary>mm, either way, of a section in mm.</summary>
    public static PlausibleRange SectionTolerance(double section) =>
        Length(
            "section_tolerance",
            0.02,
            0.07,
            Math.Max(0.25, 0.1 * section),
            Math.Max(0.5, 0.25 * section),
            "AS568 from 0.08 mm; sponge to a tenth of the section (common practice)"
        );

    public static PlausibleRange Squeeze(bool solid) =>
        solid
            ? Number(
                "squeeze_ratio",
                0.08,
                0.14,
                0.32,
                0.40,
                "face-seal chart of the O-ring handbook ORD 5700 and metric trade tables"
            )
            : Number("squeeze_ratio", 0.10, 0.25, 0.35, 0.50, "sponge practice; cells burst from 0.5 (trade guides)");

    /// <summary>mm, either way.</summary>
    public static PlausibleRange DepthTolerance { get; } =
        Length(
            "groove_depth_tolerance",
            0.005,
            0.02,
            0.13,
            0.5,
            "face-seal chart of the O-ring handbook ORD 5700, 0.05 to 0.13 mm"
        );

    public static PlausibleRange Shore { get; } =
        Number(
            "shore_a",
            20,
            30,
            90,
            95,
            "hardnesses for which line forces are published (O-ring handbook; Gent 1958)"
        );

    public static PlausibleRange ShoreTolerance { get; } =
        Number("shore_a_tolerance", 0.5, 3, 10, 20, "compounds are sold to 5 Shore A either way (common practice)");

    public static PlausibleRange P25Min { get; } =
        Number("p25_min_kpa", 0.5, 6.9, 117.3, HighestGradeKPa, "ASTM D1056 grades 0 to 5 reach 172.4 kPa (25 psi)");

    public static PlausibleRange P25Max { get; } =
        Number("p25_max_kpa", 1, 13.7, 155, HighestGradeKPa, "ASTM D1056 grades 0 to 5 reach 172.4 kPa (25 psi)");

    public static PlausibleRange CutAllowance { get; } =
        Number(
            "cut_allowance_ratio",
            0,
            0.01,
            0.02,
            0.05,
            "1 to 2 % longer than the groove, never stretched (common practice)"
        );

    public static PlausibleRange Friction { get; } =
        Number("friction_shell_on_cord", 0.05, 0.2, 1.0, 1.2, "sheet on EPDM sponge, from memory");

    /// <summary>The least: dusty or wet.</summary>
    public static PlausibleRange FrictionFrom { get; } =
        Number("friction_shell_on_cord_from", 0.05, 0.15, 0.40, 1.0, "dusty or wet sheet on EPDM sponge, from memory");

    public static PlausibleRange FrictionTo { get; } =
        Number("friction_shell_on_cord_to", 0.1, 0.5, 1.0, 1.5, "clean and dry sheet on EPDM sponge, from memory");

    /// <summary>mm, of the groove's inside wall, for a section in mm.</summary>
    public static PlausibleRange BendRadius(double section) =>
        Length("inside_bend_radius", section, 3 * section, 100, 100, "at least three sections (O-ring handbook)");
}
