using System.Collections.Immutable;

namespace FixtureGen.Model;

/// <summary>What finds the shell's place on the block before the vacuum does.</summary>
public enum LocatorKind
{
    /// <summary>A down-going form of the shell nests in its pocket with running clearance.</summary>
    Form,

    /// <summary>Pins in the block through holes in the scrap skirt.</summary>
    Pins,

    /// <summary>Laid by hand to a line; always warned about.</summary>
    Hand,
}

/// <summary>What holds the scrap skirt outside the trim line.</summary>
public enum SkirtHold
{
    /// <summary>Bridges left in the outline cut join it to the part; they are broken by hand.</summary>
    Tabs,

    /// <summary>An outer land with its own seal loop.</summary>
    SealedLand,

    /// <summary>Clamps that the operator puts on; they are not drawn and no path is kept clear of them.</summary>
    Clamps,

    /// <summary>The skirt is cut away beforehand: there is none.</summary>
    None,
}

/// <summary>Which way a form goes from the shell's flat.</summary>
public enum FormDirection
{
    /// <summary>Away from the block: a dome that rapids must clear.</summary>
    Up,

    /// <summary>Into the block: a cup that needs a form pocket.</summary>
    Down,
}

/// <summary>The thermoformed shell; thickness, slack (looseness on the block) in mm.</summary>
/// <param name="ThicknessMax">The thickest that is formed: magnets pull through it, and the cutter takes all of it.</param>
/// <param name="SlackMin">The least looseness; a form nests with at least this.</param>
/// <param name="SlackMax">What a shell may lie off by: the side clearance is to cover it with the run-out, else a warning says so.</param>
public sealed record Shell(string Material, double Thickness, double ThicknessMax, double SlackMin, double SlackMax)
{
    /// <summary>The thinnest that is formed, mm, 0 to Thickness: a stop bears on so much of it, and it bends most.</summary>
    public double ThicknessMin
    {
        get => field > 0 ? field : Thickness;
        init;
    }
}

/// <summary>What the holes in the shell's scrap are like that go over the locator pins.</summary>
public enum LocatorHoles
{
    /// <summary>A round hole over the first pin, over the second a slot along the line of both: a shell that shrinks still goes on.</summary>
    RoundAndSlot,

    /// <summary>Round holes over every pin.</summary>
    Round,
}

/// <summary>A magnet place the job fixes, part frame mm.</summary>
/// <param name="At">Its middle.</param>
/// <param name="Locked">False: the optimiser may move it.</param>
public sealed record MagnetWish(Point2 At, bool Locked);

/// <summary>A form region's height (or depth) mm and draft, by the layer or the order it was drawn.</summary>
public sealed record FormSpec(string Layer, FormDirection Direction, double Height, double DraftDeg);

/// <summary>Layer names by role, matched without case.</summary>
public sealed record LayerRoles(
    string Outline,
    string Cutout,
    string Engrave,
    string Form,
    string Magnet,
    string KeepOut
);

/// <summary>Where, above the sea, and with what pump the fixture works; kPa are vacuum (gauge) levels.</summary>
/// <param name="AltitudeM">Metres above the sea: it caps the vacuum.</param>
/// <param name="PumpRatedKPa">What the pump reaches blanked off at sea level.</param>
/// <param name="AlarmKPa">The switch: below it nothing may run. The hold is judged at its lower end.</param>
/// <param name="PumpFlowLPerMin">Free air, litres a minute.</param>
/// <param name="LeakHoleMm">Diameter of the one hole that stands for all leaks; 0 for none.</param>
public sealed record VacuumSupply(
    double AltitudeM,
    double PumpRatedKPa,
    double AlarmKPa,
    double PumpFlowLPerMin,
    double LeakHoleMm
)
{
    /// <summary>How far below its setting the switch may trip, kPa, 0 and up.</summary>
    public double AlarmToleranceKPa { get; init; }
}

/// <summary>House limits in the worst case; common practice, no source.</summary>
/// <param name="VacuumFactor">The least factor at which the shell stays put on vacuum alone, no slip at all.</param>
/// <param name="MagnetFactor">The least factor at which it stays, stops counted, on magnets alone while the machine stops.</param>
/// <param name="BlockFactor">The least factor of the block while it is cut.</param>
public sealed record HouseLimits(double VacuumFactor, double MagnetFactor, double BlockFactor);

