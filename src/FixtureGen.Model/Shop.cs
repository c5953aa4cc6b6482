using System.Collections.Immutable;

namespace FixtureGen.Model;

/// <summary>What one shop file describes. Name is the file's without .toml: by it jobs name it.</summary>
public abstract record ShopItem
{
    /// <summary>The file's without .toml: by it jobs name it.</summary>
    public required string Name { get; init; }

    /// <summary>What people call it, for the papers; the name where the file says nothing.</summary>
    public string Description
    {
        get => field.Length > 0 ? field : Name;
        init;
    } = "";
}

/// <summary>Standard stock, mm. X by Y by thickness; the raw corner at the stops is the blank's lower left.</summary>
public sealed record Blank : ShopItem
{
    /// <summary>The material's name.</summary>
    public required string Material { get; init; }

    /// <summary>Along X.</summary>
    public required double Width { get; init; }

    /// <summary>Along Y.</summary>
    public required double Height { get; init; }

    /// <summary>Nominal, mm.</summary>
    public required double Thickness { get; init; }

    /// <summary>Either way; a job may say how thick its own block was measured.</summary>
    public required double ThicknessTolerance { get; init; }
}

/// <summary>One row of a chip-load chart: cutter diameter mm, least and greatest feed per tooth mm.</summary>
public sealed record ChipLoad(double Diameter, double MinMm, double MaxMm);

/// <summary>One row of a drilling chart: drills up to this diameter, mm, and the least and greatest feed per turn, mm.</summary>
public sealed record DrillFeed(double UpTo, double MinMm, double MaxMm);

/// <summary>How a material is drilled: surface speed of the drill's corner, m/min, and the chart of feeds per turn, smallest drill first, one row at least.</summary>
public sealed record DrillChart(double MinSpeedMPerMin, double MaxSpeedMPerMin, ImmutableArray<DrillFeed> Feeds);

/// <summary>
/// How a material is faced with a face mill or fly cutter: surface speed of its teeth, m/min, and the least and greatest feed a tooth, mm.
/// </summary>
public sealed record FaceChart(double MinSpeedMPerMin, double MaxSpeedMPerMin, double MinMm, double MaxMm);

/// <summary>
/// A block or shell material. Surface speeds m/min; specific cutting force N/mm2 (lower and upper end of the published
/// range); ExpansionPerK in 1/K; StepDownRatio and StepOverRatio in cutter diameters; friction of the shell on it.
/// </summary>
public sealed record Material : ShopItem
{
    /// <summary>The least surface speed, m/min.</summary>
    public required double MinSpeedMPerMin { get; init; }

    /// <summary>The greatest surface speed, m/min.</summary>
    public required double MaxSpeedMPerMin { get; init; }

    /// <summary>The chart by cutter diameter, smallest first.</summary>
    public required ImmutableArray<ChipLoad> ChipLoads { get; init; }

    /// <summary>Null where the file has no drilling chart: then nothing is drilled in it, holes are milled.</summary>
    public DrillChart? Drilling { get; init; }

    /// <summary>What it bears under a washer for long, N/mm2: beyond, the clamp goes by creep. Null where the file says nothing.</summary>
    public double? SustainedMPa { get; init; }

    /// <summary>Null where the file has no facing chart: then no face mill is used in it, faces are skimmed by end mills.</summary>
    public FaceChart? Facing { get; init; }

    /// <summary>Lower end of the published range; the nominal hold takes the middle.</summary>
    public required double SpecificForceMin { get; init; }

    /// <summary>Upper end of the published range, N/mm2: the worst case takes it.</summary>
    public required double SpecificForceMax { get; init; }

    /// <summary>The deepest pass, in cutter diameters.</summary>
    public required double StepDownRatio { get; init; }

    /// <summary>The widest cut of clearing, in cutter diameters.</summary>
    public required double StepOverRatio { get; init; }

    /// <summary>The steepest way down; the tool has a limit of its own.</summary>
    public required double MaxRampDeg { get; init; }

    /// <summary>Linear thermal expansion, 1/K.</summary>
    public required double ExpansionPerK { get; init; }

    /// <summary>Of a shell on it: least with dust and chips, by which a hold is judged, nominal clean and dry, greatest for the sheet.</summary>
    public required Interval ShellFriction { get; init; }

    /// <summary>True: pins get bushes and chips must not rub.</summary>
    public required bool IsPlastic { get; init; }

    /// <summary>Where the figures are published.</summary>
    public required string Source { get; init; }

    /// <summary>Strength and stiffness as a sheet; null where the file states none: then stops in the shell count for nothing.</summary>
    public SheetStrength? Sheet { get; init; }
}

/// <summary>What a shell's sheet bears and how stiff it is, at room temperature, short term.</summary>
/// <param name="YieldMPa">Least tensile yield stress, N/mm2, above 0.</param>
/// <param name="ModulusMPa">Young's modulus, N/mm2.</param>
/// <param name="Poisson">Poisson's ratio, 0 to 0.5.</param>
/// <param name="Shrinkage">Share by which a formed shell shrinks on cooling, between batches; 0 and up.</param>
public sealed record SheetStrength(double YieldMPa, Interval ModulusMPa, double Poisson, Interval Shrinkage)
{
    /// <summary>More bending stress than this leaves a mark in time, N/mm2: a quarter of yield, for creep (common practice, no source).</summary>
    public const double MostBendingMPa = 10;

