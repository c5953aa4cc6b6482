using System.Collections.Immutable;
using System.Globalization;
using FixtureGen.App.Files;
using FixtureGen.App.Library;
using FixtureGen.App.Page.Serving;
using FixtureGen.Model;
using FixtureGen.Output;

namespace FixtureGen.App.Page.Layout;

/// <summary>
/// One job under the designer's hands. Every answer comes from the pipeline's own stages, so that page and check never
/// disagree; the page holds no rule. Tries are answered one at a time; pictures, searches and makes run beside them on what they
/// were asked for, one make at a time.
/// </summary>
internal sealed class LayoutSession
{
    private const int WarmTries = 32;
    private const int WarmPauseMs = 15;
    private const double WarmStepMm = 0.05;

    private readonly string _jobPath;
    private readonly Lock _gate = new();
    private readonly Lock _making = new();
    private Opened _now;
    private volatile string _step = "";

    private LayoutSession(string jobPath, Opened now) => (_jobPath, _now) = (jobPath, now);

    /// <summary>A job as it was read at one moment.</summary>
    private sealed record Opened(InputStamp Stamp, JobSource Source, LayoutTrial Trial)
    {
        public static Stage<Opened> Read(string jobPath)
        {
            if (LibraryFolder.Find(jobPath) is not { Value: { } library })
            {
                return Stage.Failed<Opened>(LibraryFolder.Find(jobPath).Findings);
            }
            // taken before the rest is read: what changes meanwhile differs from it and is told
            InputStamp stamp = InputStamp.Take(jobPath, library);
            Stage<JobSource> source = JobSource.Read(jobPath);
            if (source.Value is not { } read)
            {
                return Stage.Failed<Opened>(source.Findings);
            }
            Stage<LayoutTrial> trial = LayoutTrial.Open(read, stamp.Shop(library));
            return trial.Ok
                ? Stage.Answer(new Opened(stamp, read, trial.Value!), trial.Findings)
                : Stage.Failed<Opened>(trial.Findings);
        }
    }

    /// <summary>Opens a job whose drawing can be read and placed; anything else is its findings.</summary>
    public static Stage<LayoutSession> Open(string jobPath)
    {
        Stage<Opened> opened = Opened.Read(jobPath);
        return opened.Ok
            ? Stage.Answer(new LayoutSession(jobPath, opened.Value!), opened.Findings)
            : Stage.Failed<LayoutSession>(opened.Findings);
    }

    /// <summary>
    /// Tries the job as it stands, its first magnet a little aside each time, until the runtime has compiled the way of a
    /// try in full (it does so after some thirty calls), so that the first drag does not pay for it.
    /// </summary>
    public void Warm(CancellationToken stop)
    {
        for (int i = 0; i < WarmTries && !stop.IsCancellationRequested; i++)
        {
            lock (_gate)
            {
                _now.Trial.TryBeside(i * WarmStepMm);
            }
            stop.WaitHandle.WaitOne(WarmPauseMs);
        }
    }

    /// <summary>The step of a make that runs; answered at once, also while another question is worked on.</summary>
    public PageAnswer Progress() => PageAnswer.Json(200, new StepAnswer(_step), LayoutJson.Default.StepAnswer);

    /// <summary>The job as it is on disk, and its own layout.</summary>
    public PageAnswer State()
    {
        lock (_gate)
        {
            return Fresh();
        }
    }

    /// <summary>Whether the files on disk are still those that the answers come from.</summary>
    public PageAnswer Pulse()
    {
        Opened now = _now;
        InputStamp later = InputStamp.Take(_jobPath, now.Source.Library);
        return PageAnswer.Json(
            200,
            new PulseAnswer(later.Hash, [.. now.Stamp.Changes(later)]),
            LayoutJson.Default.PulseAnswer
        );
    }

    /// <summary>What a layout holds.</summary>
    public PageAnswer Try(LayoutQuestion question) => Checked(question, (now, ask) => now.Trial.Try(ask));

    /// <summary>The optimiser's places for the number of magnets that is set.</summary>
    public PageAnswer Best(LayoutQuestion question) =>
        Beside(question, (now, ask) => now.Trial.Best(ask, fewest: false));

    /// <summary>The fewest magnets that keep the house limit.</summary>
    public PageAnswer Fewest(LayoutQuestion question) =>
        Beside(question, (now, ask) => now.Trial.Best(ask, fewest: true));

