using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using FixtureGen.App.Files;
using FixtureGen.App.Terminal;
using FixtureGen.Model;
using FixtureGen.Output;

namespace FixtureGen.App.Page;

/// <summary>
/// One job under the designer's hands. Every answer comes from the pipeline's own stages, so that page and check never
/// disagree; the page holds no rule. One request is answered at a time.
/// </summary>
public sealed class LayoutSession
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

    /// <summary>Answers one call of the page; what it does not know is 404.</summary>
    public LayoutAnswer Answer(string call, JsonNode? body, string forKey)
    {
        if (call == "progress")
        {
            return LayoutAnswer.Json(200, new JsonObject { ["step"] = _step });
        }
        lock (_gate)
        {
            try
            {
                return call switch
                {
                    "state" => Fresh(),
                    "try" => _trial.Try(LayoutAsk.Read(body)),
                    "best" => _trial.Best(LayoutAsk.Read(body), fewest: false),
                    "fewest" => _trial.Best(LayoutAsk.Read(body), fewest: true),
                    "section" => _trial.Section(LayoutAsk.Read(body), body!["line"]!.AsObject()),
                    "save" => Save(LayoutAsk.Read(body), body!.AsObject()),
                    "make" => Make(),
                    "block.png" => Block(LayoutAsk.Read(JsonNode.Parse(forKey, null, LayoutServer.Once))),
                    _ => LayoutAnswer.Message(404, "the program knows no such question"),
                };
            }
            catch (Exception e)
                when (e
                        is FormatException
                            or InvalidOperationException
                            or KeyNotFoundException
                            or System.Text.Json.JsonException
                            or NullReferenceException
                )
            {
                return LayoutAnswer.Message(400, $"the question is not understood: {e.Message}");
            }
        }
    }

    /// <summary>The job as it is on disk now: a page loaded again shows what was saved meanwhile.</summary>
    private LayoutAnswer Fresh()
    {
        Stage<JobSource> now = JobSource.Read(_jobPath);
        if (now.Value is not { } read)
        {
            return LayoutJson.Refused(now.Findings);
        }
        if (read.JobText != _source.JobText || !read.Drawing.AsSpan().SequenceEqual(_source.Drawing))
        {
            Stage<LayoutTrial> fresh = LayoutTrial.Start(read);
            if (fresh.Value is not { } trial)
            {
                return LayoutJson.Refused(fresh.Findings);
            }
            (_source, _trial) = (read, trial);
        }
        return LayoutAnswer.Json(200, State());
    }

    private JsonObject State()
    {
        JsonObject state = _trial.State();
        state["jobFile"] = _source.Library.Relative(Path.GetFullPath(_jobPath));
        state["hash"] = Hash(_source.JobText);
        return state;
    }

    private LayoutAnswer Save(LayoutAsk ask, JsonObject body)
    {
        string onDisk = File.ReadAllText(_jobPath);
        if (Hash(onDisk) != (string?)body["hash"])
        {
            return LayoutAnswer.Message(
                409,
                "the job changed on disk since this page read it: nothing was written. Reload the page to see it, then lay out again."
            );
        }
        JsonArray violations = _trial.Violations(ask);
        if (violations.Count > 0 && body["anyway"]?.GetValue<bool>() != true)
        {
            return LayoutAnswer.Json(
                422,
                new JsonObject
                {
                    ["message"] =
                        $"{violations.Count.ToString(System.Globalization.CultureInfo.InvariantCulture)} clearance(s) are not kept; make will refuse or move these magnets.",
                    ["violations"] = violations,
                }
            );
        }
        Stage<string> text = _trial.Text(ask, onDisk);
        if (!text.Ok)
        {
            return LayoutAnswer.Json(
                422,
                new JsonObject
                {
                    ["message"] = "the job cannot be written so: see the findings",
                    ["findings"] = AppJson.Findings(text.Findings),
                }
            );
        }
        try
        {
            string next = _jobPath + ".next";
            File.WriteAllText(next, text.Value!);
            File.Move(next, _jobPath, overwrite: true);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return LayoutAnswer.Message(
                500,
                $"the job cannot be written: {e.Message}. Free its folder or its disk; the old one is kept."
            );
        }
        return LayoutAnswer.Json(
            200,
            new JsonObject { ["message"] = $"Saved to {Path.GetFileName(_jobPath)}.", ["hash"] = Hash(text.Value!) }
        );
    }

    private LayoutAnswer Make()
    {
        Stage<JobSource> now = JobSource.Read(_jobPath);
        if (!now.Ok)
        {
            return LayoutAnswer.Json(
                422,
                new JsonObject
                {
                    ["message"] = "refused: see the findings",
                    ["findings"] = AppJson.Findings(now.Findings),
                }
            );
        }
        Outcome outcome = Delivery.Make(now.Value!.Request(null, s => _step = s));
        _step = "";
        string folder = Path.Combine(now.Value!.Library.Out, now.Value.Name);
        ImmutableArray<Finding> findings = outcome.Findings;
        if (outcome.Report.Ok)
        {
            findings = findings.AddRange(OutputFolder.Replace(folder, now.Value.Name, outcome.Files));
        }
        bool ok = outcome.Report.Ok && findings.All(f => f.Severity != Severity.Error);
        return LayoutAnswer.Json(
            ok ? 200 : 422,
            new JsonObject
            {
                ["message"] = ok
                    ? $"Made {outcome.Files.Length} files in {folder}."
                    : "Refused: see the findings below. Nothing was written.",
                ["findings"] = AppJson.Findings(findings),
            }
        );
    }

    private LayoutAnswer Block(LayoutAsk ask)
    {
        Stage<string> text = _trial.Text(ask, _source.JobText);
        if (!text.Ok)
        {
            return LayoutAnswer.Json(
                422,
                new JsonObject { ["message"] = "refused", ["findings"] = AppJson.Findings(text.Findings) }
            );
        }
        Outcome outcome = Delivery.Make(_source.Request(null, static _ => { }) with { JobText = text.Value! });
        return outcome.Report.Ok
            ? new LayoutAnswer(
                200,
                "image/png",
                outcome.Files.First(f => f.Name.EndsWith(".block.png", StringComparison.Ordinal)).Bytes.AsMemory()
            )
            : LayoutAnswer.Json(
                422,
                new JsonObject { ["message"] = "refused", ["findings"] = AppJson.Findings(outcome.Findings) }
            );
    }

    private static string Hash(string text) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)));
}
