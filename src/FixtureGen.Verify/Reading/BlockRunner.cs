using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Verify.Reading;

/// <summary>Carries out one block after another in the order of NISTIR 6556 table 8 and writes down what happens.</summary>
internal sealed class BlockRunner
{
    private readonly Dialect _dialect;
    private readonly FindingLog _log;
    private readonly Modes _modes = new();
    private readonly MotionRunner _motion;
    private readonly Tip _tip;
    private readonly List<string> _recentComments = [];
    private readonly HashSet<int> _tools;

    public BlockRunner(Job job, Dialect dialect, Limits limits, FindingLog log)
    {
        _dialect = dialect;
        _log = log;
        _tools = [.. job.Tools.Append(job.TrimTool).Select(t => t.Number)];
        Events = ImmutableArray.CreateBuilder<ProgramEvent>();
        _tip = new Tip(job, log, Events);
        _motion = new MotionRunner(dialect, limits, log, _modes, _tip);
    }

    public ImmutableArray<ProgramEvent>.Builder Events { get; }

    public bool Ended { get; private set; }

    private MachineState State
    {
        get => _tip.State;
        set => _tip.State = value;
    }

    public void Run(Block block)
    {
        Remember(block.Comments);
        int[] g = [.. block.Words.Where(w => w.Letter == 'G').Select(w => w.Tenths)];
        int[] m = [.. block.Words.Where(w => w.Letter == 'M').Select(w => w.Tenths / 10)];
        FeedSpeedTool(block, g);
        Switches(block, m);
        if (g.Contains(40))
        {
            Dwell(block);
        }
        foreach (int code in g)
        {
            SetMode(block, code);
        }
        _motion.Run(block, g);
        Stops(block, m);
        _recentComments.Clear();
    }

    /// <summary>Comments on lines of their own belong to the next line that has words.</summary>
    public void Remember(ImmutableArray<string> comments) => _recentComments.AddRange(comments);

    private void FeedSpeedTool(Block block, int[] g)
    {
        int units =
            g.Contains(200) ? 200
            : g.Contains(210) ? 210
            : _modes.Units;
        double unit = units == 200 ? Units.MmPerInch : 1;
        if (g.Contains(930))
        {
            _log.Error(
                "inverse-time",
                block.Line,
                "G93: inverse time feed is not judged",
                "Write feeds per minute (G94)"
            );
        }
        if (block.Value('F') is { } feed)
        {
            if (units == 0)
            {
                _log.Error("units-missing", block.Line, "a feed before G20 or G21", "Say the unit at the start");
            }
            State = State with { FeedMmPerMin = feed * unit };
        }
        if (block.Value('S') is { } speed)
        {
            State = State with { Rpm = speed };
        }
        if (block.Value('T') is { } tool)
        {
            _modes.SelectedTool = (int)Math.Round(tool);
            if (!_tools.Contains(_modes.SelectedTool) && _modes.SelectedTool != 0)
            {
                _log.Error(
                    "tool-unknown",
                    block.Line,
                    $"T{_modes.SelectedTool} is not in the job's tool table",
                    "Call a tool of the table"
                );
            }
        }
    }

    private void Switches(Block block, int[] m)
    {
        if (m.Contains(6))
        {
            ChangeTool(block);
        }
        foreach (int code in m)
        {
            if (code is 3 or 4 or 5)
            {
                SpindleTurn turn = code switch
                {
                    3 => SpindleTurn.Clockwise,
                    4 => SpindleTurn.CounterClockwise,
                    _ => SpindleTurn.Off,
                };
                State = State with { Spindle = turn };
                Note(EventKind.Spindle, block.Line);
            }
        }
        foreach (int code in m.Where(c => c is 7 or 8 or 9))
        {
            State = State with { Air = code != 9 };
        }
        foreach (int code in m)
        {
            if (code == _dialect.VacuumOn)
            {
                State = State with { VacuumOn = true };
                Note(EventKind.VacuumOn, block.Line);
            }
            else if (code == _dialect.VacuumWait)
            {
                State = State with { VacuumProven = State.VacuumOn };
                Note(EventKind.VacuumWait, block.Line);
            }
            else if (code == _dialect.VacuumOff)
            {
                State = State with { VacuumOn = false, VacuumProven = false };
                Note(EventKind.VacuumOff, block.Line);
            }
        }
    }

