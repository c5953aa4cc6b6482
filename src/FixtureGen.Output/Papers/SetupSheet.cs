using FixtureGen.Model;
using FixtureGen.Output.Reports;
using FixtureGen.Output.Scenes;

namespace FixtureGen.Output.Papers;

/// <summary>
/// The setup sheet of one fixture: who it is, how each program is set up and what it does, what the fixture needs, and the
/// cautions, and a page to write on what becomes of it. The report's own digits are in its file.
/// </summary>
public static class SetupSheet
{
    /// <summary>PDF bytes, A4 or Letter as the job says, text selectable, pictures as vectors; the same bytes for the same facts.</summary>
    public static byte[] Pdf(PaperFacts facts) =>
        PdfDraw.Pdf(Draw(facts), $"Setup sheet {facts.Job.FixtureId} revision {Figures.Whole(facts.Job.Revision)}");

    internal static IReadOnlyList<Scene> Draw(PaperFacts facts)
    {
        Job job = facts.Job;
        string running =
            $"Setup sheet  {job.FixtureId} rev {Figures.Whole(job.Revision)}  {job.Title}{LowHoldBanner.Running(facts)}";
        Paper paper = Paper.For(job, running);
        SheetFront.Draw(paper, facts);
        foreach (ProgramPlan plan in facts.Plans)
        {
            SheetProgram.Draw(paper, facts, plan);
        }
        SheetFixture.Draw(paper, facts);
        SheetLocators.Draw(paper, facts);
        SheetChecks.Draw(paper, facts);
        paper.Heading("Cautions", 80);
        paper.Y += 1.5;
        Cautions.Draw(paper, Cautions.For(facts));
        SheetSources.Draw(paper, facts);
        SheetRecord.Draw(paper, facts);
        return paper.Finished();
    }
}
