using System.Globalization;
using System.Text.RegularExpressions;
using FixtureGen.Verify.Reading;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Sequence;

/// <summary>What the comments say of tools and stops against what the program does: a wrong tool is often right in the comment above it.</summary>
internal static partial class ToolWords
{
    public static void Check(Run run)
    {
        Said(run);
        Again(run);
        MagnetStop(run);
    }

    /// <summary>A comment that names T and a number is followed by cutting with that tool.</summary>
    private static void Said(Run run)
    {
        (int Line, string Tool)[] said =
        [
            .. run
                .Trace.Blocks.SelectMany(b => b.Comments.Select(c => (b.Line, Match: ToolPattern().Match(c))))
                .Where(c => c.Match.Success)
                .Select(c => (c.Line, c.Match.Groups[1].Value)),
        ];
        int next = 0;
        bool told = true;
        foreach ((_, _, Motion motion) in run.Motions())
        {
            while (next < said.Length && said[next].Line < motion.Line)
            {
                next++;
                told = false;
            }
            if (!told && Run.IsFeed(motion) && Number(motion) != said[next - 1].Tool)
            {
                told = true;
                (int line, string tool) = said[next - 1];
                run.Log.Error(
                    "tool-comment",
                    line,
                    $"the comment says T{Echo.Short(tool)}, line {motion.Line} cuts with T{motion.Tool}",
                    "Call the tool that the comment says, or correct the comment",
                    motion.To.Xy
                );
            }
        }
    }

    private static string Number(Motion motion) => motion.Tool.ToString(CultureInfo.InvariantCulture);

    private static void Again(Run run)
    {
        ProgramEvent before = default;
        foreach (ProgramEvent e in run.Trace.Events.Where(e => e.Kind is not EventKind.Dwell))
        {
            bool same =
                e.Kind == before.Kind && e.Kind is EventKind.ToolChange or EventKind.Stop or EventKind.OptionalStop;
            if (same)
            {
                run.Log.Warn(
                    "done-twice",
                    e.Line,
                    $"line {before.Line} did the same, nothing happened in between",
                    "Take one of them out"
                );
            }
            before = e;
        }
    }

    /// <summary>With magnets, the operator is stopped to look at them before the shell is cut.</summary>
    private static void MagnetStop(Run run)
    {
        if (run.Setup != FixtureGen.Model.Setup.Trim || run.Design.Magnets.IsEmpty)
        {
            return;
        }
        int firstCut = run.Motions().Where(m => Run.IsFeed(m.Motion)).Select(m => m.Motion.Line).FirstOrDefault();
        bool stops = run.Trace.Events.Any(e =>
            e.Kind == EventKind.Stop && e.Line < firstCut && Denial.AsksFor(e.Comment, "MAGNET")
        );
        if (!stops)
        {
            int line = run
                .Trace.Events.Where(e => e.Kind is EventKind.VacuumWait or EventKind.Stop)
                .Select(e => e.Line)
                .DefaultIfEmpty(1)
                .First();
            run.Log.Error(
                "magnet-stop",
                line + 1,
                "no stop before the first cut asks the operator to count the magnets; an optional one is passed over while its switch is off",
                $"Write {run.Job.Control.Stop} with a comment that says so"
            );
        }
    }

    [GeneratedRegex(@"(?:^|\s)T0*([0-9]+)(?:\s|$)", RegexOptions.IgnoreCase)]
    private static partial Regex ToolPattern();
}
