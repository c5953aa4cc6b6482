using System.Collections.Immutable;

namespace FixtureGen.Model;

/// <summary>How a held thing gives way first when the load grows.</summary>
public enum HoldMode
{
    /// <summary>It moves or turns in the plane of contact: friction is used up.</summary>
    Slide,

    /// <summary>It comes off as a whole: nothing presses it down any more.</summary>
    Lift,

    /// <summary>It turns over an edge of its support, with one side still down.</summary>
    Tip,

    /// <summary>A stop gives way: a pin tears its hole, or a bridge to the scrap breaks.</summary>
    Stop,
}

/// <summary>
/// The least load multiplier along the trim and where it is, in the worst corner of all ranges; finite, 0..999. Factor asks
/// "does it stay put": no slip at all. Governs says what sets it.
/// </summary>
public sealed record HoldAnswer(double Factor, HoldMode Mode, Point2 At, string Governs)
{
    /// <summary>The same with every range at its nominal value, for information; never below Factor.</summary>
    public double Nominal { get; init; }

    /// <summary>"Does it stay": the least multiplier once the part has slipped onto its stops; never below Factor.</summary>
    public double Stays { get; init; }

    /// <summary>How the part gives way at Stays.</summary>
    public HoldMode StaysMode { get; init; }

    /// <summary>Which ends of the ranges make Factor the least, in words.</summary>
    public string Corner { get; init; } = "";
}

/// <summary>How a stop pushes back.</summary>
public enum StopKind
{
    /// <summary>A pin in a round hole: holds every way in the plane.</summary>
    Pin,

    /// <summary>A pin in a slot: holds across the slot, both ways.</summary>
    Slot,

    /// <summary>A bridge of the shell to its scrap, which the pins hold: every way in the plane.</summary>
    Tab,

    /// <summary>The wall of a nest or plug: holds against its normal, one way.</summary>
    Wall,
}

/// <summary>
/// Something that stops the shell from sliding once it has moved by Clearance (mm, 0 and up), with at most Strength (N, above 0).
/// Normal is the unit direction it pushes the shell (a slot: across it, either sign); zero where it holds every way.
/// </summary>
public sealed record ShellStop(
    StopKind Kind,
    string Name,
    Point2 At,
    Point2 Normal,
    double ClearanceMm,
    double StrengthN
);

/// <summary>One step of the trim path with its four factors, in the order of cutting.</summary>
/// <param name="Cut">Name of the trim cut.</param>
/// <param name="Along">Way from the cut's start, mm.</param>
/// <param name="At">The cutter's middle, plate frame mm.</param>
/// <param name="LoadN">The cutting load along the shell, full.</param>
/// <param name="VacuumOnly">Under full load, no magnets.</param>
/// <param name="MagnetsStopping">Seal lost, under the load left while the machine stops.</param>
/// <param name="MagnetsFullLoad">Seal lost, under full load.</param>
/// <param name="Both">Under full load; never below either alone.</param>
public sealed record HoldSample(
    string Cut,
    double Along,
    Point2 At,
    double LoadN,
    double VacuumOnly,
    double MagnetsStopping,
    double MagnetsFullLoad,
    double Both
);

/// <summary>Forces in N, levels in kPa (vacuum, gauge), lengths in mm.</summary>
public sealed record HoldingResult
{
    /// <summary>What holds the shell: where it is magnets, VacuumOnly is 0, MagnetsOnly is what the house limit is for, and Both the same.</summary>
    public HoldBy HoldBy { get; init; }

    /// <summary>The local atmosphere (absolute).</summary>
    public required double AtmosphereKPa { get; init; }

    /// <summary>The alarm level, or what there is where that is less. Factors are for its lower end.</summary>
    public required double VacuumKPa { get; init; }

    /// <summary>What the pump settles at with the leak.</summary>
    public required double PumpKPa { get; init; }

