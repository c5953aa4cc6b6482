using FixtureGen.Shop.Reading;
using static FixtureGen.Shop.Reading.PlausibleRange;

namespace FixtureGen.Shop.Files;

/// <summary>What a disc's and a jacket's figures may be; remanence by grade is <see cref="MagnetGrades"/>.</summary>
internal static class MagnetRanges
{
    private const string Sintered = "sintered NdFeB, ASTM A1101: 1.08 to 1.5 T";

    public static PlausibleRange BrMin { get; } = Number("br_min_t", 0.1, 1.08, 1.45, 1.5, Sintered);

    public static PlausibleRange BrMax { get; } = Number("br_max_t", 0.1, 1.08, 1.5, 1.55, Sintered);

    public static PlausibleRange Diameter { get; } = Length("diameter", 1, 3, 40, 60, "trade lists");

    public static PlausibleRange Thickness { get; } = Length("thickness", 0.5, 1, 25, 60, "trade lists");

    public static PlausibleRange DiameterTolerance { get; } =
        Length("diameter_tolerance", 0.005, 0.03, 0.2, 1, "0.1 mm either way (common practice)");

    /// <summary>mm of one face: with the recess, the glue and the jacket's floor it makes the gap, and none is 0.</summary>
    public static PlausibleRange Plating { get; } =
        Length("plating", 0.003, 0.008, 0.05, 0.2, "nickel, copper, nickel 0.010 to 0.025 mm, from memory");

    public static PlausibleRange MaxTemperature { get; } =
        Number("max_temperature_c", 40, 60, 240, 350, "grade lists, 70 (bare N) to 200 (EH)");

    public static PlausibleRange JacketFloor { get; } =
        Length("jacket_floor", 0.1, 0.3, 1.5, 5, "two to six printed layers (common practice)");
}
