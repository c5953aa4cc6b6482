using System.Collections.Immutable;

namespace FixtureGen.Model;

/// <summary>What one shop file describes. Name is the file's without .toml: by it jobs name it.</summary>
public abstract record ShopItem(string Name)
{
    /// <summary>What people call it, for the papers; the name where the file says nothing.</summary>
    public string Description
    {
        get => field.Length > 0 ? field : Name;
        init;
    } = "";
}

/// <summary>Standard stock, mm. X by Y by thickness; the raw corner at the stops is the blank's lower left.</summary>
/// <param name="Width">Along X.</param>
/// <param name="Height">Along Y.</param>
/// <param name="ThicknessTolerance">Either way; a job may say how thick its own block was measured.</param>
public sealed record Blank(
    string Name,
    string Material,
    double Width,
    double Height,
    double Thickness,
    double ThicknessTolerance
) : ShopItem(Name);

/// <summary>One row of a chip-load chart: cutter diameter mm, least and greatest feed per tooth mm.</summary>
public sealed record ChipLoad(double Diameter, double MinMm, double MaxMm);

/// <summary>
/// A block or shell material. Surface speeds m/min; specific cutting force N/mm2 (lower and upper end of the published
/// range); ExpansionPerK in 1/K; StepDownRatio and StepOverRatio in cutter diameters; friction of the shell on it.
/// </summary>
/// <param name="SpecificForceMin">Lower end of the published range; the nominal hold takes the middle.</param>
/// <param name="MaxRampDeg">The steepest way down; the tool has a limit of its own.</param>
/// <param name="ShellFriction">Of a shell on it: least with dust and chips, nominal clean and dry, greatest for loading stops.</param>
/// <param name="IsPlastic">True: pins get bushes and chips must not rub.</param>
/// <param name="Source">Where the figures are published.</param>
public sealed record Material(
    string Name,
    double MinSpeedMPerMin,
    double MaxSpeedMPerMin,
    ImmutableArray<ChipLoad> ChipLoads,
    double SpecificForceMin,
    double SpecificForceMax,
    double StepDownRatio,
    double StepOverRatio,
    double MaxRampDeg,
    double ExpansionPerK,
    Interval ShellFriction,
    bool IsPlastic,
    string Source
) : ShopItem(Name)
{
    /// <summary>Strength and stiffness as a sheet; null where the file states none: then stops in the shell count for nothing.</summary>
    public SheetStrength? Sheet { get; init; }
}

/// <summary>What a shell's sheet bears and how stiff it is, at room temperature, short term.</summary>
/// <param name="YieldMPa">Least tensile yield stress, N/mm2, above 0.</param>
/// <param name="ModulusMPa">Young's modulus, N/mm2.</param>
/// <param name="Poisson">Poisson's ratio, 0 to 0.5.</param>
/// <param name="Shrinkage">Share by which a formed shell shrinks on cooling, between batches; 0 and up.</param>
public sealed record SheetStrength(double YieldMPa, Interval ModulusMPa, double Poisson, Interval Shrinkage);

/// <summary>What a cutter's end is like, and with it what it may do.</summary>
public enum ToolKind
{
    /// <summary>Flat end, cylindrical: pockets, grooves, bores, walls and the trim.</summary>
    EndMill,

    /// <summary>Half a sphere at the end. The judge carves with it; our own operations never take it.</summary>
    BallMill,

    /// <summary>A cone of the tip angle: straight down only, and only where the whole point passes into a relief.</summary>
    Drill,

    /// <summary>A cone of the tip angle with a small flat: strokes only.</summary>
    Engraver,
}

/// <summary>A tool's own least and greatest feed per tooth, mm, in plastics or in metals: for points that no material's chart reaches.</summary>
public sealed record OwnChipLoad(bool InPlastic, double MinMm, double MaxMm);

/// <summary>Which way a cutter's flutes pull what it cuts when it turns clockwise (M3).</summary>
public enum HelixDirection
{
    /// <summary>Upcut: pulls the shell off the block and chips out of the slot.</summary>
    Up,

    /// <summary>Downcut: presses the shell on the block and chips into the slot.</summary>
    Down,

    /// <summary>Neither: no axial pull.</summary>
    Straight,
}

/// <summary>
/// A cutter, mm and degrees. Number is its place in the changer and its length-offset number. StickOut is tip to holder
/// face. TipAngleDeg is the included angle of a drill (118, 135) or engraver; TipDiameter the engraver's flat.
/// </summary>
/// <param name="FluteLength">How deep it cuts at full width.</param>
/// <param name="ShankDiameter">What follows above the flutes.</param>
/// <param name="HelixAngleDeg">Of the flutes against the axis; 0 for straight ones.</param>
/// <param name="CentreCutting">False: it may not go straight down into the full.</param>
/// <param name="MaxStepDown">At most the flute length.</param>
/// <param name="MaxRampDeg">The steepest way down along a path.</param>
/// <param name="HolderLength">Not reckoned with: a holder counts as endlessly long.</param>
/// <param name="RunOut">How far the turning edge may stand off; the side clearance is to cover it with the slack, else a warning says so.</param>
/// <param name="MaxRpm">The cutter's own limit; the machine's counts too.</param>
public sealed record Tool(
    string Name,
    int Number,
    ToolKind Kind,
    double Diameter,
    int Flutes,
    double FluteLength,
    double ShankDiameter,
    double StickOut,
    double HolderDiameter,
    double HolderLength,
    double TipAngleDeg,
    double TipDiameter,
    HelixDirection Helix,
    double HelixAngleDeg,
    bool CentreCutting,
    double MaxStepDown,
    double MaxRampDeg,
    double RunOut,
    double MaxRpm
)
{
    /// <summary>Chip loads of the tool itself; empty where the material's chart holds. An engraver has them.</summary>
    public ImmutableArray<OwnChipLoad> ChipLoads { get; init; } = [];

    /// <summary>Of the cylinder, mm.</summary>
    public double Radius => Diameter / 2;

    /// <summary>The tool's own chip load in a material; null where that material's chart holds.</summary>
    public OwnChipLoad? ChipLoadIn(Material material) =>
        ChipLoads.FirstOrDefault(c => c.InPlastic == material.IsPlastic);

    /// <summary>Height of a drill's or engraver's cone, mm; 0 for a flat end.</summary>
    public double ConeHeight =>
        Kind is ToolKind.Drill or ToolKind.Engraver
            ? (Diameter - TipDiameter) / 2 / Math.Tan(TipAngleDeg * Math.PI / 360)
            : 0;
}

