using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using System.Text.Json.Nodes;
using FixtureGen.App.Files;
using FixtureGen.App.Terminal;
using FixtureGen.Model;
using FixtureGen.Output;
using FixtureGen.Output.Pictures;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.App.Commands;

/// <summary><c>verify JOB.toml PROGRAM.nc</c>: judge one program, perhaps edited by hand, against the job's design.</summary>
internal static class VerifyCommand
{
    /// <summary>The command; exit 0 where the judge passes the program, 1 else.</summary>
    public static Command Build(Say say)
    {
        Argument<string> job = CommandTree.PathArgument("JOB.toml", "the job the program belongs to");
        Argument<string> program = CommandTree.PathArgument("PROGRAM.nc", "the program to judge");
        Option<string?> setup = new("--setup")
        {
            HelpName = "underside|top|trim",
            Description = "which setup it runs in (else known from its number, first comment or name)",
        };
        setup.AcceptOnlyFromAmong("underside", "top", "trim");
        Option<string?> picture = new("--picture")
        {
            HelpName = "FILE",
            Description = "write a PNG that shows where it failed",
        };
        Option<bool> json = CommandTree.Json();
        Command command = new("verify", "Carve the block with a finished program and say what harm it would do.")
        {
            job,
            program,
            setup,
            picture,
            json,
        };
        command.SetAction(p =>
            Run(say, p.GetValue(job)!, p.GetValue(program)!, p.GetValue(setup), p.GetValue(picture), p.GetValue(json))
        );
        return command;
    }

    private static int Run(Say say, string jobPath, string programPath, string? setup, string? picture, bool json)
    {
        Stage<JobSource> source = JobSource.Read(jobPath);
        if (!source.Ok)
        {
            return Answer(say, null, source.Findings, json);
        }
        if (!File.Exists(programPath))
        {
            return Answer(
                say,
                null,
                [
                    new Finding(
                        "program-missing",
                        Severity.Error,
                        programPath,
                        "there is no such file",
                        "check the path of the program"
                    ),
                ],
                json
            );
        }
        Setup? known = setup switch
        {
            "underside" => Setup.Underside,
            "top" => Setup.Top,
            "trim" => Setup.Trim,
            _ => null,
        };
        using Steps steps = say.Steps();
        Outcome outcome = Delivery.VerifyFile(
            source.Value!.Request(null, steps.Begin),
            Path.GetFileName(programPath),
            File.ReadAllText(programPath),
            known
        );
        steps.Dispose();
        ImmutableArray<Finding> findings = outcome.Findings;
        if (picture is not null && outcome.Verdict is not null)
        {
            Finding[] failed = [.. WritePicture(picture, outcome)];
            findings = [.. findings, .. failed];
            if (failed.Length == 0)
            {
                say.Error($"Picture: {picture}");
            }
        }
        return Answer(say, outcome.Verdict, findings, json);
    }

    private static IEnumerable<Finding> WritePicture(string path, Outcome outcome)
    {
        byte[] png = VerifyPicture.Png(outcome.Design!, outcome.Verdict!);
        try
        {
            File.WriteAllBytes(path, png);
            return [];
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return
            [
                new Finding(
                    "out-not-writable",
                    Severity.Error,
                    path,
                    $"the picture cannot be written: {e.Message}",
                    "name another file after --picture"
                ),
            ];
        }
    }

