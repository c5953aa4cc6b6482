using System.Collections.Immutable;
using System.CommandLine;
using System.Text.Json.Nodes;
using FixtureGen.App.Files;
using FixtureGen.App.Terminal;
using FixtureGen.Drawing;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Drawing.Roles;
using FixtureGen.Model;
using FixtureGen.Shop.Jobs;
using FixtureGen.Shop.Reading;

namespace FixtureGen.App.Commands;

/// <summary>
/// <c>new OUTLINE.dxf|.svg</c>: writes OUTLINE.toml beside the drawing; never overwrites. What only the shop knows comes from options,
/// on a terminal from questions, or stays "?" in the job. Where no folder above has a
/// templates/, --shop puts the built-in shop's beside the drawing.
/// </summary>
internal static class NewCommand
{
    /// <summary>The command; exit 0 written, 1 where the drawing is refused or the job is there already.</summary>
    public static Command Build(Say say)
    {
        Argument<string> drawing = CommandTree.PathArgument("OUTLINE.dxf|.svg", "the part outline");
        Option<bool> json = CommandTree.Json();
        Option<bool> shop = new("--shop")
        {
            Description = "where there is no templates/ yet, put the built-in shop's beside the outline",
        };
        Option<string> shell = Asked("--shell", "the shell's material, a file of templates/materials/");
        Option<string> thickness = Asked(
            "--thickness",
            "of the shell at its edge, in the drawing's unit or as \"1.5 mm\""
        );
        Option<string> slack = Asked("--slack", "how far a shell can be pushed about on the block, at the most");
        Option<string> locator = Asked("--locator", "what locates the shell: auto, pins, form or hand");
        Option<string> unit = Asked("--unit", "what the drawing's numbers are in where it does not say: mm or in");
        unit.AcceptOnlyFromAmong("mm", "in");
        locator.AcceptOnlyFromAmong("auto", "pins", "form", "hand");
        Command command = new("new", "Write a job file beside an outline; asks what only the shop knows.")
        {
            drawing,
            shop,
            shell,
            thickness,
            slack,
            locator,
            unit,
            json,
        };
        command.SetAction(p =>
        {
            string Of(Option<string> option) => p.GetValue(option) ?? "";
            JobAnswers given = new(Of(shell), Of(thickness), Of(slack), Of(locator), Of(unit));
            return Run(say, p.GetValue(drawing)!, p.GetValue(shop), given, p.GetValue(json));
        });
        return command;
    }

    private static Option<string> Asked(string name, string description) => new(name) { Description = description };

    private static int Run(Say say, string path, bool shop, JobAnswers given, bool json)
    {
        if (Trouble(path) is { } trouble)
        {
            return Answer(say, null, [trouble], json);
        }
        Stage<LibraryFolder> library = LibraryFolder.Find(path);
        if (!library.Ok && shop)
        {
            string folder = Path.GetDirectoryName(Path.GetFullPath(path))!;
            try
            {
                BuiltIn.LayShop(folder);
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                return Answer(say, null, [NotWritable(Path.Combine(folder, "templates"), e)], json);
            }
            say.Error($"Put the built-in shop's files in {Path.Combine(folder, "templates")}: make them your own.");
            library = LibraryFolder.Find(path);
        }
        if (!library.Ok)
        {
            return Answer(say, null, library.Findings, json);
        }
        Stage<DrawingContent> drawing = DxfReader.Read(File.ReadAllBytes(path), path, null, Tolerances.House);
        string job = Path.ChangeExtension(path, ".toml");
        if (drawing.Value is not { } read)
        {
            return Answer(say, null, drawing.Findings, json);
        }
        ShopFiles files = library.Value!.Shop(null);
        string text = JobTemplate.NewJob(Answered(say, path, Facts(path, read), given, files, json), files);
        Finding[] wrong =
        [
            .. UnknownShell(given.Shell, [.. JobTemplate.Shells(files)]),
            .. JobReader
                .Read(text, job, files)
                .Findings.Where(f =>
                    f.Severity == Severity.Error && f.Code is not ("key-unanswered" or "shop-name-unknown")
                ),
        ];
        if (wrong.Length > 0)
        {
            return Answer(say, null, wrong, json);
        }
        try
        {
            using FileStream stream = new(job, FileMode.CreateNew, FileAccess.Write);
            stream.Write(System.Text.Encoding.UTF8.GetBytes(text));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return Answer(say, null, [NotWritable(job, e)], json);
        }
        return Answer(say, job, drawing.Findings, json, [.. JobReader.OpenQuestions(text, job)]);
    }

