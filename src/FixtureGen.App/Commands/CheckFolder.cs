using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json.Nodes;
using FixtureGen.App.Files;
using FixtureGen.App.Terminal;
using FixtureGen.Model;
using FixtureGen.Output;
using FixtureGen.Output.Reports;
using FixtureGen.Shop.Reading;

namespace FixtureGen.App.Commands;

/// <summary>Checks every job below a folder; one bad job never stops the rest.</summary>
internal static class CheckFolder
{
    /// <summary>A line for each job, or one JSON object with all reports; the exit code is 0 where every job passes.</summary>
    /// <param name="say">Where to.</param>
    /// <param name="folder">It and all below it.</param>
    /// <param name="plate">A plate file for every job; null for each one's own.</param>
    /// <param name="json">One JSON object in place of text.</param>
    public static int Run(Say say, string folder, string? plate, bool json)
    {
        ImmutableArray<string> jobs = JobFiles.Below(folder);
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
                        "no job (a .toml with a like-named .dxf or .svg) lies below it",
                        "name a folder of jobs, or write one with 'fixturegen new OUTLINE.dxf'"
                    ),
                ],
                json
            );
        }
        JsonArray reports = [];
        bool ok = true;
        using Steps steps = say.Steps();
        LibraryNumbers numbers = new();
        Dictionary<LibraryFolder, ShopFiles> shops = [];
        foreach (string path in jobs)
        {
            Outcome outcome = CheckJob(JobSource.Read(path, numbers.For), path, shops, plate, steps);
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
        return ok ? ExitCode.Made : ExitCode.Refused;
    }

    private static Outcome CheckJob(
        Stage<JobSource> source,
        string path,
        Dictionary<LibraryFolder, ShopFiles> shops,
        string? plate,
        Steps steps
    )
    {
        if (!source.Ok)
        {
            Report refused = ReportBuilder.Refused(
                Path.GetFileNameWithoutExtension(path),
                source.Findings,
                ProductVersion.Text
            );
            return new Outcome(refused, source.Findings, [], null, null, null, null);
        }
        JobSource job = source.Value!;
        if (!shops.TryGetValue(job.Library, out ShopFiles? shop))
        {
            shop = job.Library.Shop(plate).Remembered();
            shops.Add(job.Library, shop);
        }
        try
        {
            return Delivery.Check(job.RequestWith(shop, steps.Begin));
        }
        catch (UnreadableFileException e)
        {
            Report refused = ReportBuilder.Refused(job.Name, [e.Finding], ProductVersion.Text);
            return new Outcome(refused, [e.Finding], [], null, null, null, null);
        }
    }

    private static string Row(Report report)
    {
        CultureInfo c = CultureInfo.InvariantCulture;
        if (!report.Ok || report.Holding is not { } h)
        {
            FindingLine? first = report.Findings.FirstOrDefault(f => f.Severity == "error");
            return $"{report.Job, -28} REFUSED  {first?.Code}: {first?.Message}";
        }
        if (h.HeldBy == "magnets")
        {
            return string.Create(c, $"{report.Job, -28} ok  magnets alone {h.MagnetsOnly.Factor, 6:0.00}");
        }
        return string.Create(
            c,
            $"{report.Job, -28} ok  vacuum {h.VacuumOnly.Factor, 6:0.00}  magnets and stops while stopping {h.MagnetsStopping.Stays, 6:0.00}  both {h.Both.Factor, 6:0.00}"
        );
    }
}
