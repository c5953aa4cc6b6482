using System.Collections.Immutable;

namespace FixtureGen.Model;

/// <summary>What a job wants done with cutouts that are smaller than its trim cutter.</summary>
public enum SmallHoles
{
    /// <summary>Nothing is said: round ones are drilled where a drill of the rack is of their size, else the job is refused with the ways that there are.</summary>
    Unsaid,

    /// <summary>Drilled through the shell by the rack's drills, after the marks and before anything is cut loose.</summary>
    Drill,

    /// <summary>Cut by a second, thinner cutter of the rack, after a tool change.</summary>
    SecondCutter,

    /// <summary>The middle of each round hole is marked, to be drilled by hand.</summary>
    Spot,

    /// <summary>Not cut at all: what comes off the fixture has no such holes yet.</summary>
    Leave,
}

/// <summary>What a job wants done with inner corners and bays that its trim cutter leaves more of than may stay.</summary>
public enum InnerCorners
{
    /// <summary>Nothing is said: a second cutter where one of the rack reaches, told in a note; else the job is refused.</summary>
    Unsaid,

    /// <summary>A thinner cutter of the rack cuts them first; a tool change more.</summary>
    SecondCutter,

    /// <summary>The job is refused.</summary>
    Refuse,
}

/// <summary>What holds the shell on the block while it is trimmed.</summary>
public enum HoldBy
{
    /// <summary>The vacuum under a sealed zone; magnets are the second hold, should the seal be lost.</summary>
    Vacuum,

    /// <summary>Magnets alone: no cord, no port, no vacuum under the shell.</summary>
    Magnets,
}

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
/// <param name="SlackMin">The least looseness: a nest has so much room all round and a locator hole twice that over its pin, else the shell binds.</param>
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
public sealed record FormSpec(string Layer, FormDirection Direction, double Height, double DraftDeg)
{
    /// <summary>What its top is like.</summary>
    public FormTop Top { get; init; }

    /// <summary>Whether the block shall carry it.</summary>
    public PlugWish Plug { get; init; }

    /// <summary>The thinnest of its wall, mm; null where the job leaves it open.</summary>
    public double? ThicknessMin { get; init; }
}

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
/// <param name="VacuumFactor">The least factor at which the shell stays put, no slip at all, on what holds it while it is cut: on vacuum alone, or on magnets alone where those are the hold.</param>
/// <param name="MagnetFactor">The least factor at which it stays, stops counted, on magnets alone while the machine stops.</param>
/// <param name="BlockFactor">The least factor of the block while it is cut.</param>
public sealed record HouseLimits(double VacuumFactor, double MagnetFactor, double BlockFactor);

/// <summary>Depths, walls and clearances the design keeps, mm. Each is a default that the job may override.</summary>
public sealed record Rules
{
    /// <summary>The skimmed face above the plate.</summary>
    public required double FixtureHeight { get; init; }

    /// <summary>What skimming takes at the least; a block that leaves less is refused.</summary>
    public required double LeastSkim { get; init; }

    /// <summary>From the trim cutter's sweep to the relief's wall, which so stands inside the finished edge.</summary>
    public required double SideClearance { get; init; }

    /// <summary>How far the trim cutter's tip goes below the shell's underside.</summary>
    public required double TipBelowShell { get; init; }

    /// <summary>From that tip to the relief's floor: room for chips.</summary>
    public required double ReliefFloorBelowTip { get; init; }

    /// <summary>What stays beside a gasket groove for the shell to rest on.</summary>
    public required double Land { get; init; }

    /// <summary>What stays between any other two cuts.</summary>
    public required double Wall { get; init; }

    /// <summary>What stays below any pocket or groove, and between cuts from above and from below.</summary>
    public required double LeastFloor { get; init; }

    /// <summary>Of the grooves that carry the vacuum, below the face.</summary>
    public required double NetDepth { get; init; }

    /// <summary>No point of a zone is farther from such a groove; else a finding says how far it is.</summary>
    public required double NetReach { get; init; }

    /// <summary>The disc's face below the block's.</summary>
    public required double MagnetRecess { get; init; }

