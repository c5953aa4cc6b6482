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
}

/// <summary>The least load multiplier along the trim and where it is; Factor is finite, 0..999. Governs says what sets it.</summary>
public sealed record HoldAnswer(double Factor, HoldMode Mode, Point2 At, string Governs);

/// <summary>One step of the trim path with its three factors, in the order of cutting.</summary>
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
public sealed record HoldingResult(
    double AtmosphereKPa,
    double VacuumKPa,
    double PumpKPa,
    double SealedForceN,
    double GasketForceN,
    double MagnetForceN,
    double CuttingForceN,
    double LiftMm,
    double ImplantDistanceMm,
    HoldAnswer VacuumOnly,
    HoldAnswer MagnetsOnly,
    HoldAnswer MagnetsStopping,
    HoldAnswer Both,
    ImmutableArray<HoldSample> Samples,
    ImmutableArray<double> MagnetShareN
);

/// <summary>Holding of the block during one operation; Bolted after the stop for bolts.</summary>
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
);

/// <summary>Upcut, downcut or straight: what the trim is cut with, what the others would give, and why.</summary>
public sealed record CutDirection(
    HelixDirection Helix,
    bool Stated,
    ImmutableArray<DirectionTrial> Trials,
    string Reason
);
