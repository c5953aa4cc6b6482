using System.Globalization;
using FixtureGen.Model;

namespace FixtureGen.Programs;

/// <summary>The steps of one plan, in order: start, tools, stops, vacuum, end. Knows what is turning and what must be said again.</summary>
internal sealed class StepWriter(BlockWriter blocks, ProgramPlan plan, Control control)
{
    private int? _tool;
    private double _rpm;
    private bool _spindleOn;
    private bool _saidAgain = true;
    private bool _homed;

    public void All()
    {
        Head();
        for (int i = 0; i < plan.Steps.Length; i++)
        {
            Step(plan.Steps[i], NextTool(i));
        }
        StopAndHome();
        blocks.Words(control.End);
        if (control.PercentLines)
        {
            blocks.Bare("%");
        }
    }

    private void Head()
    {
        if (control.PercentLines)
        {
            blocks.Bare("%");
        }
        if (control.ProgramNumberWord.Length > 0)
        {
            blocks.Bare(control.ProgramNumberWord + ProgramWriter.NumberText(plan.ProgramNumber, control));
        }
        for (int i = 0; i < plan.Header.Length; i++)
        {
            blocks.Comment(plan.Header[i]);
            if (i == 0 && control.ProgramNumberWord.Length == 0)
            {
                blocks.Comment("Program " + ProgramWriter.NumberText(plan.ProgramNumber, control));
            }
        }
        SafeStart();
    }

    private void Step(ProgramStep step, int next)
    {
        switch (step.Kind)
        {
            case ProgramStepKind.Operation:
                Cut(step.Operation!, step.Text, next);
                break;
            case ProgramStepKind.Stop:
                StopFor(step.Text, control.Stop);
                break;
            case ProgramStepKind.VacuumOn:
                blocks.Comment(step.Text);
                blocks.Words(control.VacuumOn);
                break;
            case ProgramStepKind.VacuumWait when control.VacuumWait.Length == 0:
                StopFor(step.Text, control.Stop);
                break;
            case ProgramStepKind.VacuumWait:
                blocks.Comment(step.Text);
                blocks.Words(control.VacuumWait);
                break;
            case ProgramStepKind.VacuumOff:
                StopAndHome();
                blocks.Comment(step.Text);
                blocks.Words(control.VacuumOff);
                break;
            default:
                blocks.Comment(step.Text);
                break;
        }
    }

    private void SafeStart()
    {
        foreach (string line in control.SafeStart)
        {
            Say(line, 0);
        }
        blocks.Forget();
    }

    /// <summary>
    /// After a tool change or a stop the safe start stands again, then X and Y go at the height of home, and only then Z comes down.
    /// </summary>
    private void Cut(Operation op, string words, int next)
    {
        string about = words.Length > 0 ? words : op.Name;
        blocks.Comment(string.Create(CultureInfo.InvariantCulture, $"{about} - T{op.Tool.Number} {op.Tool.Name}"));
        if (op.Tool.Number != _tool)
        {
            StopSpindle();
            foreach (string line in control.ToolChange)
            {
                Say(line, next, op.Tool.Number);
            }
            _tool = op.Tool.Number;
            _saidAgain = false;
        }
        if (!_saidAgain)
        {
            SafeStart();
        }
        if (!_spindleOn || op.SpindleRpm != _rpm)
        {
            _rpm = op.SpindleRpm;
            Say(control.SpindleStart, next, op.Tool.Number);
            if (!_spindleOn)
            {
                blocks.Words(control.AirOn);
            }
            _spindleOn = true;
        }
        if (!_saidAgain)
        {
            blocks.Forget();
            Point3 first = op.Moves[0].To;
            blocks.Straight("G0", blocks.Format.Ticks(first.X), blocks.Format.Ticks(first.Y), null, null);
            string offset = control.LengthOffsetWord
                ? string.Create(CultureInfo.InvariantCulture, $"G43 H{op.Tool.Number} ")
                : "";
            blocks.Straight("G0", null, null, blocks.Format.Ticks(plan.SafeZ), null, offset);
            _saidAgain = true;
        }
        _homed = false;
        Moves(op);
    }

    private void Moves(Operation op)
    {
        Point3? at = null;
        for (int i = 0; i < op.Moves.Length; i++)
        {
            Move move = op.Moves[i];
            WordFormat f = blocks.Format;
            (long x, long y, long z) = (f.Ticks(move.To.X), f.Ticks(move.To.Y), f.Ticks(move.To.Z));
            switch (move)
            {
                case RapidMove:
                    Rapid(x, y, z);
                    break;
                case LineMove line:
                    blocks.Straight("G1", x, y, z, line.FeedMmPerMin);
                    break;
                case ArcMove arc:
                    ArcWriter.Write(blocks, control, at!.Value, arc);
                    break;
                case DrillMove hole:
                    bool last = i + 1 == op.Moves.Length || op.Moves[i + 1] is not DrillMove;
                    DrillWriter.Write(blocks, control, hole, last);
                    break;
                default:
                    throw new InvalidOperationException($"unknown move {move.GetType().Name}");
            }
            at = move.To;
        }
    }

    // Controls do not run the axes of a rapid in step, so a slanted one is written as two: up first, or down last.
    private void Rapid(long x, long y, long z)
    {
        bool up = blocks.Z is { } now && z > now;
        if (up)
        {
            blocks.Straight("G0", null, null, z, null);
        }
        blocks.Straight("G0", x, y, null, null);
        blocks.Straight("G0", null, null, z, null);
    }

    private void StopFor(string words, string stop)
    {
        StopAndHome();
        blocks.Comment(words);
        blocks.Words(stop);
        _saidAgain = false;
    }

    private void StopSpindle()
    {
        if (_spindleOn)
        {
            blocks.Words(control.SpindleStop);
            blocks.Words(control.AirOff);
            _spindleOn = false;
        }
    }

    private void StopAndHome()
    {
        if (_tool is null || _homed)
        {
            return;
        }
        blocks.Straight("G0", null, null, blocks.Format.Ticks(plan.SafeZ), null);
        StopSpindle();
        foreach (string line in control.Home)
        {
            Say(line, 0);
        }
        blocks.Forget();
        _homed = true;
        _saidAgain = false;
    }

    /// <summary>The tool after this step's, to be made ready; after the last the first again.</summary>
    private int NextTool(int i)
    {
        int? now = plan.Steps[i].Operation?.Tool.Number;
        IEnumerable<int?> later = plan.Steps.Skip(i + 1).Concat(plan.Steps).Select(s => s.Operation?.Tool.Number);
        return later.FirstOrDefault(n => n is not null && n != now) ?? now ?? 0;
    }

    private void Say(string template, int next, int? toolNumber = null)
    {
        string number = (toolNumber ?? _tool ?? 0).ToString(CultureInfo.InvariantCulture);
        string line = template
            .Replace("{tool}", number, StringComparison.Ordinal)
            .Replace("{offset}", number, StringComparison.Ordinal)
            .Replace("{rpm}", WordFormat.Rpm(_rpm), StringComparison.Ordinal)
            .Replace("{next}", next.ToString(CultureInfo.InvariantCulture), StringComparison.Ordinal)
            .Replace("{number}", ProgramWriter.NumberText(plan.ProgramNumber, control), StringComparison.Ordinal)
            .Replace("{z}", blocks.Format.Length(plan.SafeZ), StringComparison.Ordinal)
            .Replace("{work}", control.WorkOffset, StringComparison.Ordinal);
        blocks.Words(line.Trim());
    }
}