    private void ChangeTool(Block block)
    {
        if (_modes.SelectedTool == 0)
        {
            _log.Error("tool-missing", block.Line, "M6 without a tool selected", "Write T and the tool's number");
        }
        Note(EventKind.ToolChange, block.Line);
        State = State with { Tool = _modes.SelectedTool, Spindle = SpindleTurn.Off };
        _tip.AfterToolChange();
    }

    private void Dwell(Block block)
    {
        char letter =
            _dialect.Control.DwellWord.Length == 1 ? char.ToUpperInvariant(_dialect.Control.DwellWord[0]) : 'P';
        if (block.Value(letter) is not { } amount)
        {
            _log.Error("dwell-missing", block.Line, $"G4 without {letter}", $"Write the time as {letter}");
            return;
        }
        double seconds = _dialect.Control.Dwell == DwellUnit.Milliseconds ? amount / 1000 : amount;
        if (seconds > 120)
        {
            _log.Warn("dwell-long", block.Line, $"the program waits {seconds:0.#} s", "Check the dwell's unit");
        }
        Events.Add(
            new ProgramEvent(EventKind.Dwell, block.Line, _tip.Here(block.Line), State, false, false, seconds, "")
        );
    }

    private void SetMode(Block block, int code)
    {
        switch (BlockRules.GroupOfG(code, _dialect))
        {
            case 2:
                _modes.Plane = code;
                break;
            case 3:
                _modes.Distance = code;
                State = State with { Incremental = code == 910 };
                break;
            case 6:
                SetUnits(block, code);
                break;
            case 7 when code != 400:
                _log.Error(
                    "cutter-comp",
                    block.Line,
                    "cutter compensation is not judged: the path depends on a table outside the program",
                    "Write the tool centre's path under G40"
                );
                break;
            case 8:
                State = State with { LengthOffset = code == 490 ? 0 : (int)Math.Round(block.Value('H') ?? 0) };
                break;
            case 10:
                _modes.CycleReturn = code;
                break;
            case 12:
                SetWorkOffset(block, code);
                break;
            case 0 when code is 100 or 920 or 921 or 922 or 923:
                _log.Error(
                    "offset-changed",
                    block.Line,
                    $"G{code / 10.0:0.#} moves the coordinate system",
                    "All programs share one work offset: take it out"
                );
                break;
            default:
                break;
        }
        _modes.Said.Add(code);
    }

    private void SetUnits(Block block, int code)
    {
        if (_modes.Units != 0 && _modes.Units != code)
        {
            _log.Warn(
                "units-changed",
                block.Line,
                $"the unit changes from G{_modes.Units / 10} to G{code / 10} within the program",
                "Keep one unit"
            );
        }
        _modes.Units = code;
    }

    private void SetWorkOffset(Block block, int code)
    {
        string said = FormattableString.Invariant($"G{code / 10.0:0.#}");
        if (!string.Equals(said, _dialect.Control.WorkOffset.Trim(), StringComparison.OrdinalIgnoreCase))
        {
            _log.Error(
                "work-offset",
                block.Line,
                $"{said} is not the plate's work offset {_dialect.Control.WorkOffset}",
                $"Write {_dialect.Control.WorkOffset}"
            );
        }
        _modes.WorkOffset = code;
    }

    private void Stops(Block block, int[] m)
    {
        if (m.Contains(0) || m.Contains(60))
        {
            string said = string.Join(' ', _recentComments);
            bool byHand = _dialect.VacuumOn is null;
            bool off = byHand && Denial.Refuses(said, "VACUUM");
            bool on = !off && (State.VacuumOn || (byHand && Denial.AsksFor(said, "VACUUM")));
            bool bolted = State.Bolted || Denial.AsksFor(said, "BOLT");
            State = State with { VacuumOn = on, VacuumProven = on, Bolted = bolted };
            Note(EventKind.Stop, block.Line);
        }
        if (m.Contains(1))
        {
            Note(EventKind.OptionalStop, block.Line);
        }
        if (m.Contains(2) || m.Contains(30))
        {
            Note(EventKind.End, block.Line);
            Ended = true;
        }
    }

    private void Note(EventKind kind, int line) =>
        Events.Add(
            new ProgramEvent(kind, line, _tip.Here(line), State, false, false, 0, string.Join(' ', _recentComments))
        );
}
