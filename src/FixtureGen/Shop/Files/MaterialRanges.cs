using FixtureGen.Shop.Reading;
using static FixtureGen.Shop.Reading.PlausibleRange;

namespace FixtureGen.Shop.Files;

/// <summary>What a material's figures may be, by class: a plastic is soft and slippery beside a metal.</summary>
internal static class MaterialRanges
{
    private const string Practice = "common practice, no source";

    /// <summary>m/min. Carbide in plastics and in aluminium; slower cuts are possible, far faster ones are not on a small spindle.</summary>
    public static PlausibleRange Speed(string key, bool plastic) =>
        plastic
            ? new(key, Quantity.Speed, 20, 90, 510, 1500, "plastics trade milling guide, 300 to 1640 ft/min")
            : new(key, Quantity.Speed, 15, 240, 460, 1500, "carbide end-mill chart for 6061, 800 to 1500 ft/min");

    /// <summary>N/mm2, lower end of the range.</summary>
    public static PlausibleRange ForceFrom(bool plastic) =>
        plastic
            ? Number(
                "specific_force_from",
                30,
                45,
                200,
                400,
                "toughness model after Gent and Wang 1996; rigid plastics from memory"
            )
            : Number("specific_force_from", 150, 240, 900, 4000, "Mechanical Engineer's Data Handbook, light alloys");

    /// <summary>N/mm2, upper end of the range: what a hold is judged with.</summary>
    public static PlausibleRange ForceTo(bool plastic) =>
        plastic
            ? Number(
                "specific_force_to",
                40,
                100,
                250,
                600,
                "toughness model after Gent and Wang 1996; rigid plastics from memory"
            )
            : Number(
                "specific_force_to",
                300,
                580,
                1500,
                6000,
                "Mechanical Engineer's Data Handbook, light alloys; 700 N/mm2 at 1 mm rising to 1480 at 0.05 mm of chip"
            );

    public static PlausibleRange StepDown { get; } = Number("step_down_ratio", 0.02, 0.1, 1.0, 3, Practice);

    public static PlausibleRange StepOver { get; } = Number("step_over_ratio", 0.02, 0.1, 0.8, 1, Practice);

    public static PlausibleRange Ramp(bool plastic) =>
        plastic
            ? Number("max_ramp_deg", 0.1, 1, 15, 30, Practice)
            : Number(
                "max_ramp_deg",
                0.1,
                1,
                10,
                30,
                "end-mill guides, 2 to 5 degrees; soft metals 3 to 10 from memory"
            );

    public static PlausibleRange Expansion(bool plastic) =>
        plastic
            ? Number("expansion_per_k", 1e-5, 5e-5, 2.2e-4, 5e-4, "engineering tables, from memory")
            : Number("expansion_per_k", 1e-6, 1e-5, 3e-5, 1e-4, "engineering tables, from memory");

    /// <summary>Of a shell on a block, clean and dry.</summary>
    public static PlausibleRange Friction(string key, bool plastic) =>
        plastic
            ? Number(key, 0.05, 0.10, 0.35, 0.6, "clean and dry sheet on HDPE or acetal, from memory")
            : Number(key, 0.05, 0.15, 0.50, 0.8, "clean and dry sheet on milled 6061, from memory");

    /// <summary>The least: with dust or chips between, wet still less.</summary>
    public static PlausibleRange FrictionFrom(string key, bool plastic) =>
        plastic
            ? Number(key + "_from", 0.03, 0.08, 0.20, 0.6, "wet to dusty sheet on HDPE or acetal, from memory")
            : Number(key + "_from", 0.03, 0.10, 0.30, 0.8, "wet to dusty sheet on milled 6061, from memory");

    /// <summary>The greatest: it stands on the sheet, since more friction never holds less.</summary>
    public static PlausibleRange FrictionTo(string key, bool plastic) =>
        plastic
            ? Number(key + "_to", 0.05, 0.20, 0.50, 0.8, "clean and dry sheet on HDPE or acetal, from memory")
            : Number(key + "_to", 0.05, 0.25, 0.70, 1.0, "clean and dry sheet on milled 6061, from memory");

    /// <summary>Feed a tooth, mm, least end, for a cutter of a diameter in mm.</summary>
    public static PlausibleRange ChipFrom(bool plastic, double cutter) =>
        plastic
            ? Length("from", 0.002 * cutter, 0.007 * cutter, 0.034 * cutter, 0.1 * cutter, Charts)
            : Length("from", 0.001 * cutter, 0.004 * cutter, 0.025 * cutter, 0.05 * cutter, Charts);

