using FixtureGen.App.Files;
using FixtureGen.App.Library;
using FixtureGen.App.Page.Serving;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Model;
using FixtureGen.Shop.Jobs;
using FixtureGen.Shop.Reading;

namespace FixtureGen.App.Page.Jobs;

/// <summary>
/// A fixture from a dropped drawing: the drawing is put into a folder of jobs and its job written beside it, by the code of <c>new</c>.
/// A file that is there is never overwritten; the same drawing that is there already is taken as it is.
/// </summary>
internal sealed class NewFixture(string folder, string root)
{
    private const int MostNameLetters = 80;

    /// <summary>The drawing looked at.</summary>
    public PageAnswer Look(byte[] bytes, string name, string unit) =>
        Placed(name, (path, library) => DrawnLook.Look(path, bytes, unit, library));

    /// <summary>Drawing and job written; 422 with findings where either cannot be.</summary>
    public PageAnswer Write(byte[] bytes, string name, JobAnswers answers) =>
        Placed(name, (path, library) => Write(path, library, bytes, answers));

    private PageAnswer Placed(string name, Func<string, LibraryFolder, PageAnswer> then)
    {
        if (!IsName(name))
        {
            return PageAnswer.NotUnderstood([
                new Finding(
                    "not-a-drawing",
                    Severity.Error,
                    "name",
                    $"'{name}' is no name of an outline: a .dxf or .svg of letters, digits, '-', '_', '.' and spaces",
                    "name the drawing so"
                ),
            ]);
        }
        Stage<LibraryFolder> library = LibraryFolder.Find(Path.Combine(folder, "x"));
        return library.Value is { } found
            ? then(Path.Combine(folder, name), found)
            : PageAnswer.Refused(library.Findings);
    }

    /// <summary>A bare file name, whatever system reads it.</summary>
    private static bool IsName(string name) =>
        name.Length is > 4 and <= MostNameLetters
        && DrawingFiles.Is(name)
        && char.IsLetterOrDigit(name[0])
        && name.All(c => char.IsLetterOrDigit(c) || c is '-' or '_' or '.' or ' ');

    private PageAnswer Write(string path, LibraryFolder library, byte[] bytes, JobAnswers answers)
    {
        string job = Path.ChangeExtension(path, ".toml");
        if (File.Exists(job))
        {
            return PageAnswer.Refused([NewJob.Exists(library.Relative(job))]);
        }
        Stage<DrawingContent> read = DrawnLook.Read(bytes, Path.GetFileName(path), answers.Unit);
        if (read.Value is not { } drawing)
        {
            return PageAnswer.Refused(read.Findings);
        }
        ShopFiles files = library.Shop(null);
        DrawingFacts facts = NewJob.Describe(path, drawing) with { Answers = answers };
        facts = NewJob.WithEdges(facts, drawing, job, files);
        Stage<string> text = NewJob.Text(Unstated(facts, bytes, path), job, files);
        if (text.Value is not { } written)
        {
            return PageAnswer.Refused(text.Findings);
        }
        bool there = File.Exists(path);
        if (there && !File.ReadAllBytes(path).AsSpan().SequenceEqual(bytes))
        {
            return PageAnswer.Refused([
                new Finding(
                    "drawing-exists",
                    Severity.Error,
                    library.Relative(path),
                    "another drawing of this name is there already and is never overwritten",
                    "give the new drawing another name"
                ),
            ]);
        }
        Finding? trouble = (there ? null : NewJob.Write(path, bytes)) ?? NewJob.Write(job, written);
        return trouble is not null
            ? PageAnswer.Refused([trouble])
            : PageAnswer.Json(
                200,
                new WrittenAnswer(
                    $"Wrote {library.Relative(job)}.",
                    Path.GetRelativePath(root, job).Replace('\\', '/'),
                    [.. JobReader.OpenQuestions(written, job)]
                ),
                JobsJson.Default.WrittenAnswer
            );
    }

    /// <summary>A unit that was answered is the job's to state: the facts have it only where the drawing does.</summary>
    private static DrawingFacts Unstated(DrawingFacts facts, byte[] bytes, string path) =>
        facts.Answers.Unit.Length == 0
            ? facts
            : facts with
            {
                Unit = DrawnLook.Read(bytes, Path.GetFileName(path), "").Value?.Unit,
            };
}
