using System.Globalization;
using System.Text.RegularExpressions;
using FixtureGen.Model;
using FixtureGen.Verify.Reading;
using FixtureGen.Verify.Runs;

namespace FixtureGen.Verify.Sequence;

/// <summary>
/// Every figure that a comment tells people, wherever it stands, against the shop's own: a person does what he reads. What denies a
/// thing that holds the work is told as well.
/// </summary>
internal sealed partial class SentenceCheck(Run run, Spoken spoken)
{
    /// <summary>A level said in whole kPa may be half of one off.</summary>
    private const double HalfKPa = 0.55;

    public void Check()
    {
        if (run.ByMagnets)
        {
            new HoldWords(run, spoken).Check();
        }
        else
        {
            VacuumLevels();
        }
        if (!run.ByMagnets && run.Job.Control.VacuumWait.Length == 0 && !Levels().IsMatch(spoken.Text))
        {
            False(
                "operator-line-missing",
                1,
                "no comment says which vacuum the operator must see",
                "Write the level to see before the start; this control does not wait for a switch"
            );
        }
        Magnets();
        Sides();
        Revision();
        Blank();
        new BoltWords(run, spoken).Check();
        Denied();
    }

    private void VacuumLevels()
    {
        VacuumSupply supply = run.Job.Vacuum;
        foreach ((Match said, int line) in spoken.Find(Levels()))
        {
            double level = Spoken.Number(said.Groups[1]);
            double kPa = level * PerUnit(said.Groups[2].Value);
            if (kPa < supply.AlarmKPa - HalfKPa)
            {
                False(
                    "vacuum-level",
                    line,
                    $"a comment asks for a vacuum of {kPa:0.0} kPa, {supply.AlarmKPa - kPa:0.0} kPa less than the {supply.AlarmKPa:0.0} kPa that the hold is worked out for",
                    "Write the job's alarm level"
                );
            }
            else if (kPa > Math.Max(supply.PumpRatedKPa, supply.AlarmKPa) + HalfKPa)
            {
                False(
                    "vacuum-level",
                    line,
                    $"a comment asks for a vacuum of {kPa:0.0} kPa, more than the {supply.PumpRatedKPa:0.0} kPa that the pump reaches",
                    "Write the job's alarm level"
                );
            }
        }
    }

    private static double PerUnit(string unit) =>
        unit switch
        {
            "KPA" => 1,
            "MBAR" => 0.1,
            "BAR" => 100,
            "MMHG" or "TORR" => Units.KPaPerInHg / Units.MmPerInch,
            _ => Units.KPaPerInHg,
        };

    private void Magnets()
    {
        int count = run.Design.Magnets.Length;
        foreach ((Match said, int line) in spoken.Find(MagnetCounts()))
        {
            string number = said.Groups[1].Success ? said.Groups[1].Value : said.Groups[2].Value;
            if (!int.TryParse(number, CultureInfo.InvariantCulture, out int counted) || counted != count)
            {
                False(
                    "magnet-count",
                    line,
                    $"the comment counts {Echo.Short(number)} magnets, the fixture has {count}",
                    "Write the number of magnets of the label"
                );
            }
        }
        string pole = Poles().Match(run.Design.Label.ToUpperInvariant()).Groups[1].Value;
        foreach ((Match said, int line) in spoken.Find(Poles()).Where(s => pole.Length > 0))
        {
            if (said.Groups[1].Value != pole)
            {
                False(
                    "label-mismatch",
                    line,
                    $"the comment says {said.Groups[1].Value} up, the label {pole} up",
                    "Write the pole of the label"
                );
            }
        }
    }

