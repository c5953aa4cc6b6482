using System.Globalization;
using FixtureGen.Model;
using FixtureGen.Verify.Reading;
using FixtureGen.Verify.Runs;

namespace FixtureGen.Verify.Sequence;

/// <summary>
/// The comments at the start, which the operator compares with the block in front of him: label, program number, magnets, pins,
/// bolts, vacuum level. The trim program opens with the label itself; the block programs name the fixture and say the label.
/// </summary>
internal static class HeaderCheck
{
    /// <summary>Stands between comments where a number must not run on into the next one.</summary>
    private const char Break = '|';

    public static void Check(Run run)
    {
        Block[] head = [.. run.Trace.Blocks.TakeWhile(b => b.Words.IsEmpty)];
        int first = Array.Find(head, b => !b.Comments.IsEmpty)?.Line ?? 1;
        string[] comments = [.. head.SelectMany(b => b.Comments)];
        string all = Words(string.Concat(comments));
        Label(run, first, comments, all);
        Number(run, first, string.Join(Break, comments.Select(Words)));
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
                ? Opens(comments, label)
                : all.Contains(label, StringComparison.Ordinal) && Opens(comments, Words(run.Job.FixtureId));
        if (!there)
        {
            string wanted =
                run.Setup == Setup.Trim
                    ? $"the fixture's label, '{run.Design.Label}'"
                    : $"'{run.Job.FixtureId}', and the label '{run.Design.Label}' after it";
            run.Log.Error(
                "label-mismatch",
                line,
                $"the program opens with '{Echo.Short(comments.FirstOrDefault() ?? "")}'; read as {Named(run.Setup)}, it must open with {wanted}",
                "Write that into the first comments, so that the operator can compare them with the block; if it is for another setup, correct its program number"
            );
        }
    }

    /// <summary>Whether a comment begins with the words, running on into the next ones; others may stand before it.</summary>
    private static bool Opens(string[] comments, string words)
    {
        for (int i = 0; i < comments.Length; i++)
        {
            string on = "";
            for (int k = i; k < comments.Length && on.Length < words.Length; k++)
            {
                on += Words(comments[k]);
            }
            if (on.StartsWith(words, StringComparison.Ordinal))
            {
                return true;
            }
        }
        return false;
    }

    private static string Named(Setup setup) =>
        setup switch
        {
            Setup.Trim => "the trim",
            Setup.Top => "the block's top",
            Setup.Underside => "the block's underside",
        };

    private static void Number(Run run, int line, string comments)
    {
        string number = run.Program.ProgramNumber.ToString(CultureInfo.InvariantCulture);
        if (run.Program.ProgramNumber > 0 && !Says(comments, number))
        {
            run.Log.Error(
                "number-line-missing",
                line + 1,
                $"no comment says PROGRAM {number}",
                "Write the program's number into the comments at the start"
            );
        }
    }

    /// <summary>Whether PROGRAM and just this number are said, the number perhaps with zeros before it or on the next line.</summary>
    private static bool Says(string comments, string number)
    {
        const string Word = "PROGRAM";
        for (
            int at = comments.IndexOf(Word, StringComparison.Ordinal);
            at >= 0;
            at = comments.IndexOf(Word, at + 1, StringComparison.Ordinal)
        )
        {
            ReadOnlySpan<char> rest = comments.AsSpan(at + Word.Length).TrimStart(Break).TrimStart('0');
            if (
                rest.StartsWith(number, StringComparison.Ordinal)
                && (rest.Length == number.Length || !char.IsAsciiDigit(rest[number.Length]))
            )
            {
                return true;
            }
        }
        return false;
    }

    private static void Say(Run run, int line, string all, string word, string what)
    {
        if (!all.Contains(word, StringComparison.Ordinal))
        {
            run.Log.Error(
                "operator-line-missing",
                line + 4,
                $"no comment at the start says {what}",
                "Say so to the operator before the first motion"
            );
        }
    }

    private static void Magnets(Run run, int line, string[] comments)
    {
        int count = run.Design.Magnets.Length;
        string want = FormattableString.Invariant($"{count}MAGNET");
        string[] counts = [.. comments.Select(Words).Where(c => c.Contains("MAGNETSON", StringComparison.Ordinal))];
        // a reason for a low hold may speak of magnets too; a wrong number is told where it stands (SentenceCheck)
        if (!Array.Exists(counts, c => c.StartsWith(want, StringComparison.Ordinal) || char.IsAsciiDigit(c[0])))
        {
            run.Log.Error(
                "magnet-count",
                line + 2,
                $"no comment counts the {count} magnets",
                "Write the count of magnets before the first motion"
            );
        }
    }
}
