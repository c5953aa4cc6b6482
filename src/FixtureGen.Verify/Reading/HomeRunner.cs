using FixtureGen.Model;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Reading;

/// <summary>G28, G30 and G53: moves that end in the machine's own coordinates.</summary>
internal sealed class HomeRunner(Dialect dialect, FindingLog log, Modes modes, Tip tip)
{
    /// <summary>G28 and G30: straight home, or through the point that the axis words name.</summary>
    public void GoHome(Block block, bool axes)
    {
        Point3 home = tip.Home;
        if (!axes)
        {
            tip.Add(block.Line, MotionKind.Rapid, tip.At with { Z = home.Z }, default, false, true);
            tip.Add(block.Line, MotionKind.Rapid, home, default, false, true);
            return;
        }
        Point3 through = tip.Target(block, modes);
        if (through != tip.At)
        {
            tip.Add(block.Line, MotionKind.Rapid, through, default, false);
        }
        Point3 to = new(
            block.Has('X') ? home.X : tip.At.X,
            block.Has('Y') ? home.Y : tip.At.Y,
            block.Has('Z') ? home.Z : tip.At.Z
        );
        tip.Add(block.Line, MotionKind.Rapid, to, default, false, true);
    }

    /// <summary>
    /// G53: Z counts down from the machine's top. Where X0 and Y0 of the machine lie is not known, so they are taken only
    /// when the tool is at the top already.
    /// </summary>
    public void MachineMove(Block block)
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
        if (!block.Has('X') && !block.Has('Y') && !block.Has('Z'))
        {
            log.Error("axes-missing", block.Line, "G53 without axis words", "Write where to go");
            return;
        }
        MotionKind kind = modes.Motion == 0 ? MotionKind.Rapid : MotionKind.Line;
        Point3 home = tip.Home;
        double z = block.Value('Z') is { } v ? home.Z + (v * modes.Unit) : tip.At.Z;
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
        if (sideways && tip.At.Z < home.Z - 1e-6)
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
            log.Error(
                "machine-move",
                block.Line,
                $"'{Echo.Short(block.Source.Trim())}' goes to a machine position that is neither home nor the control's own",
                "Write 0 for each axis, or the position that the control's home lines say"
            );
        }
        Point3 to = new(block.Has('X') ? home.X : tip.At.X, block.Has('Y') ? home.Y : tip.At.Y, z);
        tip.Add(block.Line, kind, to, default, false, true);
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
