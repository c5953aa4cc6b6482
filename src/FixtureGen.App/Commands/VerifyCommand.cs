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
        Option<bool> strict = new("--strict") { Description = "warnings are errors too" };
        Option<bool> json = CommandTree.Json();
        Command command = new("verify", "Carve the block with a finished program and say what harm it would do.")
        {
            job,
            program,
            setup,
            picture,
            strict,
            json,
        };
        command.SetAction(p =>
            Run(
                say,
                p.GetValue(job)!,
                p.GetValue(program)!,
                p.GetValue(setup),
                p.GetValue(picture),
                new Manner(p.GetValue(strict), p.GetValue(json))
            )
        );
        return command;
    }

    private static int Run(Say say, string jobPath, string programPath, string? setup, string? picture, Manner how)
    {
        Stage<JobSource> source = JobSource.Read(jobPath);
        if (!source.Ok)
        {
            return Answer(say, null, source.Findings, how);
        }
        string text;
        try
        {
            text = ProgramFile.Read(programPath);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return Answer(say, null, [Unreadable(programPath, e)], how);
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
            text,
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
        return Answer(say, outcome.Verdict, findings, how);
    }

    /// <summary>How findings count and are said.</summary>
    private sealed record Manner(bool Strict, bool Json);

    private static Finding Raised(Finding f) =>
        f.Severity == Severity.Warning ? f with { Severity = Severity.Error } : f;

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

    private static Finding Unreadable(string path, Exception e) =>
        e is FileNotFoundException or DirectoryNotFoundException
            ? new Finding(
                "program-missing",
                Severity.Error,
                path,
                "there is no such file",
                "check the path of the program"
            )
            : new Finding(
                "file-unreadable",
                Severity.Error,
                path,
                $"the program cannot be read: {e.Message}",
                "name a file that you may read"
            );

    private static int Answer(Say say, VerifyResult? verdict, ImmutableArray<Finding> all, Manner how)
    {
        ImmutableArray<Finding> findings = how.Strict ? [.. all.Select(Raised)] : all;
        int errors = findings.Count(f => f.Severity == Severity.Error);
        int warnings = findings.Count(f => f.Severity == Severity.Warning);
        bool ok = verdict is { Ok: true } && errors == 0;
        ProgramVerdict? p = verdict?.Programs.FirstOrDefault();
        bool unknown = findings.Any(f => f.Code == "setup-unknown");
        if (how.Json)
        {
            say.Json(
                AppJson.Text(
                    new JsonObject
                    {
                        ["ok"] = ok,
                        ["errors"] = errors,
                        ["warnings"] = warnings,
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
                    $"{p.FileName} as {(unknown ? "no known setup" : Words.For(p.Setup))}: {(ok ? "ok" : "REFUSED")}, {errors} error(s), {warnings} warning(s)"
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
        else if (hold is { Vacuum: null, Magnets: { } alone })
        {
            yield return $"  held on magnets alone, full load {Figure(alone)}";
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
