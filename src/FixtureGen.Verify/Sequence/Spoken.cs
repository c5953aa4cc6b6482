using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using FixtureGen.Model;
using FixtureGen.Verify.Reading;
using FixtureGen.Verify.Runs;

namespace FixtureGen.Verify.Sequence;

/// <summary>
/// All that a program says to people, in capitals, as one text: sentences run on from comment to comment, since long ones are broken;
/// a line with words ends them. Every place in it knows its program line.
/// </summary>
internal sealed class Spoken
{
    private readonly List<int> _starts = [];
    private readonly List<int> _lines = [];

    public Spoken(Run run)
    {
        StringBuilder text = new();
        foreach (Block block in run.Trace.Blocks)
        {
            _starts.Add(text.Length);
            _lines.Add(block.Line);
            foreach (string comment in block.Comments)
            {
                text.Append(comment.ToUpperInvariant()).Append('\n');
            }
            if (!block.Words.IsEmpty)
            {
                text.Append("|\n");
                Head = Head == 0 ? text.Length : Head;
            }
        }
        Head = Head == 0 ? text.Length : Head;
        Text = WithoutReason(WithoutNames(text.ToString(), Head, run.Job), run.Job.AcceptLowHold);
    }

    /// <summary>
    /// What a job is called is its own affair and may look like anything, a thread or a size of blank: where the head says title and
    /// fixture before their revision, or the title after TRIM, letter by letter, they are left blank.
    /// </summary>
    private static string WithoutNames(string text, int head, Job job)
    {
        const string Trim = "TRIM";
        const string Revision = "REV";
        string title = Letters(job.Title.Length > 0 ? job.Title : job.Name);
        string fixture = Letters(job.FixtureId);
        StringBuilder left = new(text);
        foreach (string names in new[] { title + fixture, fixture }.Where(n => n.Length > 0))
        {
            foreach (int from in Starts(text, head))
            {
                int to = End(text, from, names);
                if (to > 0 && End(text, to, Revision) > 0)
                {
                    Blank(left, from, to);
                }
            }
        }
        int trim = text.IndexOf(Trim, StringComparison.Ordinal);
        while (title.Length > 0 && trim >= 0 && trim < head)
        {
            int from = trim + Trim.Length;
            if (End(text, from, title) is > 0 and var to && (to == text.Length || char.IsWhiteSpace(text[to])))
            {
                Blank(left, from, to);
            }
            trim = text.IndexOf(Trim, from, StringComparison.Ordinal);
        }
        return left.ToString();
    }

    private static string Letters(string name) =>
        string.Concat(PlainText.Spell(name).Text.ToUpperInvariant().Where(c => !char.IsWhiteSpace(c)));

    /// <summary>Where words begin.</summary>
    private static IEnumerable<int> Starts(string text, int head) =>
        Enumerable.Range(0, head).Where(i => !char.IsWhiteSpace(text[i]) && (i == 0 || char.IsWhiteSpace(text[i - 1])));

    /// <summary>The place after some letters, white space between them passed over; 0 where others stand there.</summary>
    private static int End(string text, int from, string letters)
    {
        int known = 0;
        int i = from;
        for (; i < text.Length && known < letters.Length; i++)
        {
            if (char.IsWhiteSpace(text[i]))
            {
                continue;
            }
            if (text[i] != letters[known])
            {
                return 0;
            }
            known++;
        }
        return known == letters.Length ? i : 0;
    }

    private static void Blank(StringBuilder text, int from, int to)
    {
        for (int i = from; i < to; i++)
        {
            text[i] = char.IsWhiteSpace(text[i]) ? text[i] : ' ';
        }
    }

    /// <summary>Why a low hold is accepted is the job's own text and may speak of anything: as far as it stands there letter by letter it is left blank.</summary>
    private static string WithoutReason(string text, string reason)
    {
        const string Word = "REASON:";
        int at = reason.Length == 0 ? -1 : text.IndexOf(Word, StringComparison.Ordinal);
        if (at < 0)
        {
            return text;
        }
        string wanted = string.Concat(
            PlainText.Spell(reason).Text.ToUpperInvariant().Where(c => !char.IsWhiteSpace(c))
        );
        StringBuilder left = new(text);
        int known = 0;
        for (int i = at + Word.Length; i < text.Length && known < wanted.Length; i++)
        {
            if (char.IsWhiteSpace(text[i]))
            {
                continue;
            }
            if (text[i] != wanted[known])
            {
                break;
            }
            left[i] = ' ';
            known++;
        }
        return left.ToString();
    }

    public string Text { get; }

    /// <summary>A number that a pattern found, with a point.</summary>
    public static double Number(Group digits) => double.Parse(digits.ValueSpan, CultureInfo.InvariantCulture);

    /// <summary>Length of the part before the first line with words.</summary>
    public int Head { get; }

    /// <summary>The program line of a place in the text; 1 in a program that says nothing.</summary>
    public int LineAt(int index)
    {
        if (_lines.Count == 0)
        {
            return 1;
        }
        int found = _starts.BinarySearch(index);
        int block = found < 0 ? ~found - 1 : found;
        // of blocks that begin at one place, those before the last say nothing
        while (block + 1 < _starts.Count && _starts[block + 1] == index)
        {
            block++;
        }
        return _lines[Math.Max(0, block)];
    }

    /// <summary>What a pattern finds, with its line; in the head only where asked.</summary>
    public IEnumerable<(Match Said, int Line)> Find(Regex pattern, bool head = false) =>
        pattern.Matches(head ? Text[..Head] : Text).Select(m => (m, LineAt(m.Index)));

    /// <summary>The sentences about one thing run from one line with words to the next.</summary>
    public IEnumerable<(string Text, int From)> Paragraphs()
    {
        int from = 0;
        foreach (string part in Text.Split('|'))
        {
            yield return (part, from);
            from += part.Length + 1;
        }
    }
}