    /// <summary>Thickness of the glue below the disc.</summary>
    public required double MagnetGlue { get; init; }

    /// <summary>Pocket diameter over the largest disc's.</summary>
    public required double MagnetPocketClearance { get; init; }

    /// <summary>From the loose partner's jacket to cutter, shank and holder.</summary>
    public required double JacketClearance { get; init; }

    /// <summary>A slug that is smaller both ways is milled to chips; a larger one hangs on tabs.</summary>
    public required double SlugMilledBelow { get; init; }

    /// <summary>Of a bridge, along the edge.</summary>
    public required double TabLength { get; init; }

    /// <summary>Of a bridge; at most the shell's.</summary>
    public required double TabThickness { get; init; }

    /// <summary>Of the quarter circles into and out of a trim cut, at most.</summary>
    public required double LeadRadius { get; init; }

    /// <summary>Of letters and marks, in the block and in the shell.</summary>
    public required double EngraveDepth { get; init; }

    /// <summary>Outer height of the label's capitals, where there is room.</summary>
    public required double LetterHeight { get; init; }

    /// <summary>For which the pin slot is long enough, kelvin both ways.</summary>
    public required double TemperatureSwingK { get; init; }

    /// <summary>Of pins in holes of the scrap skirt.</summary>
    public required double LocatorPinDiameter { get; init; }

    /// <summary>Round and below a form that nests in its pocket.</summary>
    public required double RunningClearance { get; init; }

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
public sealed record Job
{
    /// <summary>The job file's name without .toml.</summary>
    public required string Name { get; init; }

    /// <summary>What people call the product.</summary>
    public required string Title { get; init; }

    /// <summary>The fixture's name, engraved and printed.</summary>
    public required string FixtureId { get; init; }

    /// <summary>1 and up.</summary>
    public required int Revision { get; init; }

    /// <summary>Of the trim; top and underside follow. Null until the library gives one.</summary>
    public required int? ProgramNumber { get; init; }

    /// <summary>What the drawing's numbers are in; null where the drawing is to say.</summary>
    public required LengthUnit? DrawingUnit { get; init; }

    /// <summary>For bare numbers of the job file and for what is shown.</summary>
    public required LengthUnit DisplayUnit { get; init; }

    /// <summary>Which curves of the drawing play which role.</summary>
    public required DrawingRoles Roles { get; init; }

    /// <summary>Widest gap of the drawing that is closed, mm.</summary>
    public required double Join { get; init; }

    /// <summary>The master plate.</summary>
    public required Plate Plate { get; init; }

    /// <summary>The stock that is cut.</summary>
    public required Blank Blank { get; init; }

    /// <summary>The shop's other blanks: what a remedy may name.</summary>
    public required ImmutableArray<Blank> OtherBlanks { get; init; }

    /// <summary>As measured, else the stock's nominal, mm.</summary>
    public required double BlankThickness { get; init; }

    /// <summary>Of the blank.</summary>
    public required Material BlockMaterial { get; init; }

    /// <summary>Of the part.</summary>
    public required Material ShellMaterial { get; init; }

    /// <summary>Thickness and looseness of the part.</summary>
    public required Shell Shell { get; init; }

    /// <summary>What puts the shell in its place; null where the job says nothing, which is refused.</summary>
    public required LocatorKind? Locator { get; init; }

    /// <summary>Part frame, mm.</summary>
    public required ImmutableArray<Point2> LocatorPins { get; init; }

    /// <summary>What holds the scrap outside the trim.</summary>
    public required SkirtHold Skirt { get; init; }

    /// <summary>What rises from the flange or sinks below it.</summary>
    public required ImmutableArray<FormSpec> Forms { get; init; }

    /// <summary>The rack without the trim cutter, by number.</summary>
    public required ImmutableArray<Tool> Tools { get; init; }

    /// <summary>What trims the shell.</summary>
    public required Tool TrimTool { get; init; }

    /// <summary>The stated feed; null to take it from the chart.</summary>
    public required double? TrimFeedMmPerMin { get; init; }

    /// <summary>The stated speed, rev/min; null to take it from the chart.</summary>
    public required double? TrimRpm { get; init; }

