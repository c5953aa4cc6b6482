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

    private readonly string jobPath;
    private JobSource source;
    private readonly Lock gate = new();
    private LayoutTrial trial;
    private volatile string step = "";

    private LayoutSession(string jobPath, JobSource source, LayoutTrial trial)
    {
        this.jobPath = jobPath;
        this.source = source;
        this.trial = trial;
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
            ? Stage.Of(new LayoutSession(jobPath, source.Value!, trial.Value!), trial.Findings)
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
            lock (this.gate)
            {
                this.trial.TryBeside(i * WarmStepMm);
            }
            stop.WaitHandle.WaitOne(WarmPauseMs);
        }
    }

    /// <summary>Answers one call of the page; what it does not know is 404.</summary>
    public LayoutAnswer Answer(string call, JsonNode? body, string forKey)
    {
        if (call == "progress")
        {
            return LayoutAnswer.Json(200, new JsonObject { ["step"] = this.step });
        }
        lock (this.gate)
        {
            try
            {
                return call switch
                {
                    "state" => this.Fresh(),
                    "try" => this.trial.Try(LayoutAsk.Of(body)),
                    "best" => this.trial.Best(LayoutAsk.Of(body), fewest: false),
                    "fewest" => this.trial.Best(LayoutAsk.Of(body), fewest: true),
                    "section" => this.trial.Section(LayoutAsk.Of(body), body!["line"]!.AsObject()),
                    "save" => this.Save(LayoutAsk.Of(body), body!.AsObject()),
                    "make" => this.Make(),
                    "block.png" => this.Block(LayoutAsk.Of(JsonNode.Parse(forKey, null, LayoutServer.Once))),
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
        Stage<JobSource> now = JobSource.Read(this.jobPath);
        if (now.Value is not { } read)
        {
            return LayoutJson.Refused(now.Findings);
        }
        if (read.JobText != this.source.JobText || !read.Drawing.AsSpan().SequenceEqual(this.source.Drawing))
        {
            Stage<LayoutTrial> fresh = LayoutTrial.Start(read);
            if (fresh.Value is not { } trial)
            {
                return LayoutJson.Refused(fresh.Findings);
            }
            (this.source, this.trial) = (read, trial);
        }
        return LayoutAnswer.Json(200, this.State());
    }

    private JsonObject State()
    {
        JsonObject state = this.trial.State();
        state["jobFile"] = this.source.Library.Relative(Path.GetFullPath(this.jobPath));
        state["hash"] = Hash(this.source.JobText);
        return state;
    }

    private LayoutAnswer Save(LayoutAsk ask, JsonObject body)
    {
        string onDisk = File.ReadAllText(this.jobPath);
        if (Hash(onDisk) != (string?)body["hash"])
        {
            return LayoutAnswer.Message(
                409,
                "the job changed on disk since this page read it: nothing was written. Reload the page to see it, then lay out again."
            );
        }
        JsonArray violations = this.trial.Violations(ask);
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
        Stage<string> text = this.trial.Text(ask, onDisk);
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
            string next = this.jobPath + ".next";
            File.WriteAllText(next, text.Value!);
            File.Move(next, this.jobPath, overwrite: true);
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
            new JsonObject { ["message"] = $"Saved to {Path.GetFileName(this.jobPath)}.", ["hash"] = Hash(text.Value!) }
        );
    }

    private LayoutAnswer Make()
    {
        Stage<JobSource> now = JobSource.Read(this.jobPath);
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
        Outcome outcome = Delivery.Make(now.Value!.Request(null, s => this.step = s));
        this.step = "";
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
        Stage<string> text = this.trial.Text(ask, this.source.JobText);
        if (!text.Ok)
        {
            return LayoutAnswer.Json(
                422,
                new JsonObject { ["message"] = "refused", ["findings"] = AppJson.Findings(text.Findings) }
            );
        }
        Outcome outcome = Delivery.Make(this.source.Request(null, static _ => { }) with { JobText = text.Value! });
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
