using System.Collections.Immutable;
using System.Text;
using FixtureGen.Holding.Block;
using FixtureGen.Model;
using FixtureGen.Output;
using FixtureGen.Output.Papers;
using FixtureGen.Output.Reports;
using FixtureGen.Programs;
using FixtureGen.Shop.Reading;
using FixtureGen.Tests.Support;
using FixtureGen.Toolpaths;
using FixtureGen.Verify;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Tests.Shop.Keys;

/// <summary>What a changed value did.</summary>
internal enum KeyEffect
{
    /// <summary>No output is another.</summary>
    None,

    /// <summary>Something that the user gets is another, or the change was refused for what it means.</summary>
    Shown,

    /// <summary>The value itself is none that the key may have, so nothing is learnt.</summary>
    NotTried,
}

/// <summary>
/// A job with its shop files, made once as they are, and then with one value changed as far as the first output that is
/// another: report of a check, program texts, the judge's figures, papers, drawing. A value outside its own range is no try.
/// </summary>
internal sealed class KeyBench(string name, string jobText, ShopFiles files)
{
    private readonly byte[] _drawing = File.ReadAllBytes(Path.Combine(DemoShop.Root, "outlines", name + ".dxf"));
    private Drawn? _drawn;
    private Written? _written;
    private Judged? _judged;
    private string? _printed;

    public string JobText { get; } = jobText;

    public ShopFiles Files { get; } = files;

    public string Job { get; } = name;

    private Drawn BaseDrawn => _drawn ??= Draw(JobText, Files);

    private Written? BaseWritten => _written ??= BaseDrawn.Designed is { } d ? Write(d) : null;

    private Judged? BaseJudged => _judged ??= BaseWritten is { } w ? Judge(w) : null;

    private string BasePrinted => _printed ??= BaseJudged is { } j ? Print(j) : "";

    /// <summary>What the job's text or the shop's files, one value changed, come to beside the ones as they are.</summary>
    /// <param name="control">True where only the control's file differs: the design, which knows no control, is not made again.</param>
    public KeyEffect Try(string key, string text, ShopFiles shop, bool control)
    {
        Drawn drawn;
        if (control && BaseDrawn.Designed is { } same)
        {
            Stage<Job> read = FixtureGen.Shop.Jobs.JobReader.Read(text, $"outlines/{Job}.toml", shop);
            if (read.Value is not { } job)
            {
                return Refusal(key, read.Findings);
            }
            drawn = BaseDrawn with { Designed = same with { Job = same.Job with { Control = job.Control } } };
        }
        else
        {
            drawn = Draw(text, shop);
            if (drawn.Designed is null && drawn.Findings.Any(f => f.Severity == Severity.Error))
            {
                return BaseDrawn.Designed is null && drawn.Report == BaseDrawn.Report
                    ? KeyEffect.None
                    : Refusal(key, drawn.Findings);
            }
            if (drawn.Report != BaseDrawn.Report)
            {
                return KeyEffect.Shown;
            }
        }
        return drawn.Designed is not { } designed ? KeyEffect.None : Later(designed, control);
    }

    private KeyEffect Later(Designed designed, bool control)
    {
        if (BaseWritten is not { } baseWritten || BaseJudged is not { } baseJudged)
        {
            return KeyEffect.None;
        }
        Written written = control ? Say(designed, baseWritten.Plans, baseWritten.Holds, "") : Write(designed);
        if (written.Said != baseWritten.Said || (!control && written.Text != baseWritten.Text))
        {
            return KeyEffect.Shown;
        }
        // Papers before the judge, with its answer to the same programs: they are the quicker of the two.
        if (Print(baseJudged with { Written = written }) != BasePrinted)
        {
            return KeyEffect.Shown;
        }
        return Judge(written).Text != baseJudged.Text ? KeyEffect.Shown : KeyEffect.None;
    }

    /// <summary>A value that its key may not have proves nothing; nor do the two ends of a range in the wrong order.</summary>
    private static KeyEffect Refusal(string key, IEnumerable<Finding> findings) =>
        findings.Any(f =>
            f.Severity == Severity.Error
            && !(
                f.Code.StartsWith("toml-", StringComparison.Ordinal)
                && f.Message.Contains(key, StringComparison.Ordinal)
            )
            && f.Remedy != "Exchange the two."
        )
            ? KeyEffect.Shown
            : KeyEffect.NotTried;

