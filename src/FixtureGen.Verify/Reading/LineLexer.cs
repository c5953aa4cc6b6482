using System.Collections.Immutable;
using System.Globalization;
using FixtureGen.Model;

namespace FixtureGen.Verify.Reading;

/// <summary>
/// Takes one program line apart as NISTIR 6556 section 3.3 says: spaces do not count outside comments, case does not
/// matter, whatever is not explicitly allowed is an error. The control's comment form and program number word are added.
/// </summary>
internal sealed class LineLexer(Control control, FindingLog log)
{
    private const int StandardLineLength = 256;
    private const string StandardLetters = "DFGHIJKLMPQRSTXYZABC";

    public Block Read(int line, string source)
    {
        ImmutableArray<string>.Builder comments = ImmutableArray.CreateBuilder<string>();
        CheckLength(line, source);
        if (source.Length > StandardLineLength)
        {
            // what no control reads is not read here either, so that no line costs more than its share
            return new Block(line, "", false, null, [], []);
        }
        CheckCharacters(line, source);
        string text = StripComments(line, source, comments);
        if (text == "%")
        {
            return new Block(line, source, true, null, [], comments.ToImmutable());
        }
        int at = 0;
        if (text.StartsWith('/'))
        {
            log.Error(
                "block-delete",
                line,
                "the line starts with / and is run or not as a switch stands",
                "Remove the slash or the line"
            );
            at = 1;
        }
        int? programNumber = ReadProgramNumber(line, text, ref at);
        PassLineNumber(line, text, ref at);
        ImmutableArray<Word> words = ReadWords(line, text, at);
        return new Block(line, source, false, programNumber, words, comments.ToImmutable());
    }

    private void CheckLength(int line, string source)
    {
        int most = control.LineLength > 0 ? Math.Min(control.LineLength, StandardLineLength) : StandardLineLength;
        if (source.Length > most)
        {
            log.Error(
                "line-too-long",
                line,
                $"{source.Length} characters, the control reads {most}",
                "Shorten or split the line"
            );
        }
    }

    /// <summary>
    /// Programs are plain ASCII: what is not is lost or changed on the way to the control, and a control character may steer the
    /// transfer itself (XOFF, U+0013, holds it).
    /// </summary>
    private void CheckCharacters(int line, string source)
    {
        for (int i = 0; i < source.Length; i++)
        {
            if (source[i] is (< ' ' and not '\t') or > '~')
            {
                log.Error(
                    "not-plain-text",
                    line,
                    $"the character U+{(int)source[i]:X4} in column {i + 1} is no plain ASCII text",
                    "Write letters, digits and signs of ASCII only and save as plain text"
                );
                return;
            }
        }
    }

    private string StripComments(int line, string source, ImmutableArray<string>.Builder comments)
    {
        Span<char> kept = source.Length <= 512 ? stackalloc char[source.Length] : new char[source.Length];
        int n = 0;
        for (int i = 0; i < source.Length; i++)
        {
            char c = source[i];
            if (c == '(' && control.Comment == CommentForm.Parentheses)
            {
                int close = source.IndexOf(')', i);
                int nested = source.IndexOf('(', i + 1);
                if (close < 0)
                {
                    log.Error(
                        "comment-open",
                        line,
                        $"the comment '{Echo.Short(source[i..])}' is not closed",
                        "Close it on the same line"
                    );
                    break;
                }
                if (nested >= 0 && nested < close)
                {
                    log.Error(
                        "comment-nested",
                        line,
                        "a comment stands inside a comment",
                        "Take the inner parenthesis out"
                    );
                }
                comments.Add(source[(i + 1)..close].Trim());
                i = close;
            }
            else if (c == ';' && control.Comment == CommentForm.Semicolon)
            {
                comments.Add(source[(i + 1)..].Trim());
                break;
            }
            else if (c is not (' ' or '\t'))
            {
                kept[n++] = char.ToUpperInvariant(c);
            }
        }
        return kept[..n].ToString();
    }

