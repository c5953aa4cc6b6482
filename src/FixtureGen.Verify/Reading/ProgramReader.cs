using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Verify.Reading;

/// <summary>
/// Reads a whole program: lines, percent signs, program number, then every block in RS274/NGC's order of execution.
/// What it does not know is an error with its line; nothing is skipped.
/// </summary>
internal sealed class ProgramReader
{
    private readonly Control _control;
    private readonly FindingLog _log;
    private readonly LineLexer _lexer;
    private readonly BlockRules _rules;
    private readonly BlockRunner _runner;

    public ProgramReader(Job job, Limits limits, FindingLog log)
    {
        Dialect dialect = Dialect.From(job.Control);
        _control = job.Control;
        _log = log;
        _lexer = new LineLexer(job.Control, log);
        _rules = new BlockRules(dialect, log);
        _runner = new BlockRunner(job, dialect, limits, log);
    }

    public ProgramTrace Read(string text)
    {
        string[] lines = text.Split('\n');
        ImmutableArray<Block>.Builder blocks = ImmutableArray.CreateBuilder<Block>(lines.Length);
        int? programNumber = null;
        bool opened = false;
        bool closed = false;
        int last = 0;
        for (int i = 0; i < lines.Length && !closed; i++)
        {
            string source = lines[i].TrimEnd('\r');
            if (string.IsNullOrWhiteSpace(source))
            {
                continue;
            }
            last = i + 1;
            Block block = _lexer.Read(i + 1, source);
            blocks.Add(block);
            if (block.IsPercent)
            {
                closed = opened || blocks.Count > 1;
                opened |= blocks.Count == 1;
                continue;
            }
            programNumber = TakeNumber(block, programNumber, blocks.Count);
            if (block.IsBlank)
            {
                _runner.Remember(block.Comments);
            }
            else
            {
                if (_runner.Ended)
                {
                    _log.Error(
                        "after-end",
                        i + 1,
                        $"'{Echo.Short(source.Trim())}' stands behind the program end",
                        "Take it out"
                    );
                }
                else if (_rules.Check(block))
                {
                    _runner.Run(block);
                }
            }
        }
        BehindTheEnd(lines, closed ? last : lines.Length);
        CheckFrame(opened, closed, last);
        return new ProgramTrace(_runner.Events.ToImmutable(), blocks.ToImmutable(), programNumber, last);
    }

    /// <summary>A control reads nothing behind the closing percent sign; somebody may believe that it does.</summary>
    private void BehindTheEnd(string[] lines, int last)
    {
        for (int i = last; i < lines.Length; i++)
        {
            if (!string.IsNullOrWhiteSpace(lines[i]))
            {
                _log.Error(
                    "after-end",
                    i + 1,
                    $"'{Echo.Short(lines[i].Trim())}' stands behind the closing %",
                    "Take it out"
                );
                return;
            }
        }
    }

    private int? TakeNumber(Block block, int? known, int count)
    {
        if (block.ProgramNumber is not { } number)
        {
            return known;
        }
        if (known is not null || count > 2)
        {
            _log.Error(
                "program-number-place",
                block.Line,
                $"program number {number} does not stand at the start",
                "Write it once, as the first line"
            );
        }
        return known ?? number;
    }

    private void CheckFrame(bool opened, bool closed, int last)
    {
        if (_control.PercentLines && !opened)
        {
            _log.Error("percent-missing", 1, "the program does not start with a % line", "Write % as the first line");
        }
        if ((_control.PercentLines || opened) && !closed)
        {
            _log.Error("percent-missing", last, "the program does not end with a % line", "Write % as the last line");
        }
        if (!_control.PercentLines && (opened || closed))
        {
            _log.Error("percent-unwanted", 1, $"control {_control.Name} reads no % lines", "Take the % lines out");
        }
        if (!_runner.Ended)
        {
            _log.Error(
                "end-missing",
                last,
                "the program stops without an end word",
                $"End it with {_control.End}; the text may have been cut off"
            );
        }
    }
}