    /// <summary>More sag than this, mm, is a fifth of a trim tolerance of 0.5 mm (common practice, no source).</summary>
    public const double MostSagMm = 0.1;
}

/// <summary>What a cutter's end is like, and with it what it may do.</summary>
public enum ToolKind
{
    /// <summary>Flat end, cylindrical: pockets, grooves, bores, walls and the trim.</summary>
    EndMill,

    /// <summary>Half a sphere at the end. The judge carves with it; our own operations never take it.</summary>
    BallMill,

    /// <summary>Flat, wide and shallow, teeth at the rim, a fly cutter with one: skims whole faces, never goes down into material.</summary>
    FaceMill,

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
public sealed record Tool
{
    /// <summary>What people call it.</summary>
    public required string Name { get; init; }

    /// <summary>Its place in the changer and its length-offset number, 1 and up.</summary>
    public required int Number { get; init; }

    /// <summary>What its end is like.</summary>
    public required ToolKind Kind { get; init; }

    /// <summary>Of what cuts, mm.</summary>
    public required double Diameter { get; init; }

    /// <summary>How many edges, 1 and up.</summary>
    public required int Flutes { get; init; }

    /// <summary>How deep it cuts at full width.</summary>
    public required double FluteLength { get; init; }

    /// <summary>What follows above the flutes.</summary>
    public required double ShankDiameter { get; init; }

    /// <summary>From the tip to the holder's face, mm.</summary>
    public required double StickOut { get; init; }

    /// <summary>Greatest outside of the holder, mm; it counts as endlessly long, since the spindle follows.</summary>
    public required double HolderDiameter { get; init; }

    /// <summary>Included angle of a drill or engraver, degrees; 0 for others.</summary>
    public required double TipAngleDeg { get; init; }

    /// <summary>An engraver's flat, mm; 0 for others.</summary>
    public required double TipDiameter { get; init; }

    /// <summary>Which way its flutes pull.</summary>
    public required HelixDirection Helix { get; init; }

    /// <summary>Of the flutes against the axis; 0 for straight ones.</summary>
    public required double HelixAngleDeg { get; init; }

    /// <summary>False: it may not go straight down into the full.</summary>
    public required bool CentreCutting { get; init; }

    /// <summary>At most the flute length.</summary>
    public required double MaxStepDown { get; init; }

    /// <summary>The steepest way down along a path.</summary>
    public required double MaxRampDeg { get; init; }

    /// <summary>How far the turning edge may stand off; the side clearance is to cover it with the slack, else a warning says so.</summary>
    public required double RunOut { get; init; }

    /// <summary>The cutter's own limit; the machine's counts too.</summary>
    public required double MaxRpm { get; init; }

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

/// <summary>The tools in the changer, in the order of the file.</summary>
public sealed record ToolRack : ShopItem
{
    /// <summary>No two have one name or one number.</summary>
    public required ImmutableArray<Tool> Tools { get; init; }
}

/// <summary>A disc magnet and the jacket its loose partner sits in, mm, tesla, degrees C.</summary>
public sealed record MagnetSpec : ShopItem
{
    /// <summary>Commercial name, for the papers.</summary>
    public required string Grade { get; init; }

    /// <summary>Least remanence of the grade: holding uses it.</summary>
    public required double BrMinT { get; init; }

    /// <summary>Greatest remanence: the distance for implants uses it.</summary>
    public required double BrMaxT { get; init; }

    /// <summary>Of the disc, mm.</summary>
    public required double Diameter { get; init; }

    /// <summary>Either way, mm: the pocket is for the largest.</summary>
    public required double DiameterTolerance { get; init; }

    /// <summary>Of the disc, mm.</summary>
    public required double Thickness { get; init; }

    /// <summary>Of one face.</summary>
    public required double Plating { get; init; }

    /// <summary>Above it the disc loses strength for good.</summary>
    public required double MaxTemperatureC { get; init; }

    /// <summary>Outside of the cap that the loose disc sits in.</summary>
    public required double JacketDiameter { get; init; }

    /// <summary>Above the shell.</summary>
    public required double JacketHeight { get; init; }

    /// <summary>Between disc and shell.</summary>
    public required double JacketFloor { get; init; }

    /// <summary>Where the figures are published.</summary>
    public required string Source { get; init; }
}

/// <summary>What a gasket cord is made of, and with it how its squeeze is computed.</summary>
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
public sealed record Gasket : ShopItem
{
    /// <summary>What it is made of.</summary>
    public required CordKind Kind { get; init; }

    /// <summary>The measured diameter, mm.</summary>
    public required double Section { get; init; }

    /// <summary>Either way, mm.</summary>
    public required double SectionTolerance { get; init; }