    private int? ReadProgramNumber(int line, string text, ref int at)
    {
        string word = control.ProgramNumberWord.ToUpperInvariant();
        if (word.Length == 0 || !text.AsSpan(at).StartsWith(word, StringComparison.Ordinal))
        {
            return null;
        }
        int start = at + word.Length;
        int end = start;
        while (end < text.Length && char.IsAsciiDigit(text[end]))
        {
            end++;
        }
        string digits = text[start..end];
        if (
            digits.Length == 0
            || !int.TryParse(digits, NumberStyles.None, CultureInfo.InvariantCulture, out int number)
        )
        {
            log.Error(
                "program-number-form",
                line,
                $"'{Echo.Short(text)}' is no program number",
                $"Write {word} and {control.ProgramNumberDigits} digits"
            );
            at = text.Length;
            return null;
        }
        if (digits.Length != control.ProgramNumberDigits && control.ProgramNumberDigits > 0)
        {
            log.Error(
                "program-number-form",
                line,
                $"{word}{Echo.Short(digits)} has {digits.Length} digits, the control wants {control.ProgramNumberDigits}",
                $"Write {control.ProgramNumberDigits} digits"
            );
        }
        if (end < text.Length)
        {
            log.Error(
                "program-number-form",
                line,
                $"'{Echo.Short(text[end..])}' stands behind the program number",
                "Put the program number on a line of its own"
            );
        }
        at = text.Length;
        return number;
    }

    private void PassLineNumber(int line, string text, ref int at)
    {
        if (at >= text.Length || text[at] != 'N')
        {
            return;
        }
        int end = at + 1;
        while (end < text.Length && char.IsAsciiDigit(text[end]))
        {
            end++;
        }
        string digits = text[(at + 1)..end];
        at = end;
        if (digits.Length is 0 or > 5)
        {
            log.Error(
                "line-number",
                line,
                $"N{Echo.Short(digits)} is no line number from 0 to 99999",
                "Write N and one to five digits, or leave it out"
            );
        }
    }

    private ImmutableArray<Word> ReadWords(int line, string text, int at)
    {
        ImmutableArray<Word>.Builder words = ImmutableArray.CreateBuilder<Word>();
        while (at < text.Length)
        {
            char letter = text[at];
            if (!StandardLetters.Contains(letter, StringComparison.Ordinal) && !IsDwellLetter(letter))
            {
                log.Error(
                    letter is '#' or '[' or '=' ? "parameter-used" : "unknown-letter",
                    line,
                    $"'{Echo.Short(text[at..])}' cannot be read: {letter} has no meaning here",
                    "Write words of RS274/NGC with plain numbers only"
                );
                return words.ToImmutable();
            }
            int end = NumberEnd(text, at + 1);
            string number = text[(at + 1)..end];
            if (
                !number.Any(char.IsAsciiDigit)
                || !double.TryParse(
                    number,
                    NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint,
                    CultureInfo.InvariantCulture,
                    out double value
                )
                || !double.IsFinite(value)
            )
            {
                log.Error(
                    "number-form",
                    line,
                    $"'{Echo.Short(text[at..])}': no number stands behind {letter}",
                    "Write a number behind each letter"
                );
                return words.ToImmutable();
            }
            words.Add(new Word(letter, value, letter + number, number.Contains('.', StringComparison.Ordinal)));
            at = end;
        }
        return words.ToImmutable();
    }

    private bool IsDwellLetter(char letter) =>
        control.DwellWord.Length == 1 && char.ToUpperInvariant(control.DwellWord[0]) == letter;

    private static int NumberEnd(string text, int at)
    {
        int end = at;
        if (end < text.Length && text[end] is '+' or '-')
        {
            end++;
        }
        bool point = false;
        while (end < text.Length && (char.IsAsciiDigit(text[end]) || (text[end] == '.' && !point)))
        {
            point |= text[end] == '.';
            end++;
        }
        return end;
    }
}