    /// <summary>The block cut along a line.</summary>
    public PageAnswer Section(SectionQuestion question)
    {
        PageLine line = question.Line;
        Finding[] far =
        [
            .. LayoutAsk.Far("line.x0, line.y0", line.X0, line.Y0),
            .. LayoutAsk.Far("line.x1, line.y1", line.X1, line.Y1),
        ];
        return far.Length > 0
            ? PageAnswer.NotUnderstood(far)
            : Checked(question, (now, ask) => now.Trial.Section(ask, new(line.X0, line.Y0), new(line.X1, line.Y1)));
    }

    /// <summary>The layout with some magnets at the nearest place where each may stand.</summary>
    public PageAnswer Snap(MagnetsQuestion question) =>
        OfMagnets(question, (now, ask) => now.Trial.Snap(ask, question.Which));

    /// <summary>Where one magnet may stand.</summary>
    public PageAnswer Ground(MagnetsQuestion question) =>
        OfMagnets(
            question,
            (now, ask) =>
                question.Which is [var first, ..]
                    ? now.Trial.Ground(ask, first)
                    : PageAnswer.NotUnderstood([RequestFindings.NoneNamed("which")])
        );

    private PageAnswer OfMagnets(MagnetsQuestion question, Func<Opened, LayoutAsk, PageAnswer> answer) =>
        question.Which.Where(i => i < 0 || i >= question.Magnets.Length).Take(1).ToArray() is [var none]
            ? PageAnswer.NotUnderstood([RequestFindings.Beyond("which", none, 0, question.Magnets.Length - 1)])
            : Checked(question, answer);

    /// <summary>The layouts that were kept beside the job.</summary>
    public PageAnswer Kept() => new LayoutShelf(_jobPath).List();

    /// <summary>Keeps a layout under a name.</summary>
    public PageAnswer Keep(KeepQuestion question) =>
        Checked(
            question,
            (now, ask) => new LayoutShelf(_jobPath).Keep(question, LayoutFacts.Placed(now.Trial.PoseFor(ask)))
        );

    /// <summary>Forgets a layout that was kept.</summary>
    public PageAnswer Forget(ForgetQuestion question) => new LayoutShelf(_jobPath).Forget(question);

    /// <summary>Writes the layout into the job.</summary>
    public PageAnswer Save(SaveQuestion question) => Checked(question, (now, ask) => Save(now, ask, question));

    /// <summary>Makes all files of the job as it is on disk, which must be what the page shows.</summary>
    public PageAnswer Make(MakeQuestion question)
    {
        lock (_making)
        {
            return Changed(question.Hash) ?? MakeFiles();
        }
    }

    /// <summary>A picture of the block as the layout's top program cuts it.</summary>
    public PageAnswer Block(LayoutQuestion question) => Beside(question, Block);

    private PageAnswer Checked(LayoutQuestion question, Func<Opened, LayoutAsk, PageAnswer> answer)
    {
        lock (_gate)
        {
            Stage<LayoutAsk> ask = _now.Trial.Check(question);
            return ask.Ok ? answer(_now, ask.Value!) : PageAnswer.NotUnderstood(ask.Findings);
        }
    }

    /// <summary>What is asked is settled before the next try, what takes long is worked out beside it.</summary>
    private PageAnswer Beside(LayoutQuestion question, Func<Opened, LayoutAsk, Func<PageAnswer>> begin)
    {
        Func<PageAnswer> rest;
        lock (_gate)
        {
            Stage<LayoutAsk> ask = _now.Trial.Check(question);
            rest = ask.Ok ? begin(_now, ask.Value!) : () => PageAnswer.NotUnderstood(ask.Findings);
        }
        return rest();
    }

    /// <summary>The job as it is on disk now: a page loaded again shows what was saved meanwhile.</summary>
    private PageAnswer Fresh()
    {
        if (InputStamp.Take(_jobPath, _now.Source.Library).Hash != _now.Stamp.Hash)
        {
            Stage<Opened> fresh = Opened.Read(_jobPath);
            if (fresh.Value is not { } opened)
            {
                return PageAnswer.Refused(fresh.Findings);
            }
            _now = opened;
        }
        LayoutState state = _now.Trial.State(_now.Source.Library.Relative(Path.GetFullPath(_jobPath)), _now.Stamp.Hash);
        return PageAnswer.Json(200, state, LayoutJson.Default.LayoutState);
    }