/// <summary>Depths, walls and clearances the design keeps, mm. Each is a default that the job may override.</summary>
/// <param name="FixtureHeight">The skimmed face above the plate.</param>
/// <param name="LeastSkim">What skimming takes at the least; a block that leaves less is refused.</param>
/// <param name="SideClearance">From the trim cutter's sweep to the relief's wall, which so stands inside the finished edge.</param>
/// <param name="TipBelowShell">How far the trim cutter's tip goes below the shell's underside.</param>
/// <param name="ReliefFloorBelowTip">From that tip to the relief's floor: room for chips.</param>
/// <param name="Land">What stays beside a gasket groove for the shell to rest on.</param>
/// <param name="Wall">What stays between any other two cuts.</param>
/// <param name="LeastFloor">What stays below any pocket or groove, and between cuts from above and from below.</param>
/// <param name="NetDepth">Of the grooves that carry the vacuum, below the face.</param>
/// <param name="NetReach">No point of a zone is farther from such a groove; else a finding says how far it is.</param>
/// <param name="MagnetRecess">The disc's face below the block's.</param>
/// <param name="MagnetGlue">Thickness of the glue below the disc.</param>
/// <param name="MagnetPocketClearance">Pocket diameter over the largest disc's.</param>
/// <param name="JacketClearance">From the loose partner's jacket to cutter, shank and holder.</param>
/// <param name="SlugMilledBelow">A slug that is smaller both ways is milled to chips; a larger one hangs on tabs.</param>
/// <param name="TabLength">Of a bridge, along the edge.</param>
/// <param name="TabThickness">Of a bridge; at most the shell's.</param>
/// <param name="LeadRadius">Of the quarter circles into and out of a trim cut, at most.</param>
/// <param name="EngraveDepth">Of letters and marks, in the block and in the shell.</param>
/// <param name="LetterHeight">Outer height of the label's capitals, where there is room.</param>
/// <param name="TemperatureSwingK">For which the pin slot is long enough, kelvin both ways.</param>
/// <param name="LocatorPinDiameter">Of pins in holes of the scrap skirt.</param>
/// <param name="RunningClearance">Round and below a form that nests in its pocket.</param>
public sealed record Rules(
    double FixtureHeight,
    double LeastSkim,
    double SideClearance,
    double TipBelowShell,
    double ReliefFloorBelowTip,
    double Land,
    double Wall,
    double LeastFloor,
    double NetDepth,
    double NetReach,
    double MagnetRecess,
    double MagnetGlue,
    double MagnetPocketClearance,
    double JacketClearance,
    double SlugMilledBelow,
    double TabLength,
    double TabThickness,
    double LeadRadius,
    double EngraveDepth,
    double LetterHeight,
    double TemperatureSwingK,
    double LocatorPinDiameter,
    double RunningClearance
)
{
    /// <summary>What the trim cutter may leave standing in a corner that it does not reach, mm; more is refused.</summary>
    public double CornerLeft { get; init; } = 0.1;

    /// <summary>A locator hole in the shell is wider than its pin by this, mm, on the diameter.</summary>
    public double LocatorHoleClearance { get; init; } = 0.2;

    /// <summary>How far a locator pin stands above the thickest shell, mm.</summary>
    public double LocatorPinProjection { get; init; } = 2;
}

/// <summary>
/// Everything a job says, checked and in mm, with its shop files resolved. Nothing downstream reads a file. Sources lists
/// every file that was really used, by path relative to the library, for staleness.
/// </summary>
public sealed record Job(
    string Name,
    string Title,
    string FixtureId,
    int Revision,
    int? ProgramNumber,
    LengthUnit? DrawingUnit,
    LengthUnit DisplayUnit,
    LayerRoles Layers,
    Plate Plate,
    Blank Blank,
    ImmutableArray<Blank> OtherBlanks,
    double BlankThickness,
    Material BlockMaterial,
    Material ShellMaterial,
    Shell Shell,
    LocatorKind? Locator,
    ImmutableArray<Point2> LocatorPins,
    SkirtHold Skirt,
    ImmutableArray<FormSpec> Forms,
    ImmutableArray<Tool> Tools,
    Tool TrimTool,
    double? TrimFeedMmPerMin,
    double? TrimRpm,
    MagnetSpec Magnet,
    int MagnetCount,
    ImmutableArray<MagnetWish> Magnets,
    double? MagnetFactorTarget,
    Gasket Gasket,
    Screw Bolt,
    DowelPin Pin,
    Control Control,
    VacuumSupply Vacuum,
    Interval? ShellFriction,
    double DullFactor,
    HouseLimits Limits,
    Rules Rules,
    Pose? Placement,
    string Paper,
    int Quantity,
    ImmutableArray<string> Sources
)
{
    /// <summary>False where the job leaves the trim cutter open: then the cutter's direction was chosen by what holds the shell.</summary>
    public bool TrimToolStated { get; init; } = true;

    /// <summary>Passes through the shell that the job fixes, 1 and up; null: as many as the material's step-down asks for.</summary>
    public int? TrimPasses { get; init; }

    /// <summary>Why a hold below a house limit is accepted; empty where it is not. Below 1 nothing is accepted.</summary>
    public string AcceptLowHold { get; init; } = "";

    /// <summary>True where the job states its blank's thickness as measured; else the stock's nominal and its tolerance count.</summary>
    public bool BlockMeasured { get; init; }

    /// <summary>How well a shop measures a sheet with a caliper, mm either way (common practice, no source).</summary>
    public const double MeasuringError = 0.1;

    /// <summary>The thickest that the blank may be, mm: no rapid and no first pass may count on less.</summary>
    public double BlankThickest => BlankThickness + BlankTolerance;

    /// <summary>The thinnest blank, mm, that still leaves something to skim.</summary>
    public double BlankLeastSafe => Rules.FixtureHeight + Rules.LeastSkim;

    /// <summary>How far the blank may be off BlankThickness either way, mm: the stock's tolerance, or where it was measured that of measuring.</summary>
    public double BlankTolerance => BlockMeasured ? MeasuringError : Blank.ThicknessTolerance;

    /// <summary>What the shell's holes over the locator pins are like.</summary>
    public LocatorHoles LocatorHoles { get; init; }

    /// <summary>The shop's other discs, by name order: what a remedy may name.</summary>
    public ImmutableArray<MagnetSpec> OtherMagnets { get; init; } = [];

    /// <summary>The shop's other cords, by name order.</summary>
    public ImmutableArray<Gasket> OtherGaskets { get; init; } = [];

    /// <summary>Vacuum ports the job fixes, part frame mm: at most one for a sealed zone, which then has its hole just there.</summary>
    public ImmutableArray<Point2> Ports { get; init; } = [];
}
