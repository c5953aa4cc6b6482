using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Reading;

/// <summary>
/// The tool's tip, plate frame mm: where it is, what the switches say, and everything it has done. Before the first motion the
/// tool stands at the machine's home corner; after a tool change and after a home move only its height is certain.
/// </summary>
internal sealed class Tip(Job job, FindingLog log, ImmutableArray<ProgramEvent>.Builder events)
{
    /// <summary>Events of one program, as many as it may have lines.</summary>
    private const int MostEvents = 100_000;

    /// <summary>Home corner of the machine's travel, at its top.</summary>
    public Point3 Home { get; } =
        new(job.Plate.Machine.Travel.MinX, job.Plate.Machine.Travel.MaxY, job.Plate.Machine.Travel.MaxZ);

    public Point3 At { get; set; } =
        new(job.Plate.Machine.Travel.MinX, job.Plate.Machine.Travel.MaxY, job.Plate.Machine.Travel.MaxZ);

    public MachineState State { get; set; } = MachineState.PowerUp;

    public Motion Here(int line) => new(line, MotionKind.Rapid, At, At, default, 0, State.Tool);

    public void AfterToolChange() => At = At with { Z = Home.Z };

    /// <summary>Where the block's axis words lead.</summary>
    public Point3 Target(Block block, Modes modes)
    {
        double Axis(char letter, double now) =>
            block.Value(letter) is { } v ? (v * modes.Unit) + (modes.Incremental ? now : 0) : now;
        return new Point3(Axis('X', At.X), Axis('Y', At.Y), Axis('Z', At.Z));
    }

    /// <summary>False, with a finding, where one line (a cycle, an arc in chords) takes the program past what the judge takes on.</summary>
    public bool HasRoom(int line)
    {
        if (events.Count < MostEvents)
        {
            return true;
        }
        log.Error(
            "program-too-long",
            line,
            $"the program makes more than {MostEvents} motions with this line, which is the most",
            "Repeat a cycle less often, peck deeper, or cut in several programs"
        );
        return false;
    }

    public void Add(int line, MotionKind kind, Point3 to, Point2 centre, bool cycle, bool home = false)
    {
        Motion motion = new(line, kind, At, to, centre, kind == MotionKind.Rapid ? 0 : State.FeedMmPerMin, State.Tool);
        events.Add(new ProgramEvent(EventKind.Motion, line, motion, State, home, cycle, 0, ""));
        At = to;
    }
}