/// <summary>A disc magnet and the jacket its loose partner sits in, mm, tesla, degrees C.</summary>
/// <param name="Grade">Commercial name, for the papers.</param>
/// <param name="BrMinT">Least remanence of the grade: holding uses it.</param>
/// <param name="BrMaxT">Greatest remanence: the distance for implants uses it.</param>
/// <param name="Plating">Of one face.</param>
/// <param name="MaxTemperatureC">Above it the disc loses strength for good.</param>
/// <param name="JacketDiameter">Outside of the cap that the loose disc sits in.</param>
/// <param name="JacketHeight">Above the shell.</param>
/// <param name="JacketFloor">Between disc and shell.</param>
/// <param name="Source">Where the figures are published.</param>
public sealed record MagnetSpec(
    string Name,
    string Grade,
    double BrMinT,
    double BrMaxT,
    double Diameter,
    double DiameterTolerance,
    double Thickness,
    double Plating,
    double MaxTemperatureC,
    double JacketDiameter,
    double JacketHeight,
    double JacketFloor,
    string Source
) : ShopItem(Name);

/// <summary>What a gasket cord is made of, and with it how its squeeze is reckoned.</summary>
public enum CordKind
{
    /// <summary>Closed-cell sponge: pressed by its compression-deflection grade (ASTM D1056).</summary>
    Sponge,

    /// <summary>Solid rubber: pressed by its hardness, Shore A; it keeps its volume, so its groove may not be filled.</summary>
    Solid,
}

/// <summary>
/// Gasket cord, mm. Section is the measured diameter. Sponge: P25MinKPa/P25MaxKPa is the pressure for 25 % squeeze
/// (ASTM D1056 grade). Solid: ShoreA. SqueezeRatio 0..1. InsideBendRadius is the least radius of the groove's inside wall.
/// </summary>
/// <param name="CutAllowanceRatio">Share of its groove's length that a cord is cut longer; it is never stretched.</param>
/// <param name="FrictionShellOnCord">Least with dust or wet, greatest clean and dry.</param>
/// <param name="Source">Where the figures are published.</param>
public sealed record Gasket(
    string Name,
    CordKind Kind,
    double Section,
    double SectionTolerance,
    double SqueezeRatio,
    double GrooveWidth,
    double GrooveDepth,
    double InsideBendRadius,
    double ShoreA,
    double P25MinKPa,
    double P25MaxKPa,
    double CutAllowanceRatio,
    Interval FrictionShellOnCord,
    string Source
) : ShopItem(Name)
{
    /// <summary>How far the groove's depth may be off either way, mm, 0 and up: a shallow groove squeezes the cord more.</summary>
    public double GrooveDepthTolerance { get; init; }

    /// <summary>How far a solid cord's hardness may be off either way, Shore A.</summary>
    public double HardnessTolerance { get; init; }
}

/// <summary>A screw with its washer and hole, mm; torque N.m at nut factor NutFactor; StressArea mm2.</summary>
/// <param name="Body">Outside of the thread.</param>
/// <param name="Pitch">Not reckoned with.</param>
/// <param name="KeyEngagement">Least depth of the hexagon; not reckoned with.</param>
/// <param name="WasherDiameter">Greatest outside.</param>
/// <param name="WasherThickness">Greatest.</param>
/// <param name="ClearanceHole">Drill through the block.</param>
/// <param name="Counterbore">Takes head, washer and key.</param>
/// <param name="NutFactor">K of torque = K x body x force.</param>
/// <param name="Source">Where the figures are published.</param>
public sealed record Screw(
    string Name,
    double Body,
    double Pitch,
    double HeadDiameter,
    double HeadHeight,
    double KeyEngagement,
    double WasherDiameter,
    double WasherThickness,
    double ClearanceHole,
    double Counterbore,
    double TorqueNm,
    double NutFactor,
    double StressArea,
    string Source
) : ShopItem(Name);

/// <summary>A dowel pin standing in a plate bushing, mm. SlipHole is the block's bore; BushDiameter the bore of a bush pressed into a plastic block, 0 for none.</summary>
public sealed record DowelPin(
    string Name,
    double Diameter,
    double Projection,
    double SlipHole,
    double BushDiameter,
    double BushLength,
    string Source
) : ShopItem(Name);
