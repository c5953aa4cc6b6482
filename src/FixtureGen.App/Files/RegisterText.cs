using System.Globalization;
using System.Text;
using FixtureGen.Model;
using Tomlyn.Parsing;
using Tomlyn.Syntax;

namespace FixtureGen.App.Files;

/// <summary>The register as TOML, written and read back.</summary>
internal static class RegisterText
{
    private static readonly string[] Keys = ["job", "id", "revision", "program", "plate", "plate_revision", "state"];

    /// <summary>The file's text, sorted, line feeds only: the same register gives the same bytes.</summary>
    public static string Write(Register register)
    {
        StringBuilder text = new();
        text.Append("# The register of fixtures: written by 'fixturegen regenerate' and 'fixturegen register'.\n");
        text.Append("# state: planned, cut (a block is on the shelf and frozen), worn (due for a remake), scrapped.\n");
        foreach (Fixture f in register.Fixtures)
        {
            text.Append(
                CultureInfo.InvariantCulture,
                $"\n[[fixture]]\njob = {Quoted(f.Job)}\nid = {Quoted(f.Id)}\nrevision = {f.Revision}\nprogram = {f.Program}\nplate = {Quoted(f.Plate)}\nplate_revision = {f.PlateRevision}\nstate = {Quoted(Word(f.State))}\n"
            );
        }
        return text.ToString();
    }

    /// <summary>planned, cut, worn or scrapped, as in the file.</summary>
    public static string Word(FixtureState state) =>
        state switch
        {
            FixtureState.Planned => "planned",
            FixtureState.Cut => "cut",
            FixtureState.Worn => "worn",
            FixtureState.Scrapped => "scrapped",
        };

    /// <summary>Reads the register's text; whatever is not understood is a finding with line and column, and nothing is guessed.</summary>
    public static Stage<Register> Read(string text, string where)
    {
        DocumentSyntax document = SyntaxParser.Parse(text, where);
        if (document.HasErrors)
        {
            return Stage.Failed<Register>(document.Diagnostics.Select(d => Bad(where, d.Span.Start, d.Message)));
        }
        List<Finding> findings = [];
        List<Fixture> fixtures = [];
        foreach (TableSyntaxBase table in document.Tables)
        {
            if (table is not TableArraySyntax || Plain(table.Name!.ToString()) != "fixture")
            {
                findings.Add(
                    Bad(where, table.Span.Start, $"unknown table '{table.Name}'; the register knows [[fixture]] only")
                );
                continue;
            }
            if (ReadFixture(table, where, findings) is { } fixture)
            {
                fixtures.Add(fixture);
            }
        }
        findings.AddRange(
            document.KeyValues.Select(k => Bad(where, k.Span.Start, $"unknown key '{k.Key}' outside [[fixture]]"))
        );
        Register register = new([.. fixtures.OrderBy(f => f.Job, StringComparer.Ordinal).ThenBy(f => f.Revision)]);
        findings.AddRange(register.Contradictions(where));
        return Stage.Answer(register, findings);
    }

    private static Fixture? ReadFixture(TableSyntaxBase table, string where, List<Finding> findings)
    {
        Dictionary<string, object> values = new(StringComparer.Ordinal);
        int before = findings.Count;
        foreach (KeyValueSyntax item in table.Items.OfType<KeyValueSyntax>())
        {
            string key = Plain(item.Key!.ToString());
            object? value = item.Value switch
            {
                StringValueSyntax s => s.Value,
                IntegerValueSyntax i => i.Value,
                _ => null,
            };
            if (!Keys.Contains(key) || value is null)
            {
                findings.Add(
                    Bad(
                        where,
                        item.Span.Start,
                        $"'{key}' is not a key of [[fixture]] or its value is neither text nor a whole number"
                    )
                );
                continue;
            }
            values[key] = value;
        }
        string[] missing = [.. Keys.Where(k => !values.ContainsKey(k))];
        if (missing.Length > 0)
        {
            findings.Add(Bad(where, table.Span.Start, $"[[fixture]] lacks {string.Join(", ", missing)}"));
        }
        FixtureState? state = Enum.GetValues<FixtureState>()
            .Cast<FixtureState?>()
            .FirstOrDefault(s => values.GetValueOrDefault("state") is string w && Word(s!.Value) == w);
        if (missing.Length == 0 && state is null)
        {
            findings.Add(
                Bad(where, table.Span.Start, $"state '{values["state"]}' is none of planned, cut, worn, scrapped")
            );
        }
        if (findings.Count > before)
        {
            return null;
        }
        return
            values is { } v
            && v["job"] is string job
            && v["id"] is string id
            && v["plate"] is string plate
            && v["revision"] is long revision
            && v["program"] is long program
            && v["plate_revision"] is long plateRevision
            ? InRange(v, table, where, findings)
                ? new Fixture(job, id, (int)revision, (int)program, plate, (int)plateRevision, state!.Value)
                : null
            : Wrong(table, where, findings);
    }

    /// <summary>The same bounds as a job's and a plate's own keys have; a plate_revision of 0 is a fixture not made yet.</summary>
    private static bool InRange(
        Dictionary<string, object> values,
        TableSyntaxBase table,
        string where,
        List<Finding> findings
    )
    {
        int before = findings.Count;
        foreach (
            (string key, long least, long greatest) in (ReadOnlySpan<(string, long, long)>)
                [("revision", 1, 9999), ("program", 0, 99999999), ("plate_revision", 0, 9999)]
        )
        {
            if (values[key] is long v && (v < least || v > greatest))
            {
                findings.Add(
                    Bad(
                        where,
                        table.Items.OfType<KeyValueSyntax>().First(i => Plain(i.Key!.ToString()) == key).Span.Start,
                        string.Create(
                            CultureInfo.InvariantCulture,
                            $"{key} is {v}; it must be from {least} to {greatest}"
                        )
                    )
                );
            }
        }
        return findings.Count == before;
    }

    private static Fixture? Wrong(TableSyntaxBase table, string where, List<Finding> findings)
    {
        findings.Add(
            Bad(
                where,
                table.Span.Start,
                "job, id, plate and state are text; revision, program and plate_revision are whole numbers"
            )
        );
        return null;
    }

    private static string Plain(string name) => name.Trim().Trim('[', ']', '"').Trim();

    private static string Quoted(string text) =>
        "\""
        + text.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\"", "\\\"", StringComparison.Ordinal)
        + "\"";

    private static Finding Bad(string where, TextPosition at, string message) =>
        new(
            "register-damaged",
            Severity.Error,
            string.Create(CultureInfo.InvariantCulture, $"{where}:{at.Line + 1}:{at.Column + 1}"),
            message,
            "mend the entry by hand or bring the file back from a copy; nothing was changed"
        );
}
