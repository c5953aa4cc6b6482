using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using FixtureGen.Model;
using FixtureGen.Toolpaths;
using Tomlyn.Parsing;
using Tomlyn.Syntax;

namespace FixtureGen.App.Regeneration;

/// <summary>How far a revision of a fixture has come.</summary>
public enum FixtureState
{
    /// <summary>Programs may have been made; no block was cut. A next revision takes its place.</summary>
    Planned,

    /// <summary>A block of this revision is on the shelf: placement, features and trim program are frozen.</summary>
    Cut,

    /// <summary>The block is still used and frozen, but due for a remake.</summary>
    Worn,

    /// <summary>The block was thrown away; the entry stays so that its number is not given out again.</summary>
    Scrapped,
}

/// <summary>One revision of one job's fixture. Program is the job's base number N (trim N, top N + 1, underside N + 2).</summary>
public sealed record Fixture(
    string Job,
    string Id,
    int Revision,
    int Program,
    string Plate,
    int PlateRevision,
    FixtureState State
)
{
    /// <summary>True while a block of this revision may still be clamped on the machine.</summary>
    public bool OnShelf => this.State is FixtureState.Cut or FixtureState.Worn;
}

/// <summary>The register <c>library.toml</c>, sorted by job and revision. It lies in the folder of the jobs.</summary>
public sealed record Register(ImmutableArray<Fixture> Fixtures)
{
    /// <summary>In the folder of the jobs.</summary>
    public const string FileName = "library.toml";

    private readonly ILookup<string, Fixture> byJob = Fixtures.ToLookup(f => f.Job, StringComparer.Ordinal);

    /// <summary>What the numbers N, N + 1 and N + 2 of a job are.</summary>
    private static readonly string[] Programs = ["trim", "top", "underside"];

    private static readonly string[] Keys = ["job", "id", "revision", "program", "plate", "plate_revision", "state"];

    /// <summary>No fixture yet.</summary>
    public static Register Empty { get; } = new(ImmutableArray<Fixture>.Empty);

    /// <summary>The newest revision of a job that is not scrapped, else its newest; null when the job is not registered.</summary>
    public Fixture? Current(string job) =>
        this.Of(job).Where(f => f.State != FixtureState.Scrapped).MaxBy(f => f.Revision)
        ?? this.Of(job).MaxBy(f => f.Revision);

    /// <summary>What the pipeline is told of a fixture: with an older block of the job on the shelf the register's number overrules the job's.</summary>
    public Registered Told(Fixture fixture) =>
        new(
            fixture.Program,
            fixture.Id,
            fixture.Revision,
            this.Of(fixture.Job).Any(f => f.OnShelf && f.Revision < fixture.Revision)
        );

    /// <summary>All revisions of a job, rising; empty when it is not registered.</summary>
    public IEnumerable<Fixture> Of(string job) => this.byJob[job];

    /// <summary>The register with this fixture in place of the same job's same revision, or added.</summary>
    public Register With(Fixture fixture) => this.With([fixture]);

    /// <summary>The register with each of these in place of the same job's same revision, or added.</summary>
    public Register With(IReadOnlyCollection<Fixture> fixtures)
    {
        HashSet<(string, int)> replaced = [.. fixtures.Select(f => (f.Job, f.Revision))];
        return new([
            .. this
                .Fixtures.Where(f => !replaced.Contains((f.Job, f.Revision)))
                .Concat(fixtures)
                .OrderBy(f => f.Job, StringComparer.Ordinal)
                .ThenBy(f => f.Revision),
        ]);
    }

    /// <summary>What cannot be true: a program number that two jobs take, one revision listed twice, a block on the shelf above a later scrapped one.</summary>
    public IEnumerable<Finding> Contradictions(string where)
    {
        foreach ((Fixture a, Fixture b) in this.Shared())
        {
            yield return new Finding(
                "number-used-twice",
                Severity.Error,
                where,
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"program number {b.Program} is the {Programs[b.Program - a.Program]} of {a.Job} and the {Programs[0]} of {b.Job}"
                ),
                "give one of them another 'program' number: a job takes three in a row"
            );
        }
        foreach (IGrouping<string, Fixture> g in this.Fixtures.GroupBy(f => f.Job, StringComparer.Ordinal))
        {
            if (g.Select(f => f.Revision).Distinct().Count() != g.Count())
            {
                yield return new Finding(
                    "revision-twice",
                    Severity.Error,
                    where,
                    $"{g.Key} lists one revision twice",
                    "keep one entry a revision"
                );
            }
        }
    }

    /// <summary>One pair for each two jobs that share a number; the second has the greater or the same base number.</summary>
    private IEnumerable<(Fixture A, Fixture B)> Shared()
    {
        Fixture[] sorted =
        [
            .. this.Fixtures.OrderBy(f => f.Program).ThenBy(f => f.Job, StringComparer.Ordinal).ThenBy(f => f.Revision),
        ];
        return Enumerable
            .Range(0, sorted.Length)
            .SelectMany(i =>
                sorted[(i + 1)..]
                    .TakeWhile(b => b.Program - sorted[i].Program < ProgramNumbers.PerJob)
                    .Where(b => b.Job != sorted[i].Job)
                    .Select(b => (sorted[i], b))
            )
            .DistinctBy(p => (p.Item1.Job, p.b.Job));
    }

    /// <summary>The file's text, sorted, line feeds only: the same register gives the same bytes.</summary>
    public string ToToml()
    {
        StringBuilder text = new();
        text.Append("# The register of fixtures: written by 'fixturegen regenerate' and 'fixturegen register'.\n");
        text.Append("# state: planned, cut (a block is on the shelf and frozen), worn (due for a remake), scrapped.\n");
        foreach (Fixture f in this.Fixtures)
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
            _ => "scrapped",
        };

    /// <summary>Reads the register's text; whatever is not understood is a finding with line and column, and nothing is guessed.</summary>
    public static Stage<Register> Parse(string text, string where)
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
            if (One(table, where, findings) is { } fixture)
            {
                fixtures.Add(fixture);
            }
        }
        findings.AddRange(
            document.KeyValues.Select(k => Bad(where, k.Span.Start, $"unknown key '{k.Key}' outside [[fixture]]"))
        );
        Register register = new([.. fixtures.OrderBy(f => f.Job, StringComparer.Ordinal).ThenBy(f => f.Revision)]);
        findings.AddRange(register.Contradictions(where));
        return Stage.Of(register, findings);
    }

    private static Fixture? One(TableSyntaxBase table, string where, List<Finding> findings)
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
