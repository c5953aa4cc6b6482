using System.CommandLine;
using System.Text.Json.Nodes;
using FixtureGen.App.Files;
using FixtureGen.App.Library;
using FixtureGen.App.Terminal;
using FixtureGen.Drawing;
using FixtureGen.Drawing.Chaining;
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
        Option<string> holes = Asked(
            "--small-holes",
            "cutouts that no cutter fits into: drill, second-cutter, spot or leave"
        );
        Option<string> corner = Asked(
            "--corner-left",
            "what may stay standing in an inner corner that no cutter reaches, as \"0.5 mm\""
        );
        holes.AcceptOnlyFromAmong("drill", "second-cutter", "spot", "leave");
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
            holes,
            corner,
            json,
        };
        command.SetAction(p =>
        {
            string Of(Option<string> option) => p.GetValue(option) ?? "";
            JobAnswers given = new(Of(shell), Of(thickness), Of(slack), Of(locator), Of(unit))
            {
                SmallHoles = Of(holes),
                CornerLeft = Of(corner),
            };
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
                return Answer(say, null, [NewJob.NotWritable(Path.Combine(folder, "templates"), e)], json);
            }
            say.Error($"Put the built-in shop's files in {Path.Combine(folder, "templates")}: make them your own.");
            library = LibraryFolder.Find(path);
        }
        if (!library.Ok)
        {
            return Answer(say, null, library.Findings, json);
        }
        byte[] bytes = File.ReadAllBytes(path);
        Stage<DrawingContent> drawing = DxfReader.Read(bytes, path, null, Tolerances.House);
        string job = Path.ChangeExtension(path, ".toml");
        if (drawing.Value is not { } read)
        {
            return Answer(say, null, drawing.Findings, json);
        }
        ShopFiles files = library.Value!.Shop(null);
        DrawingFacts facts = Answered(say, NewJob.Describe(path, read), given, files, json);
        DrawingContent known = InItsUnit(read, bytes, path, facts.Answers.Unit);
        facts = NewJob.WithEdges(facts, known, job, files);
        facts = facts with { Answers = NewQuestions.AskOfEdges(facts, say, Terminal(json)) };
        Stage<string> text = NewJob.Text(facts, job, files);
        if (!text.Ok)
        {
            return Answer(say, null, text.Findings, json);
        }
        if (NewJob.Write(job, text.Value!) is { } refused)
        {
            return Answer(say, null, [refused], json);
        }
        return Answer(say, job, drawing.Findings, json, [.. JobReader.OpenQuestions(text.Value!, job)]);
    }

    /// <summary>The facts with the answers, asked for on a terminal.</summary>
    private static DrawingFacts Answered(Say say, DrawingFacts facts, JobAnswers given, ShopFiles files, bool json) =>
        facts with
        {
            Answers = NewQuestions.Ask(
                given,
                facts.Last,
                facts.Unit is null,
                JobTemplate.Shells(files),
                say,
                Terminal(json)
            ),
        };

    private static TextReader? Terminal(bool json) => json || Console.IsInputRedirected ? null : Console.In;

    /// <summary>The drawing in the unit that was answered for it; as it was read where it states one or none was answered.</summary>
    private static DrawingContent InItsUnit(DrawingContent read, byte[] bytes, string path, string unit) =>
        read.Unit is null && unit is ("mm" or "in")
            ? DxfReader
                .Read(bytes, path, unit == "in" ? LengthUnit.Inch : LengthUnit.Millimetre, Tolerances.House)
                .Value
                ?? read
            : read;

    private static Finding? Trouble(string path) =>
        !DrawingFiles.Is(path)
            ? new("not-a-drawing", Severity.Error, path, "an outline is a .dxf or .svg file", "name the drawing")
        : !File.Exists(path)
            ? new("drawing-missing", Severity.Error, path, "there is no such drawing", "check the path")
        : File.Exists(Path.ChangeExtension(path, ".toml")) ? NewJob.Exists(Path.ChangeExtension(path, ".toml"))
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
