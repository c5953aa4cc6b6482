using System.Collections.Immutable;
using System.Security.Cryptography;
using FixtureGen.Model;
using FixtureGen.Output.Papers;
using FixtureGen.Output.Reports;

namespace FixtureGen.Output;

/// <summary>What a run hands over: the pipeline's answer as report, programs, pictures and papers, or as a report of why not.</summary>
public static class Delivery
{
    /// <summary>Job and drawing to every output file. Refused input gives a report with findings and no files.</summary>
    public static Outcome Make(Request request)
    {
        PipelineResult run = Pipeline.Make(request);
        if (!run.Ok)
        {
            return Reported(request, run);
        }
        Designed designed = run.Designed!;
        PaperFacts facts = new()
        {
            Job = designed.Job,
            Design = designed.Design,
            Holding = designed.Holding,
            Direction = designed.Direction,
            Verdict = run.Verdict!,
            BlockHolds = run.BlockHolds,
            Plans = run.Plans,
            Programs = run.Programs,
            Drawn = designed.Part,
            MissingCutters = run.MissingCutters,
        };
        request.Progress("pictures");
        ImmutableArray<OutputFile> files = OutputFiles.Pictures(facts);
        request.Progress("papers");
        files = files.AddRange(OutputFiles.Papers(facts));
        ImmutableArray<Finding> findings = [.. run.Findings, .. facts.Unprintable()];
        Report report = ReportBuilder.Describe(request, run with { Findings = findings }) with
        {
            Inputs = run.Inputs,
            Files = [.. files.Select(f => new FileFacts(f.Name, f.Bytes.Length, Hash(f)))],
            BlockHolding = ReportBuilder.BlockHolding(run.BlockHolds),
        };
        return new Outcome(
            report,
            findings,
            [.. files, OutputFiles.Encode(report)],
            run.Job,
            run.Design,
            designed.Holding,
            run.Verdict
        );
    }

    /// <summary>Job and drawing as far as the holding answer: what <c>check</c> prints. Writes no program.</summary>
    public static Outcome Check(Request request) => Reported(request, Pipeline.Check(request));

    /// <summary>One program, perhaps edited by hand, against the job's design; setups before it are taken as designed.</summary>
    public static Outcome VerifyFile(Request request, string programFile, string programText, Setup? setup)
    {
        PipelineResult run = Pipeline.VerifyFile(request, programFile, programText, setup);
        Report report = ReportBuilder.Refused(
            request.JobName,
            run.Verdict is null ? run.Findings : [],
            request.Version
        ) with
        {
            Ok = run.Ok,
        };
        return new Outcome(report, run.Findings, [], run.Job, run.Design, null, run.Verdict);
    }

    /// <summary>SHA-256 of a file, hexadecimal in small letters.</summary>
    public static string Hash(OutputFile file) => Convert.ToHexStringLower(SHA256.HashData(file.Bytes.AsSpan()));

    /// <summary>A report without files.</summary>
    private static Outcome Reported(Request request, PipelineResult run) =>
        new(
            ReportBuilder.Describe(request, run),
            run.Findings,
            [],
            run.Job,
            run.Design,
            run.Designed?.Holding,
            run.Verdict
        );
}