    private Drawn Draw(string text, ShopFiles shop)
    {
        Request request = new()
        {
            JobName = Job,
            JobFile = $"outlines/{Job}.toml",
            JobText = text,
            DrawingFile = $"outlines/{Job}.dxf",
            Drawing = _drawing,
            Shop = shop,
            Registered = new Registered(1000, "F1000", 1, Overrules: false),
            Version = "test",
            Progress = static _ => { },
        };
        PipelineResult run = Pipeline.Check(request);
        // A value that is possible but unusual is warned of, whatever it does.
        Finding[] findings =
        [
            .. run.Findings.Where(f => f.Code is not ("shop-outside-practice" or "shop-range-assumed")),
        ];
        Report report = ReportBuilder.Describe(request, run with { Findings = [.. findings] });
        return new Drawn(ReportJson.Text(report), findings, run.Ok ? run.Designed : null);
    }

    private static Written Write(Designed designed)
    {
        (Job job, FixtureDesign design) = (designed.Job, designed.Design);
        StringBuilder text = new();
        BlockHolding hold = new(design, job);
        Stage<ImmutableArray<ProgramPlan>> planned = OperationPlanner.Plan(design, job, hold, Tolerances.House);
        text.AppendJoin('\n', planned.Findings);
        if (!planned.Ok)
        {
            return new Written(designed, [], [], [], text.ToString(), "");
        }
        ImmutableArray<ProgramPlan> plans = LowHold.Marked(planned.Value, designed.Holding, job);
        Stage<ImmutableArray<BlockHold>> holds = hold.Evaluate(HeldOperations.Follow(plans));
        text.AppendJoin('\n', holds.Findings);
        ImmutableArray<BlockHold> held = holds.Value.IsDefault ? [] : holds.Value;
        text.AppendJoin('\n', ReportBuilder.BlockHolding(held));
        return Say(designed, plans, held, text.ToString());
    }

    /// <summary>The plans as the control's words; a control changes nothing else.</summary>
    private static Written Say(
        Designed designed,
        ImmutableArray<ProgramPlan> plans,
        ImmutableArray<BlockHold> holds,
        string planned
    )
    {
        Job job = designed.Job;
        StringBuilder said = new();
        List<ProgramText> programs = [];
        foreach (Stage<ProgramText> written in plans.Select(p => ProgramWriter.Write(p, job.Control, job)))
        {
            said.AppendJoin('\n', written.Findings);
            if (written.Value is { } program)
            {
                programs.Add(program);
                said.Append(program.FileName).Append(program.Text);
            }
        }
        return new Written(designed, plans, holds, [.. programs], planned, said.ToString());
    }

    private static Judged Judge(Written w)
    {
        if (w.Programs.IsEmpty)
        {
            return new Judged(w, null, "");
        }
        VerifyResult verdict = Verifier.Judge(
            new VerifyRequest(w.Designed.Job, w.Designed.Design, w.Programs, Limits.House) { Drawing = w.Designed.Part }
        );
        StringBuilder text = new();
        text.AppendJoin('\n', verdict.Findings);
        text.Append(ReportBuilder.Verify(verdict));
        foreach (ProgramVerdict p in verdict.Programs)
        {
            text.Append(
                FormattableString.Invariant($"{p.FileName} {p.Lines} {p.Minutes:R} {p.CutMm:R} {p.RapidMm:R}\n")
            );
        }
        return new Judged(w, verdict, text.ToString());
    }

    private static string Print(Judged j)
    {
        if (j.Verdict is null)
        {
            return "";
        }
        Designed d = j.Written.Designed;
        PaperFacts facts = new()
        {
            Job = d.Job,
            Design = d.Design,
            Holding = d.Holding,
            Direction = d.Direction,
            Verdict = j.Verdict,
            BlockHolds = j.Written.Holds,
            Plans = j.Written.Plans,
            Programs = j.Written.Programs,
            Drawn = d.Part,
        };
        IEnumerable<byte> bytes = OutputFiles.Papers(facts).SelectMany(f => f.Bytes);
        return Convert.ToHexString(System.Security.Cryptography.SHA256.HashData([.. bytes]))
            + FixtureGen.Output.Pictures.Preview.Svg(d.Design, d.Job);
    }

    private sealed record Drawn(string Report, Finding[] Findings, Designed? Designed);

    private sealed record Written(
        Designed Designed,
        ImmutableArray<ProgramPlan> Plans,
        ImmutableArray<BlockHold> Holds,
        ImmutableArray<ProgramText> Programs,
        string Text,
        string Said
    );

    private sealed record Judged(Written Written, VerifyResult? Verdict, string Text);
}
