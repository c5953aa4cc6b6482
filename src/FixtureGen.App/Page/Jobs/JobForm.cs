using System.Collections.Immutable;
using System.Globalization;
using FixtureGen.App.Files;
using FixtureGen.App.Page.Layout;
using FixtureGen.App.Page.Serving;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Output;
using FixtureGen.Shop.Jobs;
using FixtureGen.Shop.Reading;

namespace FixtureGen.App.Page.Jobs;

/// <summary>
/// A job's file as a form. File and form are one: a field changes its key's value in the text and nothing else, so that comments,
/// order and what the form does not know stay. Every range and default comes from the reader of jobs.
/// </summary>
internal sealed class JobForm(string jobPath, string name)
{
    private const int MostEdits = 200;
    private const int MostLetters = 4000;

    /// <summary>The form of the job as it is on disk.</summary>
    public PageAnswer Read() =>
        Opened(
            (library, stamp, text) =>
            {
                string file = library.Relative(Path.GetFullPath(jobPath));
                ShopFiles shop = stamp.Shop(library);
                Stage<ImmutableArray<KeyField>> keys = JobKeys.List(text.Text, file, shop);
                FormAnswer answer = new(
                    name,
                    file,
                    text.Text,
                    stamp.Hash,
                    keys.Ok ? [.. keys.Value.Select(Field)] : [],
                    PageAnswer.Lines(keys.Ok ? JobReader.Read(text.Text, file, shop).Findings : keys.Findings)
                );
                return PageAnswer.Json(200, answer, JobsJson.Default.FormAnswer);
            }
        );

    /// <summary>What the job comes to with the fields changed: the answer of check, with its findings' places and the plan.</summary>
    public PageAnswer Check(FormQuestion asked) =>
        Edited(
            asked,
            (library, stamp, _, text) =>
                PageAnswer.Json(200, Come(library, stamp, text), JobsJson.Default.CheckedAnswer)
        );

    /// <summary>Writes the fields; 409 with what differs where the disk has another job than the form was read from.</summary>
    public PageAnswer Save(FormQuestion asked) =>
        Edited(
            asked,
            (library, stamp, onDisk, text) =>
            {
                if (stamp.Hash != asked.Hash)
                {
                    return PageAnswer.Json(
                        409,
                        new ConflictAnswer(
                            "The files changed on disk since this form was read: nothing was written. Read the form anew; what you changed stays marked.",
                            [library.Relative(Path.GetFullPath(jobPath))]
                        ),
                        JobsJson.Default.ConflictAnswer
                    );
                }
                onDisk.Replace(text);
                return PageAnswer.Say(200, $"Saved to {Path.GetFileName(jobPath)}.");
            }
        );

    private PageAnswer Opened(Func<LibraryFolder, InputStamp, JobText, PageAnswer> then)
    {
        Stage<LibraryFolder> library = LibraryFolder.Find(jobPath);
        if (library.Value is not { } found)
        {
            return PageAnswer.Refused(library.Findings);
        }
        try
        {
            return then(found, InputStamp.Take(jobPath, found), JobText.Read(jobPath));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return PageAnswer.Say(409, $"the job cannot be read or written: {e.Message}");
        }
    }

    private PageAnswer Edited(FormQuestion asked, Func<LibraryFolder, InputStamp, JobText, string, PageAnswer> then)
    {
        if (asked.Edits.Length > MostEdits)
        {
            return PageAnswer.NotUnderstood([RequestFindings.TooMany("edits", asked.Edits.Length, MostEdits)]);
        }
        return Opened(
            (library, stamp, onDisk) =>
            {
                string file = library.Relative(Path.GetFullPath(jobPath));
                Stage<ImmutableArray<KeyField>> keys = JobKeys.List(onDisk.Text, file, stamp.Shop(library));
                Stage<string> text = keys.Ok
                    ? asked.Edits.Aggregate(Stage.Answer(onDisk.Text), (so, edit) => Edit(so, edit, keys.Value, file))
                    : Stage.Failed<string>(keys.Findings);
                return text.Ok ? then(library, stamp, onDisk, text.Value!) : PageAnswer.Refused(text.Findings);
            }
        );
    }

