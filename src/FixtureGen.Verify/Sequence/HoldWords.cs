using System.Text.RegularExpressions;
using FixtureGen.Model;
using FixtureGen.Verify.Reading;
using FixtureGen.Verify.Runs;

namespace FixtureGen.Verify.Sequence;

/// <summary>
/// The trim of a shell that magnets alone hold: no word works the vacuum, no comment asks for one, and the first comments say what holds.
/// Who trusts a gauge that nothing hangs on may start without the magnets.
/// </summary>
internal sealed partial class HoldWords(Run run, Spoken spoken)
{
    public void Check()
    {
        foreach (ProgramEvent e in run.Trace.Events)
        {
            if (e.Kind is EventKind.VacuumOn or EventKind.VacuumWait or EventKind.VacuumOff)
            {
                run.Log.Error(
                    "vacuum-unwanted",
                    e.Line,
                    "the program works the vacuum, but magnets alone hold this shell: there is no seal under it",
                    "Take the word out, or take the program of a fixture that vacuum holds"
                );
            }
        }
        string text = WithoutTitle();
        foreach (Match said in Asked().Matches(text).Concat(SentenceCheck.Levels().Matches(text)))
        {
            run.Log.Error(
                "operator-line-false",
                spoken.LineAt(said.Index),
                $"a comment says '{Echo.Short(said.Value)}', but magnets alone hold this shell: nobody may trust a vacuum here",
                "Take it out"
            );
        }
        if (!HeaderCheck.Words(spoken.Text[..spoken.Head]).Contains("BYMAGNETSALONE", StringComparison.Ordinal))
        {
            run.Log.Error(
                "operator-line-missing",
                1,
                "no comment at the start says that magnets alone hold the shell",
                "Write SHELL HELD BY MAGNETS ALONE before the first motion"
            );
        }
    }

    /// <summary>A product may be called what it likes: its title, perhaps broken over lines, is left blank.</summary>
    private string WithoutTitle()
    {
        string title = string.Join(
            @"\s*",
            PlainText
                .Spell(run.Job.Title)
                .Text.ToUpperInvariant()
                .Where(c => !char.IsWhiteSpace(c))
                .Select(c => Regex.Escape(c.ToString()))
        );
        return title.Length == 0
            ? spoken.Text
            : Regex.Replace(spoken.Text, title, m => new string(' ', m.Length), RegexOptions.CultureInvariant);
    }

    [GeneratedRegex(@"(?<!\b(?:NO|WITHOUT)\s+)\bVACUUM\b", RegexOptions.CultureInvariant)]
    private static partial Regex Asked();
}