    private static IEnumerable<Finding> UnknownShell(string shell, string[] known)
    {
        if (shell.Length > 0 && !known.Contains(shell, StringComparer.Ordinal))
        {
            yield return new(
                "shop-name-unknown",
                Severity.Error,
                "--shell",
                $"templates/materials/ has no plastic '{shell}'",
                $"there are: {string.Join(", ", known)}"
            );
        }
    }

    /// <summary>The facts with a free id and the answers, asked for on a terminal.</summary>
    private static DrawingFacts Answered(
        Say say,
        string path,
        DrawingFacts facts,
        JobAnswers given,
        ShopFiles files,
        bool json
    )
    {
        string folder = Path.GetDirectoryName(Path.GetFullPath(path))!;
        JobAnswers last = NewQuestions.Last(folder);
        TextReader? terminal = json || Console.IsInputRedirected ? null : Console.In;
        return facts with
        {
            Fixture = JobTemplate.FreeId(facts.Name, NewQuestions.Taken(folder)),
            Last = last,
            Answers = NewQuestions.Ask(given, last, facts.Unit is null, JobTemplate.Shells(files), say, terminal),
        };
    }

    private static Finding NotWritable(string path, Exception e) =>
        new("job-not-writable", Severity.Error, path, e.Message, "free the folder's permissions or its disk");

    private static DrawingFacts Facts(string path, DrawingContent drawing)
    {
        Box2 box = (drawing.Open.IsEmpty ? drawing.Extent : drawing.CurveBounds) ?? default;
        bool On(string layer) =>
            drawing.Curves.Any(c => string.Equals(c.Layer, layer, StringComparison.OrdinalIgnoreCase))
            || drawing.Points.Any(p => string.Equals(p.Layer, layer, StringComparison.OrdinalIgnoreCase));
        DrawingRoles house = DrawingRoles.House;
        ImmutableArray<SuggestedRole> layers = RoleSuggestion.ByLayer(drawing, house);
        return new DrawingFacts(
            Path.GetFileNameWithoutExtension(path),
            drawing.Unit,
            box.Width,
            box.Height,
            On("FORM"),
            On("MAGNET")
        )
        {
            Extension = Path.GetExtension(path),
            Layers = layers.Length == 1 && !On("OUTLINE") ? [] : layers,
            Colours = RoleSuggestion.ByColour(drawing, house),
            LineTypes = RoleSuggestion.ByLineType(drawing, house),
        };
    }

    private static Finding? Trouble(string path) =>
        !DrawingFiles.Is(path)
            ? new("not-a-drawing", Severity.Error, path, "an outline is a .dxf or .svg file", "name the drawing")
        : !File.Exists(path)
            ? new("drawing-missing", Severity.Error, path, "there is no such drawing", "check the path")
        : File.Exists(Path.ChangeExtension(path, ".toml"))
            ? new(
                "job-exists",
                Severity.Error,
                Path.ChangeExtension(path, ".toml"),
                "the job is there already and is never overwritten",
                "edit it, or move it away first"
            )
        : null;

    private static int Answer(Say say, string? job, IReadOnlyList<Finding> findings, bool json) =>
        Answer(say, job, findings, json, []);

    private static int Answer(
        Say say,
        string? job,
        IReadOnlyList<Finding> findings,
        bool json,
        IReadOnlyList<string> open
    )
    {
        say.Findings(findings);
        if (json)
        {
            say.Json(
                AppJson.Text(
                    new JsonObject
                    {
                        ["ok"] = job is not null,
                        ["job"] = job,
                        ["unanswered"] = new JsonArray([.. open.Select(o => (JsonNode)o)]),
                        ["findings"] = AppJson.Findings(findings),
                    }
                )
            );
        }
        else if (job is not null)
        {
            say.Line($"Wrote {job}");
            say.Line(
                open.Count == 0
                    ? $"Next:  fixturegen check {job}"
                    : $"Next: answer {string.Join(", ", open)} in it, then  fixturegen check {job}"
            );
        }
        return job is null ? ExitCode.Refused : ExitCode.Made;
    }
}
