using System.Collections.Immutable;
using System.Text;
using FixtureGen.App.Files;
using FixtureGen.Design.Trim;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Drawing.Roles;
using FixtureGen.Model;
using FixtureGen.Shop.Jobs;
using FixtureGen.Shop.Reading;

namespace FixtureGen.App.Library;

/// <summary>A fresh job beside a drawing: what <c>new</c> and the page write alike.</summary>
internal static class NewJob
{
    /// <summary>Of a shell of which nothing was said, only to see which cutters go through it.</summary>
    private const string UsualThickness = "1.5 mm";

    private const string UsualSlack = "0.3 mm";

    /// <summary>What a drawing shows of the job to be, with a free id and with what the newest job of its folder answers.</summary>
    public static DrawingFacts Describe(string path, DrawingContent drawing)
    {
        Box2 box = (drawing.Open.IsEmpty ? drawing.Extent : drawing.CurveBounds) ?? default;
        bool On(string layer) =>
            drawing.Curves.Any(c => string.Equals(c.Layer, layer, StringComparison.OrdinalIgnoreCase))
            || drawing.Points.Any(p => string.Equals(p.Layer, layer, StringComparison.OrdinalIgnoreCase));
        DrawingRoles house = DrawingRoles.House;
        ImmutableArray<SuggestedRole> layers = RoleSuggestion.ByLayer(drawing, house);
        string folder = Path.GetDirectoryName(Path.GetFullPath(path))!;
        string name = Path.GetFileNameWithoutExtension(path);
        return new DrawingFacts(name, drawing.Unit, box.Width, box.Height, On("FORM"), On("MAGNET"))
        {
            Extension = Path.GetExtension(path),
            Layers = layers.Length == 1 && !On("OUTLINE") ? [] : layers,
            Colours = RoleSuggestion.ByColour(drawing, house),
            LineTypes = RoleSuggestion.ByLineType(drawing, house),
            Fixture = JobTemplate.FreeId(name, Taken(folder)),
            Last = Last(folder),
        };
    }

    /// <summary>
    /// The facts with what the shop's cutters do not reach, for its thickness and material where they were answered, else for the last or
    /// usual ones. Unchanged where the drawing makes no part yet or its unit is not known.
    /// </summary>
    /// <param name="drawing">Read in its unit or in the one that was answered.</param>
    public static DrawingFacts WithEdges(DrawingFacts facts, DrawingContent drawing, string job, ShopFiles files)
    {
        if (drawing.Unit is null || PartBuilder.Build(drawing, facts.Layers).Value is not { } part)
        {
            return facts;
        }
        JobAnswers said = facts.Answers;
        string Or(string answer, string last, string usual) =>
            answer.Length > 0 ? answer
            : last.Length > 0 ? last
            : usual;
        DrawingFacts tried = facts with
        {
            HasForm = false,
            Unit = drawing.Unit,
            Answers = new JobAnswers(
                Or(said.Shell, facts.Last.Shell, JobTemplate.Shells(files).FirstOrDefault() ?? ""),
                Or(said.Thickness, facts.Last.Thickness, UsualThickness),
                UsualSlack,
                "auto",
                ""
            ),
        };
        return JobReader.Read(JobTemplate.NewJob(tried, files), job, files).Value is { } read
            ? facts with
            {
                Edges = UnreachedEdges.Find(part, read, Tolerances.House),
            }
            : facts;
    }

    /// <summary>The job's text, or why it cannot be written so. Keys that were not answered are no error: they stay open in it.</summary>
    public static Stage<string> Text(DrawingFacts facts, string job, ShopFiles files)
    {
        string text = JobTemplate.NewJob(facts, files);
        Finding[] wrong =
        [
            .. UnknownShell(facts.Answers.Shell, [.. JobTemplate.Shells(files)]),
            .. JobReader
                .Read(text, job, files)
                .Findings.Where(f =>
                    f.Severity == Severity.Error && f.Code is not ("key-unanswered" or "shop-name-unknown")
                ),
        ];
        return wrong.Length > 0 ? Stage.Failed<string>(wrong) : Stage.Answer(text);
    }

    /// <summary>Writes a file that is not there yet; null when done.</summary>
    public static Finding? Write(string path, byte[] bytes)
    {
        try
        {
            Directory.CreateDirectory(Path.GetDirectoryName(Path.GetFullPath(path))!);
            using FileStream stream = new(path, FileMode.CreateNew, FileAccess.Write);
            stream.Write(bytes);
            return null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return NotWritable(path, e);
        }
    }

    /// <summary>The same for text, UTF-8 without a mark.</summary>
    public static Finding? Write(string path, string text) => Write(path, Encoding.UTF8.GetBytes(text));

    /// <summary>The disk or the folder refuses.</summary>
    public static Finding NotWritable(string path, Exception e) =>
        new("job-not-writable", Severity.Error, path, e.Message, "free the folder's permissions or its disk");

    /// <summary>The job is there already.</summary>
    public static Finding Exists(string job) =>
        new(
            "job-exists",
            Severity.Error,
            job,
            "the job is there already and is never overwritten",
            "edit it, or move it away first"
        );

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

    /// <summary>What the newest job of a folder answers; nothing where there is none.</summary>
    private static JobAnswers Last(string folder)
    {
        string? newest = Jobs(folder)
            .OrderByDescending(File.GetLastWriteTimeUtc)
            .ThenBy(f => f, StringComparer.Ordinal)
            .FirstOrDefault();
        return newest is null ? JobAnswers.None : JobAnswers.ReadFrom(File.ReadAllText(newest), newest);
    }

    /// <summary>The ids that the fixtures of a folder have.</summary>
    private static ImmutableHashSet<string> Taken(string folder) =>
        [.. Jobs(folder).Select(f => JobAnswers.FixtureOf(File.ReadAllText(f), f)).Where(f => f.Length > 0)];

    private static ImmutableArray<string> Jobs(string folder) => Directory.Exists(folder) ? JobFiles.In(folder) : [];
}