    /// <summary>Share of its section that is pressed in when the shell is down, 0 to 1.</summary>
    public required double SqueezeRatio { get; init; }

    /// <summary>Of its groove, mm.</summary>
    public required double GrooveWidth { get; init; }

    /// <summary>Of its groove below the face, mm.</summary>
    public required double GrooveDepth { get; init; }

    /// <summary>Least radius of the groove's inner wall, mm.</summary>
    public required double InsideBendRadius { get; init; }

    /// <summary>Hardness of a solid cord; 0 for sponge.</summary>
    public required double ShoreA { get; init; }

    /// <summary>Least pressure for 25 % squeeze of a sponge (ASTM D1056), kPa; 0 for solid.</summary>
    public required double P25MinKPa { get; init; }

    /// <summary>Greatest pressure for 25 % squeeze of a sponge, kPa; 0 for solid.</summary>
    public required double P25MaxKPa { get; init; }

    /// <summary>Share of its groove's length that a cord is cut longer; it is never stretched.</summary>
    public required double CutAllowanceRatio { get; init; }

    /// <summary>Least with dust or wet, greatest clean and dry.</summary>
    public required Interval FrictionShellOnCord { get; init; }

    /// <summary>Where the figures are published.</summary>
    public required string Source { get; init; }

    /// <summary>How far the groove's depth may be off either way, mm, 0 and up: a shallow groove squeezes the cord more.</summary>
    public double GrooveDepthTolerance { get; init; }

    /// <summary>How far a solid cord's hardness may be off either way, Shore A.</summary>
    public double HardnessTolerance { get; init; }

    /// <summary>What a fixture has that no vacuum holds: no cord at all, every length and force 0.</summary>
    public static Gasket None { get; } =
        new()
        {
            Name = "",
            Description = "",
            Kind = CordKind.Sponge,
            Section = 0,
            SectionTolerance = 0,
            SqueezeRatio = 0,
            GrooveWidth = 0,
            GrooveDepth = 0,
            InsideBendRadius = 0,
            ShoreA = 0,
            P25MinKPa = 0,
            P25MaxKPa = 0,
            CutAllowanceRatio = 0,
            FrictionShellOnCord = default,
            Source = "",
        };
}

/// <summary>A screw with its washer and hole, mm; torque N.m at nut factor NutFactor; StressArea mm2.</summary>
public sealed record Screw : ShopItem
{
    /// <summary>Outside of the thread.</summary>
    public required double Body { get; init; }

    /// <summary>From turn to turn of the thread: it says how many turns a screw holds by, and how far its tip stays off the plate's underside.</summary>
    public required double Pitch { get; init; }

    /// <summary>Greatest outside of the head, mm.</summary>
    public required double HeadDiameter { get; init; }

    /// <summary>Greatest, mm.</summary>
    public required double HeadHeight { get; init; }

    /// <summary>Least depth of the hexagon, less than the head's height: the key must go in so far before the screw is tightened.</summary>
    public required double KeyEngagement { get; init; }

    /// <summary>Greatest outside.</summary>
    public required double WasherDiameter { get; init; }

    /// <summary>Greatest.</summary>
    public required double WasherThickness { get; init; }

    /// <summary>Drill through the block.</summary>
    public required double ClearanceHole { get; init; }

    /// <summary>Takes head, washer and key.</summary>
    public required double Counterbore { get; init; }

    /// <summary>What it is tightened to, N.m.</summary>
    public required double TorqueNm { get; init; }

    /// <summary>K of torque = K x body x force.</summary>
    public required double NutFactor { get; init; }

    /// <summary>Of the thread, mm2.</summary>
    public required double StressArea { get; init; }

    /// <summary>What the washer presses on the block with, N/mm2: torque = K x body x force, over the ring between clearance hole and washer.</summary>
    public double WasherMPa => TorqueNm * 1000 / (NutFactor * Body) / WasherArea;

    /// <summary>Of the washer, or the head where that is wider, on the block, mm2.</summary>
    public double WasherArea
    {
        get
        {
            double wide = Math.Max(WasherDiameter, HeadDiameter);
            return Math.PI / 4 * ((wide * wide) - (ClearanceHole * ClearanceHole));
        }
    }

    /// <summary>Where the figures are published.</summary>
    public required string Source { get; init; }
}

/// <summary>A dowel pin standing in a plate bushing, mm. SlipHole is the block's bore; BushDiameter the bore of a bush pressed into a plastic block, 0 for none.</summary>
public sealed record DowelPin : ShopItem
{
    /// <summary>Of the pin, mm.</summary>
    public required double Diameter { get; init; }

    /// <summary>How far it stands above the plate's face, mm.</summary>
    public required double Projection { get; init; }

    /// <summary>The block's bore, mm.</summary>
    public required double SlipHole { get; init; }

    /// <summary>The bore for a bush pressed into a plastic block, mm; 0 for none.</summary>
    public required double BushDiameter { get; init; }

    /// <summary>Of that bush, mm.</summary>
    public required double BushLength { get; init; }

    /// <summary>Where the figures are published.</summary>
    public required string Source { get; init; }
}
