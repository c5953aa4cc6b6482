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

namespace FixtureGen.App.Commands;

/// <summary>
/// <c>new OUTLINE.dxf|.svg [--shop]</c>: writes OUTLINE.toml beside the drawing; never overwrites. Where no folder above has a
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
        Command command = new("new", "Write a job file beside an outline, with every default shown.")
        {
            drawing,
            shop,
            json,
        };
        command.SetAction(p => Run(say, p.GetValue(drawing)!, p.GetValue(shop), p.GetValue(json)));
        return command;
    }

    private static int Run(Say say, string path, bool shop, bool json)
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
        string text = JobTemplate.NewJob(Facts(path, read), library.Value!.Shop(null));
        try
        {
            using FileStream stream = new(job, FileMode.CreateNew, FileAccess.Write);
            stream.Write(System.Text.Encoding.UTF8.GetBytes(text));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return Answer(say, null, [NotWritable(job, e)], json);
        }
        return Answer(say, job, drawing.Findings, json);
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

    private static int Answer(Say say, string? job, IReadOnlyList<Finding> findings, bool json)
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
                        ["findings"] = AppJson.Findings(findings),
                    }
                )
            );
        }
        else if (job is not null)
        {
            say.Line($"Wrote {job}");
            say.Line($"Next: edit it, then  fixturegen check {job}");
        }
        return job is null ? ExitCode.Refused : ExitCode.Made;
    }
}
