namespace FixtureGen.Verify.Reading;

/// <summary>What must have been said before axis words may move anything, and which words have no use where they stand.</summary>
internal sealed class AxisRules(Dialect dialect, FindingLog log, Modes modes)
{
    /// <summary>Letters that say nothing but with axis words.</summary>
    private const string NeedsAxes = "IJKRQLP";

    public void NoMode(Block block)
    {
        string message =
            modes.Motion < 0
                ? "axis words without a motion mode"
                : FormattableString.Invariant($"G{modes.Motion / 10.0:0.#} is not judged");
        log.Error("motion-mode", block.Line, message, "Write G0, G1, G2, G3 or a cycle the control declares");
    }

    public void WithoutAxes(Block block, int word)
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
        else if (block.Words.Any(w => NeedsAxes.Contains(w.Letter) && !(w.Letter == 'P' && TakesP(block))))
        {
            log.Error(
                "orphan-word",
                block.Line,
                $"'{Echo.Short(block.Source.Trim())}': words without a use",
                "Take them out"
            );
        }
    }

    public bool Ready(Block block)
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

    /// <summary>A way home or in machine coordinates takes axis words and nothing else.</summary>
    public void OnlyAxes(Block block)
    {
        if (block.Words.Any(w => NeedsAxes.Contains(w.Letter) && !(w.Letter == 'P' && TakesP(block))))
        {
            log.Error(
                "orphan-word",
                block.Line,
                $"'{Echo.Short(block.Source.Trim())}': words without a use",
                "Take them out"
            );
        }
    }

    /// <summary>A dwell takes P, and a path mode where the control's own lines say it with that very P.</summary>
    private bool TakesP(Block block) =>
        block.Words.Any(w =>
            w.Letter == 'G' && (w.Tenths == 40 || (w.Tenths == 640 && dialect.PathTolerance == block.Value('P')))
        );

    public void Orphans(Block block)
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
        Only(modes.Motion is 820 || TakesP(block), 'P');
    }
}
