using FixtureGen.Model;

namespace FixtureGen.Programs;

/// <summary>Operator text as a control may hold it: ASCII, no nested brackets, wrapped at blanks to the control's length.</summary>
internal static class CommentText
{
    /// <summary>The text's comment lines without their brackets, and whether a letter had to be written as '?'.</summary>
    public static (IReadOnlyList<string> Lines, bool Lost) Lines(string text, Control control)
    {
        (string plain, bool lost) = Plain(text, control.CommentUpperCase);
        int room = Math.Min(control.CommentLength, control.LineLength - 2);
        List<string> lines = [];
        string line = "";
        foreach (string word in plain.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            string rest = word;
            while (rest.Length > room)
            {
                Flush();
                lines.Add(rest[..room]);
                rest = rest[room..];
            }
            if (line.Length > 0 && line.Length + 1 + rest.Length > room)
            {
                Flush();
            }
            line = line.Length == 0 ? rest : line + " " + rest;
        }
        Flush();
        return (lines, lost);

        void Flush()
        {
            if (line.Length > 0)
            {
                lines.Add(line);
                line = "";
            }
        }
    }

    public static string Bracketed(string line, Control control) =>
        control.Comment == CommentForm.Parentheses ? $"({line})" : $"; {line}";

    private static (string Text, bool Lost) Plain(string text, bool upper)
    {
        (string plain, bool lost) = PlainText.Spell(text);
        return (upper ? plain.ToUpperInvariant() : plain, lost);
    }
}
