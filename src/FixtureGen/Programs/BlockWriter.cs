using System.Globalization;
using System.Text;
using FixtureGen.Model;

namespace FixtureGen.Programs;

/// <summary>
/// Lines of one program: numbering, comments, and the words that stay in force. Position is held in ticks as the control
/// holds it; null means not known (after a tool change, home or at the start).
/// </summary>
internal sealed class BlockWriter(Control control, string file)
{
    private const int GreatestLineNumber = 99999;
    private readonly StringBuilder _text = new();
    private int _lines;
    private int _number;
    private string _motion = "";
    private string _feed = "";

    public WordFormat Format { get; } = new(control);

    public List<Finding> Findings { get; } = [];

    public int NextLine => _lines + 1;

    public long? X { get; private set; }

    public long? Y { get; private set; }

    public long? Z { get; private set; }

    /// <summary>A line that carries no number: percent sign, program number.</summary>
    public void Bare(string line) => Append(line);

    public void Comment(string words)
    {
        (IReadOnlyList<string> wrapped, bool lost) = CommentText.Lines(words, control);
        foreach (string line in wrapped)
        {
            Append(CommentText.Bracketed(line, control));
        }
        if (lost)
        {
            Findings.Add(ProgramFindings.LettersLost(file, words));
        }
    }

    /// <summary>A line of the control's own words; nothing where it is empty.</summary>
    public void Words(string line)
    {
        if (line.Length > 0)
        {
            Append(Numbered() + line);
        }
    }

    /// <summary>After words that moved the machine or changed its modes: nothing is taken for granted.</summary>
    public void Forget()
    {
        X = Y = Z = null;
        _motion = _feed = "";
    }

    /// <summary>A rapid or straight move; axes that do not change are left out. Prefix goes before the axis words.</summary>
    public void Straight(string code, long? x, long? y, long? z, double? feedMmPerMin, string prefix = "")
    {
        StringBuilder words = new(prefix);
        Axis(words, 'X', x, X);
        Axis(words, 'Y', y, Y);
        Axis(words, 'Z', z, Z);
        if (words.Length > prefix.Length)
        {
            Block(code, words.ToString(), feedMmPerMin);
            X = x ?? X;
            Y = y ?? Y;
            Z = z ?? Z;
        }
    }

    /// <summary>One arc's words: X and Y always, Z where it changes, then centre or radius words.</summary>
    public void Arc(string code, long x, long y, long z, string shape, double feedMmPerMin)
    {
        StringBuilder words = new();
        Axis(words, 'X', x, null);
        Axis(words, 'Y', y, null);
        Axis(words, 'Z', z, Z);
        words.Append(' ').Append(shape);
        Block(code, words.ToString(), feedMmPerMin);
        (X, Y, Z) = (x, y, z);
    }

    /// <summary>One canned cycle, all its words; the tool ends at z.</summary>
    public void Cycle(string codes, long x, long y, string rest, long z, double feedMmPerMin)
    {
        _motion = "";
        StringBuilder words = new();
        Axis(words, 'X', x, null);
        Axis(words, 'Y', y, null);
        words.Append(' ').Append(rest);
        Block(codes, words.ToString(), feedMmPerMin);
        _motion = "";
        (X, Y, Z) = (x, y, z);
    }

    public string Finish() => _text.ToString();

    private void Axis(StringBuilder words, char letter, long? to, long? from)
    {
        if (to is { } t && t != from)
        {
            words.Append(words.Length == 0 || words[^1] == ' ' ? "" : " ").Append(letter).Append(Format.Length(t));
        }
    }

    private void Block(string code, string words, double? feedMmPerMin)
    {
        StringBuilder line = new(Numbered());
        if (code != _motion)
        {
            line.Append(code).Append(' ');
            _motion = code;
        }
        line.Append(words);
        if (feedMmPerMin is { } f && Format.Feed(f) is { } word && word != _feed)
        {
            line.Append(" F").Append(word);
            _feed = word;
        }
        Append(line.ToString());
    }

    private string Numbered()
    {
        if (control.LineNumberStep == 0)
        {
            return "";
        }
        _number += control.LineNumberStep;
        if (_number > GreatestLineNumber)
        {
            _number = control.LineNumberStep;
        }
        return string.Create(CultureInfo.InvariantCulture, $"N{_number} ");
    }

    private void Append(string line)
    {
        _lines++;
        if (line.Length > control.LineLength)
        {
            Findings.Add(ProgramFindings.LineTooLong(file, _lines, line.Length, control));
        }
        _text.Append(line).Append('\n');
    }
}
