using FixtureGen.Model;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Reading;

/// <summary>Turns axis words into motions of the tool's tip, by the motion mode in force.</summary>
internal sealed class MotionRunner(Dialect dialect, Limits limits, FindingLog log, Modes modes, Tip tip)
{
    private readonly AxisRules _rules = new(dialect, log, modes);
    private readonly ArcRunner _arcs = new(dialect, limits, log, modes, tip);
    private readonly HomeRunner _home = new(dialect, log, modes, tip);

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
            _rules.OnlyAxes(block);
            if (!axes || _rules.Ready(block))
            {
                _home.GoHome(block, axes);
            }
            return;
        }
        if (g.Contains(530))
        {
            _rules.OnlyAxes(block);
            _home.MachineMove(block);
            return;
        }
        if (!axes)
        {
            _rules.WithoutAxes(block, word);
            return;
        }
        if (!_rules.Ready(block))
        {
            return;
        }
        _rules.Orphans(block);
        switch (modes.Motion)
        {
            case 0 or 10:
                MotionKind kind = modes.Motion == 0 ? MotionKind.Rapid : MotionKind.Line;
                tip.Add(block.Line, kind, tip.Target(block, modes), default, false);
                break;
            case 20 or 30:
                _arcs.Run(block, modes.Motion == 30);
                break;
            case 810 or 820 or 830 or 730:
                Cycle(block);
                break;
            default:
                _rules.NoMode(block);
                break;
        }
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
        CannedCycle? cycle = CannedCycle.From(block, modes, dialect, tip.At, log);
        if (cycle is null)
        {
            return;
        }
        foreach ((MotionKind kind, Point3 to) in cycle.Motions(tip.At))
        {
            if (!tip.HasRoom(block.Line))
            {
                return;
            }
            tip.Add(block.Line, kind, to, default, true);
        }
    }
}
