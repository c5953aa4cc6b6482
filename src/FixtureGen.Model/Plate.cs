using System.Collections.Immutable;

namespace FixtureGen.Model;

/// <summary>What an opening of the plate is for.</summary>
public enum OpeningKind
{
    /// <summary>Bushing that takes the pin of the block's round hole.</summary>
    PinRound,

    /// <summary>Bushing that takes the pin of the block's slot.</summary>
    PinSlot,

    /// <summary>A threaded hole that takes a block's bolt.</summary>
    Bolt,

    /// <summary>A vacuum port in the plate's face.</summary>
    Port,
}

/// <summary>
/// An opening in the plate's face, plate frame, mm. Relief is the empty space below the face where a tool may break
/// through: a cylinder of ReliefDiameter and ReliefDepth (down, positive); both 0 where there is none. Pins are pulled for that.
/// </summary>
public sealed record PlateOpening(
    string Name,
    OpeningKind Kind,
    Point2 At,
    double Diameter,
    double ReliefDiameter,
    double ReliefDepth
);

/// <summary>
/// A point where a raw blank's edge touches, plate frame; Normal points from the stop into the blank. The stop is a round pin of
/// Diameter that stands Height above the plate's face, mm; it stays there while a cutter passes.
/// </summary>
public sealed record EdgeStop(Point2 At, Point2 Normal)
{
    /// <summary>Of the pin, mm; 1 to 100 in a plate file, 1/4 in where it says nothing.</summary>
    public double Diameter { get; init; }

    /// <summary>Of the pin above the plate's face, mm; 0 to 100 in a plate file, 1/4 in where it says nothing.</summary>
    public double Height { get; init; }
}

/// <summary>A vacuum groove in the plate's face that leads to a port: a hole in the block above it is fed. Width and depth mm.</summary>
public sealed record PlateGroove(string Port, OpenPath Run, double Width, double Depth);

/// <summary>What the machine can do. Rates in mm/min, acceleration in mm/s2, times in seconds. FeedHoldDistance is the way from the feed hold's beginning to standstill, mm.</summary>
public sealed record Machine
{
    /// <summary>What the tool's tip can reach, plate frame, mm.</summary>
    public required Box3 Travel { get; init; }

    /// <summary>Speed of a rapid, mm/min.</summary>
    public required double RapidMmPerMin { get; init; }

    /// <summary>The greatest feed, mm/min.</summary>
    public required double MaxFeedMmPerMin { get; init; }

    /// <summary>Of every axis, mm/s2.</summary>
    public required double AccelerationMmPerS2 { get; init; }

    /// <summary>The slowest that the spindle turns, rev/min.</summary>
    public required double MinSpindleRpm { get; init; }

    /// <summary>The fastest, rev/min.</summary>
    public required double MaxSpindleRpm { get; init; }

    /// <summary>What the spindle can give, kW.</summary>
    public required double SpindlePowerKw { get; init; }

    /// <summary>From cut to cut with the next tool, s.</summary>
    public required double ToolChangeSeconds { get; init; }

    /// <summary>From the feed hold's beginning to standstill, mm.</summary>
    public required double FeedHoldDistance { get; init; }

    /// <summary>From the loss of vacuum to the moment the feed hold begins to slow the machine: switch, wiring and control, seconds.</summary>
    public double VacuumReactionSeconds { get; init; }
}

/// <summary>
/// The master plate, bolted in the machine for good. Its origin is X0 Y0, its face Z0, of every program. SealLoop is the
/// centre line of the plate's own seal groove; the space inside is the plate seal zone that holds a block being cut.
/// </summary>
public sealed record Plate : ShopItem
{
    /// <summary>Raised by its owner at every change; blocks remember theirs.</summary>
    public required int Revision { get; init; }

    /// <summary>What a block may lie on, mm.</summary>
    public required Box2 Face { get; init; }

    /// <summary>Of the plate, mm: nothing bores through it.</summary>
    public required double Thickness { get; init; }

    /// <summary>Where a raw blank's edges touch.</summary>
    public required ImmutableArray<EdgeStop> Stops { get; init; }

    /// <summary>How far a raw blank may lie from its nominal place.</summary>
    public required double PlacingTolerance { get; init; }

    /// <summary>Bolts, pins and ports, in the order of the file.</summary>
    public required ImmutableArray<PlateOpening> Openings { get; init; }

    /// <summary>What leads vacuum along the plate's face.</summary>
    public required ImmutableArray<PlateGroove> Grooves { get; init; }

    /// <summary>Centre line of the plate's own seal groove.</summary>
    public required Contour SealLoop { get; init; }

    /// <summary>Of the plate's own groove: a block's holes keep clear of it.</summary>
    public required double SealGrooveWidth { get; init; }

    /// <summary>What the plate's cord pushes the block up, upper end.</summary>
    public required double SealReactionNPerMm { get; init; }

    /// <summary>Dry, lower end.</summary>
    public required double FrictionBlockOnPlate { get; init; }

    /// <summary>What stays above the face where no relief is below; a tool never goes deeper.</summary>
    public required double Skin { get; init; }

    /// <summary>The machine that it is bolted in.</summary>
    public required Machine Machine { get; init; }

    /// <summary>All threaded holes, also those that a block does not reach, in the order of the file.</summary>
    public IEnumerable<PlateOpening> Bolts => Openings.Where(o => o.Kind == OpeningKind.Bolt);

    /// <summary>All vacuum ports, in the order of the file.</summary>
    public IEnumerable<PlateOpening> Ports => Openings.Where(o => o.Kind == OpeningKind.Port);

    /// <summary>The bushing under the block's round hole. A plate that was read has exactly one; InvalidOperationException without.</summary>
    public PlateOpening PinRound => Openings.First(o => o.Kind == OpeningKind.PinRound);

    /// <summary>The bushing under the block's slot; as for the round one.</summary>
    public PlateOpening PinSlot => Openings.First(o => o.Kind == OpeningKind.PinSlot);
}
