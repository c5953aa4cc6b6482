using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Verify.Reading;

/// <summary>
/// Turns axis words into motions of the tool's tip, plate frame mm. Before the first motion the tool stands at the machine's
/// home corner; after a tool change and after a home move only its height is certain.
/// </summary>
internal sealed class MotionRunner(
    Job job,
    Dialect dialect,
    Limits limits,
    FindingLog log,
    Modes modes,
    ImmutableArray<ProgramEvent>.Builder events
)
{
    /// <summary>Chord error of arcs outside the XY plane, mm; such arcs are judged as lines.</summary>
    private const double PlaneChord = 0.001;

    private readonly Box3 _travel = job.Plate.Machine.Travel;
    private Point3 _at = HomeOf(job);

    public MachineState State { get; set; } = MachineState.PowerUp;

    public Motion Here(int line) => new(line, MotionKind.Rapid, _at, _at, default, 0, State.Tool);

    public void AfterToolChange() => _at = _at with { Z = _travel.MaxZ };

    public void Run(Block block, int[] g)
    {
        bool dwellOwnsX = g.Contains(40) && dialect.Control.DwellWord is "X" or "x";
        bool axes = block.Has('Y') || block.Has('Z') || (block.Has('X') && !dwellOwnsX);
        int word = g.FirstOrDefault(c => BlockRules.GroupOfG(c, dialect) == 1, -1);
        if (word >= 0)
        {
            ChangeMode(word);
        }
        if (g.Contains(280) || g.Contains(300))
        {
            GoHome(block, axes);
            return;
        }
        if (g.Contains(530))
        {
            MachineMove(block);
            return;
        }
        if (!axes)
        {
            WithoutAxes(block, word);
            return;
        }
        if (!Ready(block))
        {
            return;
        }
        Orphans(block);
        switch (modes.Motion)
        {
            case 0 or 10:
                Line(block, modes.Motion == 0 ? MotionKind.Rapid : MotionKind.Line, Target(block));
                break;
            case 20 or 30:
                Arc(block, modes.Motion == 30);
                break;
            case 810 or 820 or 830 or 730:
                Cycle(block);
                break;
            default:
                NoMode(block);
                break;
        }
    }

    private static Point3 HomeOf(Job job)
    {
        Box3 travel = job.Plate.Machine.Travel;
        return new Point3(travel.MinX, travel.MaxY, travel.MaxZ);
    }

    private void ChangeMode(int word)
    {
        int next = word == 800 ? -1 : word;
        if (next != modes.Motion)
        {
            modes.LeaveCycle();
        }
        modes.Motion = next;
    }

    private void NoMode(Block block)
    {
        string message =
            modes.Motion < 0
                ? "axis words without a motion mode"
                : FormattableString.Invariant($"G{modes.Motion / 10.0:0.#} is not judged");
        log.Error("motion-mode", block.Line, message, "Write G0, G1, G2, G3 or a cycle the control declares");
    }

    private void WithoutAxes(Block block, int word)
    {
        if (word is 20 or 30)
        {
            log.Error(
                "arc-ends-missing",
                block.Line,
                "an arc without X and Y",
                "Write the end point, also for a full circle (NISTIR 6556 3.5.3)"
            );
        }
        else if (word is >= 0 and not 800)
        {
            log.Error("axes-missing", block.Line, $"G{word / 10.0:0.#} without axis words", "Write where to go");
        }
        else if (block.Has('I') || block.Has('J') || block.Has('K') || block.Has('R') || block.Has('Q'))
        {
            log.Error("orphan-word", block.Line, $"'{block.Source.Trim()}': words without a use", "Take them out");
        }
    }

    private bool Ready(Block block)
    {
        bool ok = true;
        void Need(bool said, string code, Text message, Text remedy)
        {
            if (!said)
            {
                log.Error(code, block.Line, message, remedy);
                ok = false;
            }
        }
        Need(modes.Units != 0, "units-missing", "a motion before G20 or G21", "Say the unit at the start");
        Need(
            modes.Distance != 0,
            "distance-missing",
            "a motion before G90 or G91",
            "Say the distance mode at the start"
        );
        Need(modes.Plane != 0, "plane-missing", "a motion before G17, G18 or G19", "Say the plane at the start");
        if (dialect.Control.WorkOffset.Length > 0)
        {
            Need(
                modes.WorkOffset != 0,
                "work-offset-missing",
                "a motion before the work offset",
                $"Write {dialect.Control.WorkOffset} at the start"
            );
        }
        return ok;
    }

    private void Orphans(Block block)
    {
        bool arc = modes.Motion is 20 or 30;
        bool cycle = modes.InCycle;
        void Only(bool allowed, char letter)
        {
            if (!allowed && block.Has(letter))
            {
                log.Error(
                    "orphan-word",
                    block.Line,
                    $"{letter} stands where no code uses it",
                    $"Take {letter} out or write the code that uses it"
                );
            }
        }
        Only(arc, 'I');
        Only(arc, 'J');
        Only(arc, 'K');
        Only(arc || cycle, 'R');
        Only(cycle, 'L');
        Only(modes.Motion is 830 or 730, 'Q');
        Only(modes.Motion is 820 || block.Words.Any(w => w.Letter == 'G' && w.Tenths == 40), 'P');
    }

    private Point3 Target(Block block)
    {
        double Axis(char letter, double now) =>
            block.Value(letter) is { } v ? (v * modes.Unit) + (modes.Incremental ? now : 0) : now;
        return new Point3(Axis('X', _at.X), Axis('Y', _at.Y), Axis('Z', _at.Z));
    }

    private void Line(Block block, MotionKind kind, Point3 to) => Add(block.Line, kind, to, default, false);

    private void Add(int line, MotionKind kind, Point3 to, Point2 centre, bool cycle, bool home = false)
    {
        Motion motion = new(line, kind, _at, to, centre, kind == MotionKind.Rapid ? 0 : State.FeedMmPerMin, State.Tool);
        events.Add(new ProgramEvent(EventKind.Motion, line, motion, State, home, cycle, 0, ""));
        _at = to;
    }

    private void Arc(Block block, bool ccw)
    {
        if (modes.Plane != 170)
        {
            OtherPlaneArc(block, ccw);
            return;
        }
        Point3 to = Target(block);
        if (!block.Has('X') && !block.Has('Y'))
        {
            log.Error("arc-ends-missing", block.Line, "an arc without X and Y", "Write the end point");
            return;
        }
        if (ArcCentre(block, _at.Xy, to.Xy, ccw, 'I', 'J', 'K') is { } centre)
        {
            Add(block.Line, ccw ? MotionKind.ArcCcw : MotionKind.ArcCw, to, centre, false);
        }
        else
        {
            _at = to;
        }
    }

    private Point2? ArcCentre(Block block, Point2 start, Point2 end, bool ccw, char first, char second, char third)
    {
        bool byCentre = block.Has(first) || block.Has(second);
        double slack = limits.ArcMismatch * (modes.Units == 200 ? 2.54 : 1);
        Point2? Refuse(string code, Text message, Text remedy)
        {
            log.Error(code, block.Line, message, remedy, start);
            return null;
        }
        if (block.Has(third))
        {
            return Refuse("orphan-word", $"{third} has no use in this plane", $"Take {third} out");
        }
        if (block.Has('R') == byCentre)
        {
            string what = byCentre ? "both a centre and a radius" : "neither a centre nor a radius";
            return Refuse("arc-form", $"an arc with {what}", "Write the centre offsets or the radius");
        }
        if (byCentre)
        {
            Point2 offset = new((block.Value(first) ?? 0) * modes.Unit, (block.Value(second) ?? 0) * modes.Unit);
            Point2 centre = start + offset;
            if (offset.Length < 1e-9)
            {
                return Refuse("arc-radius-zero", "an arc of radius zero", "Write the centre offsets");
            }
            double off = ArcSolver.Mismatch(start, end, centre);
            return off > slack + 1e-9
                ? Refuse(
                    "arc-mismatch",
                    $"the arc's end lies {off:0.0000} mm off its circle, {slack:0.0000} mm is allowed",
                    "Correct the end point or the centre"
                )
                : CheckSweep(block, start, end, centre, ccw);
        }
        double radius = block.Value('R')!.Value * modes.Unit;
        return start.DistanceTo(end) < 1e-9
                ? Refuse("arc-form", "a radius arc whose end is its start", "Write a full circle by its centre")
            : ArcSolver.CentreByRadius(start, end, radius, ccw, slack) is { } c ? CheckSweep(block, start, end, c, ccw)
            : Refuse(
                "arc-radius",
                $"radius {Math.Abs(radius):0.0000} mm cannot reach an end {start.DistanceTo(end):0.0000} mm away",
                "Correct the radius or the end point"
            );
    }

    private Point2? CheckSweep(Block block, Point2 start, Point2 end, Point2 centre, bool ccw)
    {
        double degrees = Math.Abs(ArcSolver.Sweep(start, end, centre, ccw)) * 180 / Math.PI;
        double most = dialect.Control.SplitFullCircles ? 359.99 : 360;
        if (dialect.Control.MaxArcSweepDeg > 0)
        {
            double slack = Checks.JudgeRules.ArcRounding / start.DistanceTo(centre) * 180 / Math.PI;
            most = Math.Min(most, dialect.Control.MaxArcSweepDeg + Math.Max(0.01, slack));
        }
        if (degrees > most + 1e-6)
        {
            log.Error(
                "arc-sweep",
                block.Line,
                $"an arc of {degrees:0.##} degrees, the control takes {most:0.##}",
                "Split the arc, or check its direction",
                start
            );
        }
        return centre;
    }

    /// <summary>G18 and G19: the judge follows the arc by chords that leave it by less than a thousandth.</summary>
    private void OtherPlaneArc(Block block, bool ccw)
    {
        bool zx = modes.Plane == 180;
        Point3 from = _at;
        Point3 to = Target(block);
        Point2 Flat(Point3 p) => zx ? new Point2(p.Z, p.X) : new Point2(p.Y, p.Z);
        (char first, char second, char third) = zx ? ('K', 'I', 'J') : ('J', 'K', 'I');
        if (ArcCentre(block, Flat(from), Flat(to), ccw, first, second, third) is not { } centre)
        {
            _at = to;
            return;
        }
        Point2 spoke = Flat(from) - centre;
        double sweep = ArcSolver.Sweep(Flat(from), Flat(to), centre, ccw);
        double step = 2 * Math.Acos(Math.Max(0, 1 - (PlaneChord / Math.Max(spoke.Length, PlaneChord))));
        int n = (int)Math.Ceiling(Math.Abs(sweep) / Math.Min(step, 1));
        for (int i = 1; i <= n; i++)
        {
            double t = (double)i / n;
            (double sin, double cos) = Math.SinCos(sweep * t);
            Point2 p = centre + new Point2((spoke.X * cos) - (spoke.Y * sin), (spoke.X * sin) + (spoke.Y * cos));
            Point3 next = zx
                ? new Point3(p.Y, from.Y + ((to.Y - from.Y) * t), p.X)
                : new Point3(from.X + ((to.X - from.X) * t), p.X, p.Y);
            Add(block.Line, MotionKind.Line, i == n ? to : next, default, false);
        }
    }

    private void Cycle(Block block)
    {
        if (!dialect.Control.CannedCycles)
        {
            log.Error(
                "cycle-undeclared",
                block.Line,
                $"control {dialect.Control.Name} declares no drilling cycles",
                "Write the moves out"
            );
        }
        if (modes.Plane != 170)
        {
            log.Error("cycle-plane", block.Line, "a drilling cycle outside G17", "Write G17 before it");
            return;
        }
        CannedCycle? cycle = CannedCycle.From(block, modes, dialect, _at, log);
        if (cycle is null)
        {
            return;
        }
        foreach ((MotionKind kind, Point3 to) in cycle.Motions(_at))
        {
            Add(block.Line, kind, to, default, true);
        }
    }

    private void GoHome(Block block, bool axes)
    {
        Point3 home = HomeOf(job);
        if (axes && !Ready(block))
        {
            return;
        }
        if (!axes)
        {
            Add(block.Line, MotionKind.Rapid, _at with { Z = home.Z }, default, false, true);
            Add(block.Line, MotionKind.Rapid, home, default, false, true);
            return;
        }
        Point3 through = Target(block);
        if (through != _at)
        {
            Add(block.Line, MotionKind.Rapid, through, default, false);
        }
        Point3 to = new(
            block.Has('X') ? home.X : _at.X,
            block.Has('Y') ? home.Y : _at.Y,
            block.Has('Z') ? home.Z : _at.Z
        );
        Add(block.Line, MotionKind.Rapid, to, default, false, true);
    }

    /// <summary>
    /// G53: Z counts down from the machine's top. Where X0 and Y0 of the machine lie is not known, so they are taken only
    /// when the tool is at the top already.
    /// </summary>
    private void MachineMove(Block block)
    {
        if (modes.Incremental)
        {
            log.Error("machine-move", block.Line, "G53 while G91 is in force", "Write G90 first");
            return;
        }
        if (modes.Motion is not (0 or 10))
        {
            log.Error("machine-move", block.Line, "G53 without G0 or G1", "Write G0 with it");
            return;
        }
        MotionKind kind = modes.Motion == 0 ? MotionKind.Rapid : MotionKind.Line;
        Point3 home = HomeOf(job);
        double z = block.Value('Z') is { } v ? home.Z + (v * modes.Unit) : _at.Z;
        if (z > home.Z + 1e-6)
        {
            log.Error(
                "machine-move",
                block.Line,
                $"G53 Z lies {z - home.Z:0.###} mm above the machine's top",
                "Write G53 Z0: machine heights count down from the top"
            );
        }
        bool sideways = block.Has('X') || block.Has('Y');
        if (sideways && _at.Z < home.Z - 1e-6)
        {
            log.Error(
                "machine-move",
                block.Line,
                "G53 with X or Y while the tool is not at the top",
                "Retract Z to the machine's top on a line before"
            );
        }
        if (!Parks(block))
        {
            log.Warn(
                "machine-move",
                block.Line,
                $"'{block.Source.Trim()}' goes to a machine position that is neither home nor the control's own",
                "Write 0 for each axis, or the position that the control's home lines say"
            );
        }
        Point3 to = new(block.Has('X') ? home.X : _at.X, block.Has('Y') ? home.Y : _at.Y, z);
        Add(block.Line, kind, to, default, false, true);
    }

    /// <summary>Machine positions are 0, or stand like that in the control's own home or tool change lines.</summary>
    private bool Parks(Block block)
    {
        string own = string.Join(' ', dialect.Control.Home.AddRange(dialect.Control.ToolChange));
        return block
            .Words.Where(w => w.Letter is 'X' or 'Y' or 'Z')
            .All(w => w.Value == 0 || own.Contains(w.Text, StringComparison.OrdinalIgnoreCase));
    }
}