    private static int Answer(Say say, VerifyResult? verdict, ImmutableArray<Finding> findings, bool json)
    {
        bool ok = verdict is { Ok: true } && findings.All(f => f.Severity != Severity.Error);
        ProgramVerdict? p = verdict?.Programs.FirstOrDefault();
        bool unknown = findings.Any(f => f.Code == "setup-unknown");
        if (json)
        {
            say.Json(
                AppJson.Text(
                    new JsonObject
                    {
                        ["ok"] = ok,
                        ["findings"] = AppJson.Findings(findings),
                        ["setup"] = p is null || unknown ? null : Words.For(p.Setup),
                        ["minutes"] = p is null ? null : Math.Round(p.Minutes, 3),
                        ["cutMm"] = p is null ? null : Math.Round(p.CutMm, 2),
                        ["rapidMm"] = p is null ? null : Math.Round(p.RapidMm, 2),
                        ["removedMm3"] = p is null ? null : Math.Round(p.RemovedMm3, 1),
                        ["airCutShare"] = p is null ? null : Math.Round(p.AirCutShare, 3),
                        ["maxGougeDepthMm"] = verdict is null ? null : Math.Round(verdict.MaxGougeDepthMm, 4),
                        ["maxGougeSideMm"] = verdict is null ? null : Math.Round(verdict.MaxGougeSideMm, 4),
                        ["maxLeftoverMm"] = verdict is null ? null : Math.Round(verdict.MaxLeftoverMm, 4),
                        ["hold"] = p is null ? null : Hold(p.Hold),
                    }
                )
            );
            say.Findings(findings);
            return ok ? ExitCode.Made : ExitCode.Refused;
        }
        say.Findings(findings);
        if (p is not null)
        {
            CultureInfo c = CultureInfo.InvariantCulture;
            say.Line(
                string.Create(
                    c,
                    $"{p.FileName} as {(unknown ? "no known setup" : Words.For(p.Setup))}: {(ok ? "ok" : "REFUSED")}, {findings.Count(f => f.Severity == Severity.Error)} error(s), {findings.Count(f => f.Severity == Severity.Warning)} warning(s)"
                )
            );
            if (unknown)
            {
                return ExitCode.Refused;
            }
            say.Line(
                string.Create(
                    c,
                    $"  {p.Minutes:0.0} min, {p.CutMm / 1000:0.0} m cut, {p.RapidMm / 1000:0.0} m rapid, {p.RemovedMm3 / 1000:0.0} cm3 removed, {100 * p.AirCutShare:0} % of the cutting in air"
                )
            );
            say.Line(
                string.Create(
                    c,
                    $"  gouge depth {verdict!.MaxGougeDepthMm:0.000} side {verdict.MaxGougeSideMm:0.000} mm, left-over {verdict.MaxLeftoverMm:0.000} mm"
                )
            );
            foreach (string held in Held(p.Hold))
            {
                say.Line(held);
            }
            foreach (ToolTime t in p.Tools)
            {
                say.Line(string.Create(c, $"  T{t.Tool} {t.Name}: {t.Minutes:0.0} min"));
            }
        }
        return ok ? ExitCode.Made : ExitCode.Refused;
    }

    private static IEnumerable<string> Held(ProgramHold hold)
    {
        static string Figure(HoldPlace h) =>
            string.Create(CultureInfo.InvariantCulture, $"{Math.Floor(100 * h.Factor) / 100:0.00} at line {h.Line}");
        if (hold is { Vacuum: { } vacuum, Magnets: { } magnets })
        {
            yield return $"  held on vacuum alone {Figure(vacuum)}, on magnets while the machine stops {Figure(magnets)}";
        }
        if (hold.Block.MinBy(b => b.Least.Factor) is { } block)
        {
            yield return $"  block held {Figure(block.Least)}";
        }
    }

    private static JsonObject Hold(ProgramHold hold) =>
        new()
        {
            ["vacuum"] = Place(hold.Vacuum),
            ["magnets"] = Place(hold.Magnets),
            ["block"] = new JsonArray([
                .. hold.Block.Select(b =>
                {
                    JsonObject place = Place(b.Least)!;
                    place["tool"] = b.Tool;
                    place["bolted"] = b.Bolted;
                    return place;
                }),
            ]),
        };

    private static JsonObject? Place(HoldPlace? place) =>
        place is null
            ? null
            : new JsonObject
            {
                ["factor"] = Math.Round(place.Factor, 3),
                ["mode"] = Words.For(place.Mode),
                ["line"] = place.Line,
                ["xMm"] = Math.Round(place.At.X, 3),
                ["yMm"] = Math.Round(place.At.Y, 3),
            };
}