    /// <summary>Vacuum on the sealed area; the cords' push is not taken off.</summary>
    public required double SealedForceN { get; init; }

    /// <summary>What the cords push back with the shell down.</summary>
    public required double GasketForceN { get; init; }

    /// <summary>Derated pull of all pairs.</summary>
    public required double MagnetForceN { get; init; }

    /// <summary>The greatest load along the shell of any cut.</summary>
    public required double CuttingForceN { get; init; }

    /// <summary>How high the cords hold the shell up on the magnets alone; 0 without magnets.</summary>
    public required double LiftMm { get; init; }

    /// <summary>Where the field of all discs together has fallen to 0.5 mT; 0 without magnets.</summary>
    public required double ImplantDistanceMm { get; init; }

    /// <summary>On the vacuum alone at the alarm level.</summary>
    public required HoldAnswer VacuumOnly { get; init; }

    /// <summary>On the magnets alone under the full cutting load.</summary>
    public required HoldAnswer MagnetsOnly { get; init; }

    /// <summary>On the magnets alone while the machine stops.</summary>
    public required HoldAnswer MagnetsStopping { get; init; }

    /// <summary>On vacuum and magnets; never below either.</summary>
    public required HoldAnswer Both { get; init; }

    /// <summary>Every step along every cut, in the order of cutting.</summary>
    public required ImmutableArray<HoldSample> Samples { get; init; }

    /// <summary>Derated pull of each pair, in the order of the design's magnets.</summary>
    public required ImmutableArray<double> MagnetShareN { get; init; }

    /// <summary>The stops that count while the outline is cut, and before it.</summary>
    public ImmutableArray<ShellStop> Stops { get; init; } = [];

    /// <summary>How far off its place the shell may lie before its stops hold it, mm, at its farthest point; 0 without stops.</summary>
    public double ShiftMm { get; init; }

    /// <summary>How far the shell sinks into grooves and pockets, and what that strains.</summary>
    public ImmutableArray<Dimple> Dimples { get; init; } = [];

    /// <summary>How many times over the weakest jacket holds against the wind of the tool; 999 without magnets.</summary>
    public double JacketGrip { get; init; } = 999;
}

/// <summary>
/// The shell bent by the pump's full vacuum over an opening of the block: its name, the span (groove's width or pocket's
/// diameter), sag and room below it in mm, greatest bending stress in N/mm2.
/// </summary>
public sealed record Dimple(string Feature, double SpanMm, double SagMm, double RoomMm, double StressMPa)
{
    /// <summary>True over a round opening, false along a groove.</summary>
    public bool Round { get; init; }
}

/// <summary>Holding of the block during one operation; Bolted after the stop for bolts.</summary>
/// <param name="Operation">Its name.</param>
/// <param name="Factor">The least over the places and directions of its cut, 0 to 999.</param>
/// <param name="Mode">How the block gives way first.</param>
/// <param name="LoadN">The load that goes with it.</param>
public sealed record BlockHold(string Operation, double Factor, HoldMode Mode, bool Bolted, double LoadN);

/// <summary>
/// The hold with one direction of the trim cutter's helix: AxialN is the peak pull on the shell away from the block (negative
/// presses it down); the factors are the least along the trim. InRack says that such a cutter stands in the changer.
/// </summary>
public sealed record DirectionTrial(
    HelixDirection Helix,
    string Cutter,
    bool InRack,
    double AxialN,
    double VacuumOnly,
    double MagnetsStopping,
    bool MeetsLimits
)
{
    /// <summary>Staying put on magnets alone under the full load, where they are the hold; else null.</summary>
    public double? MagnetsOnly { get; init; }
}

/// <summary>Upcut, downcut or straight: what the trim is cut with, what the others would give, and why.</summary>
public sealed record CutDirection(
    HelixDirection Helix,
    bool Stated,
    ImmutableArray<DirectionTrial> Trials,
    string Reason
);
