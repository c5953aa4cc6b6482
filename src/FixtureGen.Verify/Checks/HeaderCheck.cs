using FixtureGen.Model;
using FixtureGen.Verify.Reading;

namespace FixtureGen.Verify.Checks;

/// <summary>
/// The comments at the start, which the operator compares with the block in front of him: label, program number, magnets, pins,
/// bolts, vacuum level. The trim program opens with the label itself; the block programs name the fixture and say the label.
/// </summary>
internal static class HeaderCheck
{
    public static void Go(Run run)
    {
        Block[] head = [.. run.Trace.Blocks.TakeWhile(b => b.Words.IsEmpty)];
        int first = Array.Find(head, b => !b.Comments.IsEmpty)?.Line ?? 1;
        string[] comments = [.. head.SelectMany(b => b.Comments)];
        string all = Words(string.Concat(comments));
        Label(run, first, comments, all);
        Number(run, first, all);
        bool trim = run.Setup == Setup.Trim;
        Say(run, first, all, trim ? "PINSIN" : "PINSOUT", trim ? "pins in" : "pins out");
        Say(run, first, all, trim ? "BOLTSIN" : "BOLTSOUT", trim ? "bolts in" : "bolts out");
        if (trim)
        {
            Magnets(run, first, comments);
        }
    }

    /// <summary>Capital letters and digits only: a control may lack a character that the engraving has, and long lines are wrapped.</summary>
    internal static string Words(string text) =>
        string.Concat(text.ToUpperInvariant().Where(char.IsAsciiLetterOrDigit));

    private static void Label(Run run, int line, string[] comments, string all)
    {
        string label = Words(run.Design.Label);
        if (label.Length == 0)
        {
            return;
        }
        bool there =
            run.Setup == Setup.Trim
                ? all.StartsWith(label, StringComparison.Ordinal)
                : all.Contains(label, StringComparison.Ordinal)
                    && all.StartsWith(Words(run.Job.FixtureId), StringComparison.Ordinal);
        if (!there)
        {
            run.Log.Error(
                "label-mismatch",
                line,
                $"the program opens with '{comments.FirstOrDefault() ?? ""}', the fixture's label is '{run.Design.Label}'",
                "Write the label into the first comment, so that the operator can compare it with the block"
            );
        }
    }

    private static void Number(Run run, int line, string all)
    {
        string number = run.Program.ProgramNumber.ToString(System.Globalization.CultureInfo.InvariantCulture);
        bool said = all.Contains("PROGRAM" + number, StringComparison.Ordinal);
        bool padded = all.Contains(
            "PROGRAM" + number.PadLeft(run.Job.Control.ProgramNumberDigits, '0'),
            StringComparison.Ordinal
        );
        if (run.Program.ProgramNumber > 0 && !said && !padded)
        {
            run.Log.Error(
                "number-line-missing",
                line + 1,
                $"no comment says PROGRAM {number}",
                "Write the program's number into the comments at the start"
            );
        }
    }

    private static void Say(Run run, int line, string all, string word, string what)
    {
        if (!all.Contains(word, StringComparison.Ordinal))
        {
            run.Log.Error(
                "operator-line-missing",
                line + 4,
                $"no comment at the start says {what}",
                "Tell the operator before the first motion"
            );
        }
    }

    private static void Magnets(Run run, int line, string[] comments)
    {
        int count = run.Design.Magnets.Length;
        string want = FormattableString.Invariant($"{count}MAGNET");
        string? said = comments.Select(Words).FirstOrDefault(c => c.Contains("MAGNETSON", StringComparison.Ordinal));
        if (said is null || !said.StartsWith(want, StringComparison.Ordinal))
        {
            run.Log.Error(
                "magnet-count",
                line + 2,
                said is null
                    ? FormattableString.Invariant($"no comment counts the {count} magnets")
                    : FormattableString.Invariant($"the comment says {said}, the fixture has {count} magnets"),
                "Write the count of magnets before the first motion"
            );
        }
    }
}
