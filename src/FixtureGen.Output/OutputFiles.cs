using System.Collections.Immutable;
using System.Text;
using FixtureGen.Model;
using FixtureGen.Output.Papers;
using FixtureGen.Output.Pictures;
using FixtureGen.Output.Reports;

namespace FixtureGen.Output;

/// <summary>Every file of a job by the names of the contract; the same facts give the same bytes.</summary>
public static class OutputFiles
{
    /// <summary>Programs, drawing and pictures.</summary>
    public static ImmutableArray<OutputFile> Pictures(PaperFacts facts)
    {
        (Job job, FixtureDesign design) = (facts.Job, facts.Design);
        string name = job.Name;
        return
        [
            .. facts.Programs.Select(Encode),
            new OutputFile($"{name}.fixture.dxf", [.. FixtureDrawing.Dxf(design, job)]),
            new OutputFile($"{name}.preview.png", [.. Preview.Png(design, job)]),
            Text($"{name}.preview.svg", Preview.Svg(design, job)),
            new OutputFile($"{name}.block.png", [.. BlockPicture.Png(facts.Verdict.Block, design)]),
            new OutputFile($"{name}.holding.png", [.. HoldingPicture.Png(design, facts.Holding, job.Limits)]),
        ];
    }

    /// <summary>What is printed: setup sheet, traveler, cut list.</summary>
    public static ImmutableArray<OutputFile> Papers(PaperFacts facts)
    {
        string name = facts.Job.Name;
        return
        [
            new OutputFile($"{name}.setup.pdf", [.. SetupSheet.Pdf(facts)]),
            new OutputFile($"{name}.traveler.pdf", [.. Traveler.Pdf(facts)]),
            Text($"{name}.cutlist.csv", CutList.Csv(facts)),
        ];
    }

    /// <summary>JOB.report.json, UTF-8 without a byte order mark.</summary>
    public static OutputFile Encode(Report report) => Text($"{report.Job}.report.json", ReportJson.Text(report));

    /// <summary>A program under its own file name, UTF-8 without a byte order mark.</summary>
    public static OutputFile Encode(ProgramText program) => Text(program.FileName, program.Text);

    private static OutputFile Text(string name, string text) => new(name, [.. Encoding.UTF8.GetBytes(text)]);
}