    /// <summary>Feed a tooth, mm, greatest end, for a cutter of a diameter in mm.</summary>
    public static PlausibleRange ChipTo(bool plastic, double cutter) =>
        plastic
            ? Length("to", 0.004 * cutter, 0.007 * cutter, 0.048 * cutter, 0.12 * cutter, Charts)
            : Length("to", 0.002 * cutter, 0.007 * cutter, 0.032 * cutter, 0.08 * cutter, Charts);

    /// <summary>m/min at a drill's corner.</summary>
    public static PlausibleRange DrillSpeed(string key, bool plastic) =>
        plastic
            ? new(
                key,
                Quantity.Speed,
                5,
                45,
                92,
                300,
                "high-speed steel drills in plastics, 150 to 300 ft/min, from memory"
            )
            : new(
                key,
                Quantity.Speed,
                5,
                60,
                107,
                300,
                "naval training text and a light metals chart, aluminium 200 to 350 ft/min"
            );

    /// <summary>Feed a turn, mm, least end, for drills up to a diameter in mm.</summary>
    public static PlausibleRange DrillFrom(bool plastic, double upTo) =>
        plastic
            ? Length(
                "from",
                0.003 * upTo,
                0.009 * upTo,
                0.035 * upTo,
                0.1 * upTo,
                "from memory; guides print up to .015 in for small drills"
            )
            : Length("from", 0.002 * upTo, 0.007 * upTo, 0.02 * upTo, 0.05 * upTo, DrillCharts);

    /// <summary>Feed a turn, mm, greatest end, for drills up to a diameter in mm.</summary>
    public static PlausibleRange DrillTo(bool plastic, double upTo) =>
        plastic
            ? Length(
                "to",
                0.006 * upTo,
                0.014 * upTo,
                0.06 * upTo,
                0.15 * upTo,
                "from memory; guides print up to .015 in for small drills"
            )
            : Length("to", 0.004 * upTo, 0.012 * upTo, 0.026 * upTo, 0.08 * upTo, DrillCharts);

    /// <summary>N/mm2 under a washer, for weeks.</summary>
    public static PlausibleRange Sustained { get; } =
        Number(
            "sustained_pressure",
            0.5,
            4,
            200,
            400,
            "plastics a quarter to a third of the short-term compressive strength: HDPE 5 to 7, acetal 15 to 20 (from memory)"
        );

    /// <summary>Feed a tooth of a face mill or fly cutter, mm, least end.</summary>
    public static PlausibleRange FaceFrom(bool plastic) =>
        plastic
            ? Length("chip_from", 0.01, 0.08, 0.3, 0.6, FaceCharts)
            : Length("chip_from", 0.005, 0.05, 0.15, 0.4, FaceCharts);

    /// <summary>Feed a tooth of a face mill or fly cutter, mm, greatest end.</summary>
    public static PlausibleRange FaceTo(bool plastic) =>
        plastic
            ? Length("chip_to", 0.02, 0.2, 0.55, 1, FaceCharts)
            : Length("chip_to", 0.01, 0.1, 0.3, 0.6, FaceCharts);

    private const string FaceCharts =
        "facing: plastics .005 to .020 in a tooth, a milling guide's greatest 0.55 mm; aluminium .004 to .010 in (from memory)";

    private const string DrillCharts = "naval training text and a light metals chart, feed by drill diameter";

    private const string Charts = "router and end-mill chip-load charts for a cutter of this size";

    /// <summary>N/mm2.</summary>
    public static PlausibleRange Yield { get; } =
        Number("yield", 5, 20, 80, 150, "sheet makers' tables, 22 (HDPE) to 77 (rigid PVC alloy)");

    /// <summary>N/mm2; half of the short-term value, for creep under a vacuum that stands for hours.</summary>
    public static PlausibleRange ModulusFrom { get; } =
        Number("modulus_from", 50, 400, 2100, 10000, "half of sheet makers' tables, 827 (HDPE) to 4140 (rigid PVC)");

    public static PlausibleRange ModulusTo { get; } =
        Number("modulus_to", 100, 800, 4200, 10000, "sheet makers' tables, 827 (HDPE) to 4140 (rigid PVC)");

    public static PlausibleRange Poisson { get; } =
        Number("poisson", 0.2, 0.35, 0.45, 0.499, "0.37 to 0.42 from memory, 0.439 for one PVC alloy");

    public static PlausibleRange ShrinkageFrom { get; } =
        Number("shrinkage_from", 0, 0.0015, 0.020, 0.05, "mould shrinkage tables (ASTM D955 bars), 0.002 to 0.020");

    public static PlausibleRange ShrinkageTo { get; } =
        Number("shrinkage_to", 0.0005, 0.0035, 0.035, 0.06, "mould shrinkage tables (ASTM D955 bars), 0.004 to 0.035");
}