    /// <summary>409 where the files on disk are not those of the hash, with their names; null where they are.</summary>
    private PageAnswer? Changed(string hash)
    {
        InputStamp later = InputStamp.Take(_jobPath, _now.Source.Library);
        if (later.Hash == hash)
        {
            return null;
        }
        ImmutableArray<string> changes = _now.Stamp.Changes(later);
        string which = changes.IsEmpty ? "this page shows older files" : string.Join(", ", changes);
        return PageAnswer.Say(
            409,
            $"what this page shows changed on disk ({which}): nothing was written. Take over what is on disk, then lay out again."
        );
    }

    private PageAnswer Save(Opened now, LayoutAsk ask, SaveQuestion question)
    {
        if (Changed(question.Hash) is { } changed)
        {
            return changed;
        }
        Violation[] violations = now.Trial.Violations(ask);
        if (violations.Length > 0 && !question.Anyway)
        {
            string count = violations.Length.ToString(CultureInfo.InvariantCulture);
            return PageAnswer.Json(
                422,
                new BlockedAnswer(
                    $"{count} clearance(s) are not kept; make will refuse or move these magnets.",
                    violations
                ),
                LayoutJson.Default.BlockedAnswer
            );
        }
        try
        {
            JobText onDisk = JobText.Read(_jobPath);
            Stage<string> text = now.Trial.Text(ask, onDisk.Text);
            if (text.Ok)
            {
                new LayoutShelf(_jobPath).Remember(question, LayoutFacts.Placed(now.Trial.PoseFor(ask)));
            }
            return text.Ok
                ? Written(onDisk, text.Value!)
                : PageAnswer.Refused("the job cannot be written so: see the findings", text.Findings);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return PageAnswer.Say(
                409,
                $"the job cannot be written: {e.Message}. Free its folder or its disk; the old one is kept."
            );
        }
    }

    /// <summary>Writes the text; from then on answers come from it, so that the next save is of what this one wrote.</summary>
    private PageAnswer Written(JobText onDisk, string text)
    {
        onDisk.Replace(text);
        Stage<Opened> fresh = Opened.Read(_jobPath);
        _now = fresh.Value ?? _now;
        return PageAnswer.Json(
            200,
            new SavedAnswer(
                $"Saved to {Path.GetFileName(_jobPath)}.",
                InputStamp.Take(_jobPath, _now.Source.Library).Hash
            ),
            LayoutJson.Default.SavedAnswer
        );
    }

    private PageAnswer MakeFiles()
    {
        Making.Made made;
        try
        {
            made = Making.Run(_jobPath, s => _step = s);
        }
        finally
        {
            _step = "";
        }
        if (made.Outcome is not { } outcome)
        {
            return PageAnswer.Refused("refused: see the findings", made.Source.Findings);
        }
        JobSource job = made.Source.Value!;
        string folder = Path.Combine(job.Library.Out, job.Name);
        ImmutableArray<Finding> findings = [.. outcome.Findings, .. made.Trouble];
        if (made.Ok)
        {
            findings = findings.AddRange(OutputFolder.Replace(folder, job.Name, outcome.Files));
        }
        bool ok = outcome.Report.Ok && findings.All(f => f.Severity != Severity.Error);
        return PageAnswer.Say(
            ok ? 200 : 422,
            new MessageAnswer(
                ok
                    ? $"Made {outcome.Files.Length} files in {folder}."
                    : "Refused: see the findings below. Nothing was written."
            )
            {
                Findings = PageAnswer.Lines(findings),
            }
        );
    }

    private static Func<PageAnswer> Block(Opened now, LayoutAsk ask)
    {
        Stage<string> text = now.Trial.Text(ask, now.Source.JobText);
        return text.Ok
            ? () => Picture(now.Trial.Request with { JobText = text.Value! })
            : () => PageAnswer.Refused(text.Findings);
    }

    private static PageAnswer Picture(Request request)
    {
        Outcome outcome = Delivery.Make(request);
        return outcome.Report.Ok
            ? new PageAnswer(
                200,
                "image/png",
                outcome.Files.First(f => f.Name.EndsWith(".block.png", StringComparison.Ordinal)).Bytes.AsMemory()
            )
            : PageAnswer.Refused(outcome.Findings);
    }
}
