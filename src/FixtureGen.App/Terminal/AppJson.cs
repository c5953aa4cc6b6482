using System.Text.Json.Nodes;
using FixtureGen.Model;
using FixtureGen.Output.Reports;

namespace FixtureGen.App.Terminal;

/// <summary>What the commands print with --json beyond the report itself.</summary>
internal static class AppJson
{
    /// <summary>The report plus "seconds" by step; timings never go into the report file.</summary>
    public static string Made(Report report, IReadOnlyList<(string Step, double Seconds)> steps)
    {
        JsonObject node = JsonNode.Parse(ReportJson.Text(report))!.AsObject();
        JsonObject seconds = [];
        foreach ((string step, double value) in steps)
        {
            seconds[step] = Math.Round(value, 4);
        }
        seconds["total"] = Math.Round(steps.Sum(s => s.Seconds), 4);
        node["seconds"] = seconds;
        return Text(node);
    }

    /// <summary>The report without the keys that need programs.</summary>
    public static string Checked(Report report)
    {
        JsonObject node = JsonNode.Parse(ReportJson.Text(report))!.AsObject();
        node.Remove("programs");
        node.Remove("verify");
        return Text(node);
    }

    /// <summary>Why a run ended before its command could answer, with the exit code.</summary>
    public static string Ended(int exit, IEnumerable<string> messages) =>
        Text(
            new JsonObject
            {
                ["ok"] = false,
                ["exit"] = exit,
                ["messages"] = new JsonArray([.. messages.Select(m => (JsonNode)JsonValue.Create(m)!)]),
            }
        );

    /// <summary>The object with two spaces a level and line feeds also on Windows, ended by one.</summary>
    public static string Text(JsonObject node) =>
        node.ToJsonString(new System.Text.Json.JsonSerializerOptions { WriteIndented = true, NewLine = "\n" }) + "\n";

    /// <summary>The findings in their order; line is null where none applies.</summary>
    public static JsonArray Findings(IEnumerable<Finding> findings) =>
        new([
            .. findings.Select(f =>
                (JsonNode)
                    new JsonObject
                    {
                        ["code"] = f.Code,
                        ["severity"] = Words.For(f.Severity),
                        ["line"] = f.Line,
                        ["where"] = f.Where,
                        ["message"] = f.Message,
                        ["remedy"] = f.Remedy,
                    }
            ),
        ]);
}