    /// <summary>The disc in the block and its loose partner.</summary>
    public required MagnetSpec Magnet { get; init; }

    /// <summary>How many are wanted, 0 and up.</summary>
    public required int MagnetCount { get; init; }

    /// <summary>Places that the job asks for.</summary>
    public required ImmutableArray<MagnetWish> Magnets { get; init; }

    /// <summary>The factor to reach with as few as do; null to place MagnetCount.</summary>
    public required double? MagnetFactorTarget { get; init; }

    /// <summary>The cord.</summary>
    public required Gasket Gasket { get; init; }

    /// <summary>Holds the block on the plate.</summary>
    public required Screw Bolt { get; init; }

    /// <summary>Locates the block on the plate.</summary>
    public required DowelPin Pin { get; init; }

    /// <summary>What the programs are written for.</summary>
    public required Control Control { get; init; }

    /// <summary>Pump, leak and alarm.</summary>
    public required VacuumSupply Vacuum { get; init; }

    /// <summary>Of the shell on the block, over the material's own; null to take that.</summary>
    public required Interval? ShellFriction { get; init; }

    /// <summary>What a worn edge adds to the cutting force, 1 and up.</summary>
    public required double DullFactor { get; init; }

    /// <summary>The house limits.</summary>
    public required HouseLimits Limits { get; init; }

    /// <summary>Depths, walls and clearances.</summary>
    public required Rules Rules { get; init; }

    /// <summary>Where the part shall lie; null to find a place.</summary>
    public required Pose? Placement { get; init; }

    /// <summary>A4 or Letter.</summary>
    public required string Paper { get; init; }

    /// <summary>Shells in a batch, 1 and up.</summary>
    public required int Quantity { get; init; }

    /// <summary>Every shop file that was used, by path below the library.</summary>
    public required ImmutableArray<string> Sources { get; init; }

    /// <summary>The changer's file, for the papers; Tools are what the job takes of it.</summary>
    public ToolRack? Rack { get; init; }

    /// <summary>False where the job leaves the trim cutter open: then it was chosen by what holds the shell in the least time.</summary>
    public bool TrimToolStated => !Open.HasFlag(OpenKeys.TrimTool);

    /// <summary>What holds the shell while it is trimmed.</summary>
    public HoldBy HoldBy { get; init; }

    /// <summary>What the job leaves for the solver to choose; None where all is stated. A solved job keeps it, so that papers can say who chose.</summary>
    public OpenKeys Open { get; init; }

    /// <summary>What becomes of cutouts that the trim cutter does not fit into.</summary>
    public SmallHoles SmallHoles { get; init; }

    /// <summary>What becomes of inner corners that the trim cutter does not reach.</summary>
    public InnerCorners InnerCorners { get; init; }

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

    /// <summary>How far the blank may be off BlankThickness either way, mm: the stock's tolerance, or where it was measured that of measuring.</summary>
    public double BlankTolerance => BlockMeasured ? MeasuringError : Blank.ThicknessTolerance;

    /// <summary>What the shell's holes over the locator pins are like.</summary>
    public LocatorHoles LocatorHoles { get; init; }

    /// <summary>The shop's other discs, by name order: what a remedy may name.</summary>
    public ImmutableArray<MagnetSpec> OtherMagnets { get; init; } = [];

    /// <summary>The shop's other cords, by name order.</summary>
    public ImmutableArray<Gasket> OtherGaskets { get; init; } = [];

    /// <summary>
    /// True for the drawing's twin: the part is the drawing with X counted the other way. Places that the job states are those of the
    /// twin.
    /// </summary>
    public bool Mirror { get; init; }

    /// <summary>
    /// True where the blank has no room for a relief that one pass of a cutter makes, so that it is only as wide as the trim needs: found
    /// when the part is placed, no key says it.
    /// </summary>
    public bool NarrowRelief { get; init; }

    /// <summary>Vacuum ports the job fixes, part frame mm: at most one for a sealed zone, which then has its hole just there.</summary>
    public ImmutableArray<Point2> Ports { get; init; } = [];
}
