using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json.Nodes;
using FixtureGen.Model;
using FixtureGen.Output;

namespace FixtureGen.App.Commands;

/// <summary>Checks every job below a folder; one bad job never stops the rest.</summary>
public static class CheckFolder
{
    public static int Run(Say say, string folder, string? plate, bool json)
    {
        ImmutableArray<string> jobs = Jobs(folder);
        if (jobs.Length == 0)
        {
            return MakeCommand.Refuse(
                say,
                "",
                [
                    new Finding(
                        "no-jobs",
                        Severity.Error,
                        folder,
                        "no job (a .toml with a like-named .dxf) lies below it",
                        "name a folder of jobs, or write one with 'fixturegen new OUTLINE.dxf'"
                    ),
                ],
                json
            );
        }
        JsonArray reports = [];
        bool ok = true;
        using Steps steps = say.Steps();
        foreach (string path in jobs)
        {
            Outcome outcome = One(path, plate, steps);
            ok &= outcome.Report.Ok;
            say.Findings(outcome.Findings.Where(f => f.Severity != Severity.Note));
            if (json)
            {
                reports.Add(JsonNode.Parse(AppJson.Checked(outcome.Report)));
            }
            else
            {
                say.Line(Row(outcome.Report));
            }
        }
        if (json)
        {
            say.Json(AppJson.Text(new JsonObject { ["ok"] = ok, ["jobs"] = reports }));
        }
        return ok ? Program.Made : Program.Refused;
    }

    /// <summary>Every .toml below the folder that has a like-named .dxf beside it, sorted; hidden folders and out/ are passed over.</summary>
    public static ImmutableArray<string> Jobs(string folder) =>
        [
            .. Directory
                .EnumerateFiles(folder, "*.toml", SearchOption.AllDirectories)
                .Where(f => File.Exists(Path.ChangeExtension(f, ".dxf")))
                .Where(f =>
                    !Path.GetRelativePath(folder, f)
                        .Split(Path.DirectorySeparatorChar)
                        .SkipLast(1)
                        .Any(p => p.StartsWith('.') || p == "out")
                )
                .Order(StringComparer.Ordinal),
        ];

    private static Outcome One(string path, string? plate, Steps steps)
    {
        Stage<JobSource> source = JobSource.Read(path);
        if (!source.Ok)
        {
            Report refused = ReportBuilder.Refused(
                Path.GetFileNameWithoutExtension(path),
                source.Findings,
                ProductVersion.Text
            );
            return new Outcome(refused, source.Findings, [], null, null, null, null);
        }
        return Pipeline.Check(source.Value!.Request(plate, steps.Begin));
    }

    private static string Row(Report report)
    {
        CultureInfo c = CultureInfo.InvariantCulture;
        if (!report.Ok || report.Holding is not { } h)
        {
            FindingLine? first = report.Findings.FirstOrDefault(f => f.Severity == "error");
            return $"{report.Job, -28} REFUSED  {first?.Code}: {first?.Message}";
        }
        return string.Create(
            c,
            $"{report.Job, -28} ok  vacuum {h.VacuumOnly.Factor, 6:0.00}  magnets stopping {h.MagnetsStopping.Factor, 6:0.00}  both {h.Both.Factor, 6:0.00}"
        );
    }
}