    /// <summary>Pins and bolts in or out, which side is up, what holds the skirt.</summary>
    private void Sides()
    {
        bool trim = run.Setup == Setup.Trim;
        string state = trim ? "IN" : "OUT";
        string opening = HeaderCheck.Words(spoken.Text[..spoken.Head]);
        foreach ((Match said, int line) in spoken.Find(InOrOut()))
        {
            bool missing = !opening.Contains(said.Groups[1].Value + "S" + state, StringComparison.Ordinal);
            bool later = !trim && said.Groups[1].Value == "BOLT" && said.Index >= spoken.Head;
            if (!later && !(missing && said.Index < spoken.Head) && said.Groups[2].Value != state)
            {
                False(
                    "operator-line-false",
                    line,
                    $"the comment says {said.Groups[1].Value.ToLowerInvariant()}s {said.Groups[2].Value.ToLowerInvariant()}, here they are {state.ToLowerInvariant()}",
                    $"Write {said.Groups[1].Value}S {state}"
                );
            }
        }
        foreach ((Match said, int line) in spoken.Find(SideUp()))
        {
            bool right = (said.Groups[1].Value == "UNDERSIDE") == (run.Setup == Setup.Underside);
            if (!right)
            {
                False(
                    "operator-line-false",
                    line,
                    $"the comment says {said.Groups[1].Value.ToLowerInvariant()} up, this setup has the other side up",
                    "Write the side that is cut"
                );
            }
        }
        foreach ((Match said, int line) in spoken.Find(SkirtHeld()))
        {
            SkirtHold hold =
                said.Value.EndsWith("TABS", StringComparison.Ordinal) ? SkirtHold.Tabs
                : said.Value.EndsWith("SEAL", StringComparison.Ordinal) ? SkirtHold.SealedLand
                : said.Value.EndsWith("CLAMPED", StringComparison.Ordinal) ? SkirtHold.Clamps
                : SkirtHold.None;
            if (hold != run.Job.Skirt)
            {
                False(
                    "operator-line-false",
                    line,
                    "the comment says that something else holds the skirt than the job does",
                    "Write what the job's [trim] says"
                );
            }
        }
    }

    private void Revision()
    {
        foreach ((Match said, int line) in spoken.Find(Revisions(), true))
        {
            if (
                !int.TryParse(said.Groups[1].ValueSpan, CultureInfo.InvariantCulture, out int rev)
                || rev != run.Job.Revision
            )
            {
                False(
                    "label-mismatch",
                    line,
                    $"the comment says revision {Echo.Short(said.Groups[1].Value)}, the fixture is revision {run.Job.Revision}",
                    "Take the program of this fixture's revision"
                );
            }
        }
    }

    private void Blank()
    {
        foreach ((Match said, int line) in spoken.Find(SafeThickness()))
        {
            Job job = run.Job;
            if (
                Spoken.Number(said.Groups[1]) < run.Design.BlankLeastSafe(job) - HalfHundredth
                || Spoken.Number(said.Groups[2]) > job.BlankThickest + HalfHundredth
            )
            {
                False(
                    "operator-line-false",
                    line,
                    $"the comment calls blanks of {said.Groups[1].Value} to {said.Groups[2].Value} mm safe, {run.Design.BlankLeastSafe(job):0.00} to {job.BlankThickest:0.00} mm are",
                    "Write the thickness that the heights are good for"
                );
            }
        }
        foreach ((Match said, int line) in spoken.Find(Measured()))
        {
            if (Math.Abs(Spoken.Number(said.Groups[1]) - run.Job.BlankThickness) > HalfHundredth)
            {
                False(
                    "operator-line-false",
                    line,
                    $"the comment says {said.Groups[1].Value} mm as measured, the job {run.Job.BlankThickness:0.00} mm",
                    "Write the job's measured thickness"
                );
            }
        }
        (double, double)[] sizes = [.. Sizes().Matches(run.Job.Blank.Description.ToUpperInvariant()).Select(Pair)];
        foreach ((Match said, int line) in spoken.Find(Sizes(), true).Where(_ => sizes.Length > 0))
        {
            if (!sizes.Contains(Pair(said)))
            {
                False(
                    "operator-line-false",
                    line,
                    $"the comment asks for a blank of {Echo.Short(said.Value)}, the job's is '{Echo.Short(run.Job.Blank.Description)}'",
                    "Take the job's blank"
                );
            }
        }
    }

    private const double HalfHundredth = 0.006;

    private static (double, double) Pair(Match m) => (Spoken.Number(m.Groups[1]), Spoken.Number(m.Groups[2]));

