using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using FixtureGen.Model;
using Tomlyn.Parsing;
using Tomlyn.Syntax;

namespace FixtureGen.App.Records;

/// <summary>The register as TOML, written and read back: the copy of the database that people read and keep under version control.</summary>
internal static class RegisterText
{
    /// <summary>Of the text; one without the key is of the time before the database.</summary>
    private const int Format = 2;

    private const string FormatKey = "format";

    /// <summary>The file's text, sorted, line feeds only: the same register gives the same bytes.</summary>
    public static string Write(Register register)
    {
        StringBuilder text = new();
        text.Append("# The register of fixtures: a readable copy of library.db, written with every change of it.\n");
        text.Append("# state: planned, cut (a block is on the shelf and frozen), worn (due for a remake), scrapped.\n");
        text.Append(CultureInfo.InvariantCulture, $"{FormatKey} = {Format}\n");
        Write(text, RegisterTables.Fixtures, register.Fixtures);
        Write(text, RegisterTables.Blocks, register.Blocks);
        Write(text, RegisterTables.Files, register.Files);
        Write(text, RegisterTables.Notices, register.Notices);
        Write(text, RegisterTables.Events, register.Events);
        return text.ToString();
    }

    /// <summary>SHA-256 of a register's text, hexadecimal in small letters.</summary>
    public static string Hash(string text) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)));

    /// <summary>Reads the register's text; whatever is not understood is a finding with line and column, and nothing is guessed.</summary>
    public static Stage<Register> Read(string text, string where)
    {
        DocumentSyntax document = SyntaxParser.Parse(text, where);
        if (document.HasErrors)
        {
            return Stage.Failed<Register>(document.Diagnostics.Select(d => Bad(where, d.Span.Start, d.Message)));
        }
        RegisterReader reader = new(document, where, IsOfBefore(document));
        Register register = new()
        {
            Fixtures =
            [
                .. reader
                    .Rows(RegisterTables.Fixtures)
                    .OrderBy(f => f.Job, StringComparer.Ordinal)
                    .ThenBy(f => f.Revision),
            ],
            Blocks = [.. reader.Rows(RegisterTables.Blocks)],
            Files = [.. reader.Rows(RegisterTables.Files)],
            Notices = [.. reader.Rows(RegisterTables.Notices)],
            Events = [.. reader.Rows(RegisterTables.Events)],
        };
        return Stage.Answer(register, [.. reader.Findings(FormatKey, Format), .. register.Contradictions(where)]);
    }

    /// <summary>True for a text of the time before the database: fixtures only, without a past.</summary>
    public static bool IsOfBefore(string text) => IsOfBefore(SyntaxParser.Parse(text));

    /// <summary>A finding of a register that cannot be understood, with its place.</summary>
    public static Finding Bad(string where, TextPosition at, string message) =>
        new(
            "register-damaged",
            Severity.Error,
            string.Create(CultureInfo.InvariantCulture, $"{where}:{at.Line + 1}:{at.Column + 1}"),
            message,
            "mend the entry by hand or bring the file back from a copy; nothing was changed"
        );

    private static bool IsOfBefore(DocumentSyntax document) =>
        document.KeyValues.All(k => RegisterReader.Plain(k.Key!.ToString()) != FormatKey);

    private static void Write<T>(StringBuilder text, Table<T> table, IEnumerable<T> rows)
    {
        foreach (T row in rows)
        {
            text.Append(CultureInfo.InvariantCulture, $"\n[[{table.Name}]]\n");
            foreach (Column<T> column in table.Columns)
            {
                object value = column.Get(row);
                text.Append(
                    CultureInfo.InvariantCulture,
                    $"{column.Key} = {(value is string word ? Quoted(word) : value)}\n"
                );
            }
        }
    }

    /// <summary>A basic string of TOML 1.0: quotes, backslashes and control characters escaped.</summary>
    private static string Quoted(string text)
    {
        StringBuilder quoted = new("\"");
        foreach (char c in text)
        {
            _ = c switch
            {
                '"' or '\\' => quoted.Append('\\').Append(c),
                < ' ' or '\u007f' => quoted.Append(CultureInfo.InvariantCulture, $"\\u{(int)c:X4}"),
                _ => quoted.Append(c),
            };
        }
        return quoted.Append('"').ToString();
    }
}
