using FixtureGen.Model;

namespace FixtureGen.Output.Papers;

/// <summary>Which shop files the fixture was made with, what they call themselves, and where their figures are published.</summary>
internal static class SheetSources
{
    public static void Draw(Paper paper, PaperFacts facts)
    {
        paper.Heading("Shop files and where their figures come from", 30);
        Column[] columns =
        [
            new("What", 2, Fit.Left),
            new("File", 2.4, Fit.Left),
            new("Description", 4.4, Fit.Left),
            new("Source", 7, Fit.Left),
        ];
        paper.Table(
            columns,
            Rows(facts.Job).Select(r => (IReadOnlyList<string>)[r.What, r.File, r.Description, r.Source])
        );
    }

    /// <summary>One row a file, in the order of a job's [shop] table; Source is empty where the kind of file has none.</summary>
    internal static IEnumerable<(string What, string File, string Description, string Source)> Rows(Job job) =>
        [
            ("plate", job.Plate.Name, job.Plate.Description, ""),
            ("blank", job.Blank.Name, job.Blank.Description, ""),
            ("block", job.BlockMaterial.Name, job.BlockMaterial.Description, job.BlockMaterial.Source),
            ("shell", job.ShellMaterial.Name, job.ShellMaterial.Description, job.ShellMaterial.Source),
            ("tools", job.Rack?.Name ?? "", job.Rack?.Description ?? "", ""),
            ("magnet", job.Magnet.Name, job.Magnet.Description, job.Magnet.Source),
            .. job.HoldBy == HoldBy.Magnets
                ? Array.Empty<(string, string, string, string)>()
                : [("gasket", job.Gasket.Name, job.Gasket.Description, job.Gasket.Source)],
            ("bolt", job.Bolt.Name, job.Bolt.Description, job.Bolt.Source),
            ("pin", job.Pin.Name, job.Pin.Description, job.Pin.Source),
            ("control", job.Control.Name, job.Control.Description, ""),
        ];
}