    private static Stage<string> Edit(Stage<string> text, FormEdit edit, ImmutableArray<KeyField> keys, string file)
    {
        if (!text.Ok)
        {
            return text;
        }
        if (keys.FirstOrDefault(k => k.Path == edit.Path) is not { } key)
        {
            return Stage.Failed<string>(RequestFindings.NotAChoice("edits.path", edit.Path, keys.Select(k => k.Path)));
        }
        if (edit.Value is { Length: > MostLetters } || edit.Value?.Any(char.IsControl) == true)
        {
            return Stage.Failed<string>(RequestFindings.Unwritable(edit.Path));
        }
        return string.IsNullOrWhiteSpace(edit.Value)
            ? JobEdit.Remove(text.Value!, file, edit.Path)
            : JobEdit.Set(text.Value!, file, edit.Path, key.Literal(edit.Value));
    }

    private CheckedAnswer Come(LibraryFolder library, InputStamp stamp, string text)
    {
        Stage<JobSource> source = JobSource.Read(jobPath);
        if (source.Value is not { } read)
        {
            return Refused(text, source.Findings.Select(FindingPlaces.Describe));
        }
        string drawing = library.Relative(Path.GetFullPath(read.DrawingPath));
        Outcome outcome = Delivery.Check(
            read.RequestWith(stamp.Shop(library), static _ => { }) with
            {
                JobText = text,
            }
        );
        ImmutableArray<PlanShape> shapes = outcome is { Design: { } design, Job: { } job }
            ? [.. PlanShapes.Draw(design, job), .. design.Magnets.Select((m, i) => Magnet(i, m, job))]
            : [];
        return Refused(text, outcome.Findings.Select(f => FindingPlaces.OnPlate(f, drawing, outcome.Design))) with
        {
            Ok = outcome.Report.Ok,
            Factors = outcome.Report.Holding,
            Limits = outcome.Job is { } j ? new(j.Limits.VacuumFactor, j.Limits.MagnetFactor) : null,
            Solve = outcome.Report.Solve,
            Box = outcome.Design is { } d
                ?
                [
                    d.Placement.BlankBox.MinX,
                    d.Placement.BlankBox.MinY,
                    d.Placement.BlankBox.MaxX,
                    d.Placement.BlankBox.MaxY,
                ]
                : null,
            Shapes = PlanShapes.List(shapes),
            Curves = PlanShapes.Curves(shapes, ImmutableHashSet<string>.Empty),
        };
    }

    private static PlanShape Magnet(int index, MagnetPlace place, Job job) =>
        new(
            "disc",
            string.Create(CultureInfo.InvariantCulture, $"magnet {index + 1}"),
            [Contours.Circle(place.At, job.Magnet.Diameter / 2)]
        );

    private static CheckedAnswer Refused(string text, IEnumerable<PlacedFinding> findings) =>
        new()
        {
            Text = text,
            Ok = false,
            Findings = [.. findings],
            Factors = null,
            Limits = null,
            Solve = null,
            Box = null,
            Shapes = [],
            Curves = [],
        };

    /// <summary>A key as the page shows it.</summary>
    internal static FormKey Field(KeyField key) =>
        new()
        {
            Path = key.Path,
            Kind = key.Kind switch
            {
                KeyKind.Number => "number",
                KeyKind.Whole => "whole",
                KeyKind.Flag => "flag",
                KeyKind.Choice => "choice",
                KeyKind.Text => "text",
                KeyKind.List => "list",
            },
            Unit = key.Unit,
            Least = key.Least,
            Greatest = key.Greatest,
            Usual = key.Usual,
            Choices = [.. key.Choices],
            Default = key.Default,
            Note = key.Note,
            Stated = key.Stated,
        };
}