    private void Denied()
    {
        int lastCut = run.Motions().Where(m => Run.IsFeed(m.Motion)).Select(m => m.Motion.Line).LastOrDefault();
        int bolted = LastWithoutBolts();
        foreach ((string text, int from) in spoken.Paragraphs().Where(p => spoken.LineAt(p.From) <= lastCut))
        {
            string[] nouns =
                run.ByMagnets ? ["PIN", "BOLT", "MAGNET"]
                : run.Setup == Setup.Trim && !run.Design.Magnets.IsEmpty ? ["PIN", "BOLT", "VACUUM", "MAGNET"]
                : spoken.LineAt(from) < bolted ? ["VACUUM"]
                : [];
            bool head = from < spoken.Head;
            foreach (string noun in nouns.Where(n => (head || n != "PIN") && Denial.Refuses(text, n)))
            {
                False(
                    "operator-line-false",
                    spoken.LineAt(from + Math.Max(0, text.IndexOf(noun, StringComparison.Ordinal))),
                    $"a comment says that there is no need of the {noun.ToLowerInvariant()}{(noun == "VACUUM" ? "" : "s")}",
                    "Take it out: they hold the work"
                );
            }
        }
    }

    /// <summary>The line where what is said before the stop for the block's bolts begins: from there on the vacuum may go off.</summary>
    private int LastWithoutBolts()
    {
        int stop =
            run.Setup == Setup.Trim
                ? 0
                : run.Trace.Events.FirstOrDefault(e => e.Kind == EventKind.Stop && e.State.Bolted).Line;
        return stop == 0
            ? int.MaxValue
            : spoken
                .Paragraphs()
                .Select(p => spoken.LineAt(p.From))
                .Where(line => line < stop)
                .DefaultIfEmpty(stop)
                .Max();
    }

    private void False(string code, int line, Text message, Text remedy) => run.Log.Error(code, line, message, remedy);

    [GeneratedRegex(@"(\d+(?:\.\d+)?)\s*(KPA|INHG|IN\.?\s?HG|MBAR|BAR|MMHG|TORR)\b", RegexOptions.CultureInvariant)]
    internal static partial Regex Levels();

    [GeneratedRegex(@"(?<![\w.:])(\d+)\s+MAGNETS?\b|\bMAGNETS\s+(\d+)\b(?!\.)", RegexOptions.CultureInvariant)]
    private static partial Regex MagnetCounts();

    [GeneratedRegex(@"\b([NS])\s+UP\b", RegexOptions.CultureInvariant)]
    private static partial Regex Poles();

    [GeneratedRegex(@"\b(PIN|BOLT)S?\s+(?:ARE\s+)?(IN|OUT)\b", RegexOptions.CultureInvariant)]
    private static partial Regex InOrOut();

    [GeneratedRegex(@"\b(TOP|UNDERSIDE)\s+UP\b", RegexOptions.CultureInvariant)]
    private static partial Regex SideUp();

    [GeneratedRegex(
        @"\bSKIRT\s+HELD\s+BY\s+(?:TABS|ITS\s+OWN\s+SEAL)|\bSKIRT\s+CLAMPED|\bNO\s+SKIRT",
        RegexOptions.CultureInvariant
    )]
    private static partial Regex SkirtHeld();

    [GeneratedRegex(@"\bREV(?:ISION)?\.?\s+(\d+)\b", RegexOptions.CultureInvariant)]
    private static partial Regex Revisions();

    [GeneratedRegex(@"(\d+\.\d+)\s+TO\s+(\d+\.\d+)\s+MM\s+THICK", RegexOptions.CultureInvariant)]
    private static partial Regex SafeThickness();

    [GeneratedRegex(@"(\d+\.\d+)\s+MM\s+THICK\s+AS\s+MEASURED", RegexOptions.CultureInvariant)]
    private static partial Regex Measured();

    [GeneratedRegex(@"(\d+(?:\.\d+)?)\s+X\s+(\d+(?:\.\d+)?)\b", RegexOptions.CultureInvariant)]
    private static partial Regex Sizes();
}
