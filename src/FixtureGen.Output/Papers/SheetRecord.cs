using FixtureGen.Model;
using FixtureGen.Output.Reports;

namespace FixtureGen.Output.Papers;

/// <summary>A page to write on, which stays with the block: parts trimmed, cord changes, leak readings, screws tightened again.</summary>
internal static class SheetRecord
{
    private const int Rows = 24;
    private const double RowHeight = 7.6;

    private static Column[] Columns(bool byMagnets) =>
        [
            new("Date", 2.2, Fit.Left),
            new("Block no.", 1.5, Fit.Left),
            new("Parts trimmed", 2, Fit.Left),
            new("In all", 1.6, Fit.Left),
            new(byMagnets ? "Discs changed" : "Cord changed", 2, Fit.Left),
            new(byMagnets ? "Weakest pull, N" : "Leak, Pa a minute", 2.4, Fit.Left),
            new("Bolts tightened", 2.2, Fit.Left),
            new("Seen and done", 5, Fit.Left),
            new("Name", 2, Fit.Left),
        ];

    public static void Draw(Paper paper, PaperFacts facts)
    {
        paper.Keep((Rows * RowHeight) + 40);
        paper.Heading(
            $"Record of the block: {facts.Job.FixtureId} revision {Figures.Whole(facts.Job.Revision)}",
            (Rows * RowHeight) + 20
        );
        bool byMagnets = facts.Job.HoldBy == HoldBy.Magnets;
        Column[] columns = Columns(byMagnets);
        paper.Text(
            byMagnets
                ? "Pull: shell and magnets on, each jacket pulled straight off with a spring balance. What is written here is noted in the register too: fixturegen register with --cycles (--amount says how much), --worn."
                : $"Leak: shell on, pump shut off at {Figures.Vacuum(facts.Holding.VacuumKPa)}; how far the level rises in one minute. What is written here is noted in the register too: "
                    + "fixturegen register with --cycles and --leak (--amount says how much), --cord, --worn."
        );
        paper.Table(columns, []);
        paper.Lines(columns.Select(c => c.Share), Rows, RowHeight);
    }
}
