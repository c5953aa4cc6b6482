using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json.Nodes;
using FixtureGen.App.Records;
using FixtureGen.App.Terminal;

namespace FixtureGen.App.Library.Changes;

/// <summary>The change report as one JSON object: <c>regenerate.report.json</c> and what --json prints.</summary>
internal static class ChangeReport
{
    /// <summary>ok is true where every job is made or unchanged. On a dry run made counts the jobs that would be.</summary>
    public static string Json(ImmutableArray<JobChange> changes, ImmutableArray<Notice> notices, bool dryRun)
    {
        JsonObject root = new()
        {
            ["ok"] = changes.All(c => c.Result is JobResult.Made or JobResult.Unchanged),
            ["dryRun"] = dryRun,
            ["made"] = changes.Count(c => c.Result == JobResult.Made),
            ["unchanged"] = changes.Count(c => c.Result == JobResult.Unchanged),
            ["refused"] = changes.Count(c => c.Result == JobResult.Refused),
            ["stopped"] = changes.Count(c => c.Result == JobResult.Stopped),
            ["jobs"] = new JsonArray([.. changes.Select(Job)]),
            ["notices"] = NoticeText.Json(notices),
            ["recut"] = new JsonArray([.. RecutRow.List(notices, changes).Select(r => (JsonNode)r.Json())]),
        };
        return AppJson.Text(root);
    }

    /// <summary>The report's word for a result: made, unchanged, refused, stopped.</summary>
    public static string Word(JobResult result) =>
        result switch
        {
            JobResult.Made => "made",
            JobResult.Unchanged => "unchanged",
            JobResult.Refused => "refused",
            JobResult.Stopped => "stopped",
        };

    /// <summary>The same for a person: on a dry run nothing was made.</summary>
    public static string ResultWord(JobResult result, bool dryRun) =>
        dryRun && result == JobResult.Made ? "would be made" : Word(result);

    /// <summary>"12.3 -> 11.8 min", or the one that exists.</summary>
    public static string Pair(double? before, double? after, string format)
    {
        string Show(double v) => v.ToString(format, CultureInfo.InvariantCulture);
        return (before, after) switch
        {
            (null, null) => "-",
            (null, double a) => Show(a),
            (double b, null) => Show(b),
            (double b, double a) => Show(b) == Show(a) ? Show(a) : $"{Show(b)} -> {Show(a)}",
        };
    }

    private static JsonNode Job(JobChange c) =>
        new JsonObject
        {
            ["job"] = c.Job,
            ["result"] = Word(c.Result),
            ["why"] = c.Why,
            ["revision"] = c.Revision,
            ["programNumber"] = c.Program,
            ["moved"] = Texts(c.Moved),
            ["reload"] = Texts(c.Reload),
            ["trim"] = c.Trim,
            ["scrap"] = c.Misfits.Length > 0 ? c.Misfits[0].What : null,
            ["minutes"] = Two(c.Before?.Minutes, c.After?.Minutes),
            ["vacuumOnly"] = Two(c.Before?.VacuumOnly, c.After?.VacuumOnly),
            ["magnetsStopping"] = Two(c.Before?.MagnetsStopping, c.After?.MagnetsStopping),
            ["both"] = Two(c.Before?.Both, c.After?.Both),
            ["findings"] = new JsonArray([
                .. c.Findings.Select(f =>
                    (JsonNode)
                        new JsonObject
                        {
                            ["code"] = f.Code,
                            ["severity"] = f.Severity,
                            ["where"] = f.Where,
                            ["message"] = f.Message,
                            ["remedy"] = f.Remedy,
                        }
                ),
            ]),
        };

    private static JsonObject Two(double? before, double? after) => new() { ["before"] = before, ["after"] = after };

    private static JsonArray Texts(IEnumerable<string> texts) =>
        new([.. texts.Select(t => (JsonNode)JsonValue.Create(t)!)]);
}
