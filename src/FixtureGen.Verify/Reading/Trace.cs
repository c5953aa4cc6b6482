using System.Collections.Immutable;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Reading;

internal enum SpindleTurn
{
    Off,
    Clockwise,
    CounterClockwise,
}

/// <summary>
/// What the machine's switches say while something happens. Tool is the pocket in the spindle (0: none known), LengthOffset
/// the H number in force (0: none), VacuumProven true once the switch was waited for or a stop was made with vacuum on.
/// Bolted is true once a stop asked the operator to fit the bolts; Air is the chip air or coolant; Incremental says G91.
/// </summary>
internal sealed record MachineState
{
    public required int Tool { get; init; }

    public required int LengthOffset { get; init; }

    public required double Rpm { get; init; }

    public required SpindleTurn Spindle { get; init; }

    public required double FeedMmPerMin { get; init; }

    public required bool VacuumOn { get; init; }

    public required bool VacuumProven { get; init; }

    public required bool Bolted { get; init; }

    public required bool Air { get; init; }

    public required bool Incremental { get; init; }

    public static MachineState PowerUp { get; } =
        new()
        {
            Tool = 0,
            LengthOffset = 0,
            Rpm = 0,
            Spindle = SpindleTurn.Off,
            FeedMmPerMin = 0,
            VacuumOn = false,
            VacuumProven = false,
            Bolted = false,
            Air = false,
            Incremental = false,
        };
}

internal enum EventKind
{
    Motion,
    ToolChange,
    Spindle,
    VacuumOn,
    VacuumWait,
    VacuumOff,
    Dwell,
    Stop,
    OptionalStop,
    End,
}

/// <summary>
/// One thing that happens, in order. Motion is set for motions only; ToHome marks moves that end in machine coordinates,
/// where only the height is known. Seconds is a dwell's length, Comment what stands before a stop.
/// </summary>
internal readonly record struct ProgramEvent(
    EventKind Kind,
    int Line,
    Motion Motion,
    MachineState State,
    bool ToHome,
    bool IsCycle,
    double Seconds,
    string Comment
);

/// <summary>A program as it was read: what happens, what is written for people, and what is missing.</summary>
internal sealed record ProgramTrace(
    ImmutableArray<ProgramEvent> Events,
    ImmutableArray<Block> Blocks,
    int? ProgramNumber,
    int LineCount
);
