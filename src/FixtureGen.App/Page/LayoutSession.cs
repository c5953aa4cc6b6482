using System.Collections.Immutable;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using FixtureGen.App.Files;
using FixtureGen.App.Library;
using FixtureGen.Model;
using FixtureGen.Output;

namespace FixtureGen.App.Page;

/// <summary>
/// One job under the designer's hands. Every answer comes from the pipeline's own stages, so that page and check never
/// disagree; the page holds no rule. One request is answered at a time.
/// </summary>
internal sealed class LayoutSession
{
    private const int WarmTries = 32;
    private const int WarmPauseMs = 15;
    private const double WarmStepMm = 0.05;

    private readonly string _jobPath;
    private JobSource _source;
    private readonly Lock _gate = new();
    private LayoutTrial _trial;
    private volatile string _step = "";

    private LayoutSession(string jobPath, JobSource source, LayoutTrial trial)
    {
        _jobPath = jobPath;
        _source = source;
        _trial = trial;
    }

    /// <summary>Opens a job whose drawing can be read and placed; anything else is its findings.</summary>
    public static Stage<LayoutSession> Open(string jobPath)
    {
        Stage<JobSource> source = JobSource.Read(jobPath);
        if (!source.Ok)
        {
            return Stage.Failed<LayoutSession>(source.Findings);
        }
        Stage<LayoutTrial> trial = LayoutTrial.Start(source.Value!);
        return trial.Ok
            ? Stage.Answer(new LayoutSession(jobPath, source.Value!, trial.Value!), trial.Findings)
            : Stage.Failed<LayoutSession>(trial.Findings);
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
                _trial.TryBeside(i * WarmStepMm);
            }
            stop.WaitHandle.WaitOne(WarmPauseMs);
        }
    }

    /// <summary>The step of a make that runs; answered at once, also while another question is worked on.</summary>
    public LayoutAnswer Progress() => LayoutAnswer.Json(200, new StepAnswer(_step), PageJson.Default.StepAnswer);

    /// <summary>The job as it is on disk, and its own layout.</summary>
    public LayoutAnswer State()
    {
        lock (_gate)
        {
            return Fresh();
        }
    }

    /// <summary>What a layout holds.</summary>
    public LayoutAnswer Try(LayoutQuestion question) => Checked(question, ask => _trial.Try(ask));

    /// <summary>The optimiser's places for the number of magnets that is set.</summary>
    public LayoutAnswer Best(LayoutQuestion question) => Checked(question, ask => _trial.Best(ask, fewest: false));

    /// <summary>The fewest magnets that keep the house limit.</summary>
    public LayoutAnswer Fewest(LayoutQuestion question) => Checked(question, ask => _trial.Best(ask, fewest: true));

    /// <summary>The block cut along a line.</summary>
    public LayoutAnswer Section(SectionQuestion question)
    {
        PageLine line = question.Line;
        Finding[] far =
        [
            .. LayoutAsk.Far("line.x0, line.y0", line.X0, line.Y0),
            .. LayoutAsk.Far("line.x1, line.y1", line.X1, line.Y1),
        ];
        return far.Length > 0
            ? LayoutAnswer.NotUnderstood(far)
            : Checked(question, ask => _trial.Section(ask, new(line.X0, line.Y0), new(line.X1, line.Y1)));
    }

    /// <summary>Writes the layout into the job.</summary>
    public LayoutAnswer Save(SaveQuestion question) => Checked(question, ask => Save(ask, question));

    /// <summary>Makes all files of the job as it is on disk.</summary>
    public LayoutAnswer Make()
    {
        lock (_gate)
        {
            return MakeFiles();
        }
    }

    /// <summary>A picture of the block as the layout's top program cuts it.</summary>
    public LayoutAnswer Block(LayoutQuestion question) => Checked(question, Block);

    private LayoutAnswer Checked(LayoutQuestion question, Func<LayoutAsk, LayoutAnswer> answer)
    {
        lock (_gate)
        {
            Stage<LayoutAsk> ask = _trial.Check(question);
            return ask.Ok ? answer(ask.Value!) : LayoutAnswer.NotUnderstood(ask.Findings);
        }
    }

    /// <summary>The job as it is on disk now: a page loaded again shows what was saved meanwhile.</summary>
    private LayoutAnswer Fresh()
    {
        Stage<JobSource> now = JobSource.Read(_jobPath);
        if (now.Value is not { } read)
        {
            return LayoutAnswer.Refused(now.Findings);
        }
        if (read.JobText != _source.JobText || !read.Drawing.AsSpan().SequenceEqual(_source.Drawing))
        {
            Stage<LayoutTrial> fresh = LayoutTrial.Start(read);
            if (fresh.Value is not { } trial)
            {
                return LayoutAnswer.Refused(fresh.Findings);
            }
            (_source, _trial) = (read, trial);
        }
        LayoutState state = _trial.State(_source.Library.Relative(Path.GetFullPath(_jobPath)), Hash(_source.JobText));
        return LayoutAnswer.Json(200, state, PageJson.Default.LayoutState);
    }

    private LayoutAnswer Save(LayoutAsk ask, SaveQuestion question)
    {
        string onDisk;
        try
        {
            onDisk = File.ReadAllText(_jobPath);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return LayoutAnswer.Say(409, $"the job cannot be read any more: {e.Message}. Nothing was written.");
        }
        if (Hash(onDisk) != question.Hash)
        {
            return LayoutAnswer.Say(
                409,
                "the job changed on disk since this page read it: nothing was written. Reload the page to see it, then lay out again."
            );
        }
        Violation[] violations = _trial.Violations(ask);
        if (violations.Length > 0 && !question.Anyway)
        {
            string count = violations.Length.ToString(CultureInfo.InvariantCulture);
            return LayoutAnswer.Say(
                422,
                new MessageAnswer($"{count} clearance(s) are not kept; make will refuse or move these magnets.")
                {
                    Violations = violations,
                }
            );
        }
        Stage<string> text = _trial.Text(ask, onDisk);
        return text.Ok
            ? WriteJob(text.Value!)
            : LayoutAnswer.Refused("the job cannot be written so: see the findings", text.Findings);
    }

    private LayoutAnswer WriteJob(string text)
    {
        try
        {
            string next = _jobPath + ".next";
            File.WriteAllText(next, text);
            File.Move(next, _jobPath, overwrite: true);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return LayoutAnswer.Say(
                409,
                $"the job cannot be written: {e.Message}. Free its folder or its disk; the old one is kept."
            );
        }
        return LayoutAnswer.Json(
            200,
            new SavedAnswer($"Saved to {Path.GetFileName(_jobPath)}.", Hash(text)),
            PageJson.Default.SavedAnswer
        );
    }

    private LayoutAnswer MakeFiles()
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
            return LayoutAnswer.Refused("refused: see the findings", made.Source.Findings);
        }
        JobSource job = made.Source.Value!;
        string folder = Path.Combine(job.Library.Out, job.Name);
        ImmutableArray<Finding> findings = [.. outcome.Findings, .. made.Trouble];
        if (made.Ok)
        {
            findings = findings.AddRange(OutputFolder.Replace(folder, job.Name, outcome.Files));
        }
        bool ok = outcome.Report.Ok && findings.All(f => f.Severity != Severity.Error);
        return LayoutAnswer.Say(
            ok ? 200 : 422,
            new MessageAnswer(
                ok
                    ? $"Made {outcome.Files.Length} files in {folder}."
                    : "Refused: see the findings below. Nothing was written."
            )
            {
                Findings = LayoutAnswer.Lines(findings),
            }
        );
    }

    private LayoutAnswer Block(LayoutAsk ask)
    {
        Stage<string> text = _trial.Text(ask, _source.JobText);
        if (!text.Ok)
        {
            return LayoutAnswer.Refused(text.Findings);
        }
        Outcome outcome = Delivery.Make(_source.Request(null, static _ => { }) with { JobText = text.Value! });
        return outcome.Report.Ok
            ? new LayoutAnswer(
                200,
                "image/png",
                outcome.Files.First(f => f.Name.EndsWith(".block.png", StringComparison.Ordinal)).Bytes.AsMemory()
            )
            : LayoutAnswer.Refused(outcome.Findings);
    }

    private static string Hash(string text) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)));
}
