using FixtureGen.Model;
using FixtureGen.Output.Pictures;
using FixtureGen.Output.Reports;
using FixtureGen.Output.Scenes;

namespace FixtureGen.Output.Papers;

/// <summary>
/// The paper that goes with one batch: what, how many, on which fixture with which program, the magnets to see, the steps
/// with boxes, and a QR code that says job and revision.
/// </summary>
public static class Traveler
{
    /// <summary>Larger batches are counted, not ticked part by part.</summary>
    private const int MostTallied = 120;

    /// <summary>PDF bytes, one or two pages of A4 or Letter as the job says; the same bytes for the same facts.</summary>
    public static byte[] Pdf(PaperFacts facts) =>
        PdfDraw.Pdf(Draw(facts), $"Traveler {facts.Job.FixtureId} revision {Figures.Whole(facts.Job.Revision)}");

    internal static IReadOnlyList<Scene> Draw(PaperFacts facts)
    {
        Job job = facts.Job;
        Paper paper = Paper.For(
            job,
            $"Traveler  {job.FixtureId} rev {Figures.Whole(job.Revision)}  {job.Title}{LowHoldBanner.Running(facts)}"
        );
        paper.NewPage();
        SheetFront.Banner(paper, job, "TRAVELER");
        LowHoldBanner.Draw(paper, facts);
        Head(paper, facts);
        Magnets(paper, facts.Design.Magnets.Length);
        paper.Y += 2;
        Cautions.Draw(paper, Cautions.Brief(facts));
        Steps(paper, "Before the batch", BeforeBatch(facts));
        Steps(paper, "First part, before the batch", FirstPart());
        Steps(paper, "Every part", EveryPart(facts));
        Steps(paper, "After the batch", AfterBatch(facts));
        Record(paper, job);
        FirstArticle.Draw(paper, facts);
        return paper.Finished();
    }

    private static void Head(Paper paper, PaperFacts facts)
    {
        const double code = 37;
        double top = paper.Y;
        Point2 corner = paper.PointAt(paper.Right - code, top + code + 1);
        QrMark.Draw(
            paper.Page,
            QrMark.Words(facts.Job),
            new Box2(corner.X, corner.Y, corner.X + code, corner.Y + code)
        );
        paper.Y += 1.5;
        paper.Pairs(Facts(facts), Paper.Left, paper.Wide - code - 6, 26);
        paper.Y = Math.Max(paper.Y, top + code + 2);
    }

    private static IEnumerable<(string Name, string Value)> Facts(PaperFacts facts)
    {
        Job job = facts.Job;
        yield return ("Part", $"{job.Title} ({job.Name})");
        yield return ("Quantity", Figures.Count(job.Quantity, "piece"));
        yield return ("Fixture", $"{job.FixtureId} revision {Figures.Whole(job.Revision)}");
        yield return ("Label reads", facts.Design.Label);
        if (facts.VerdictOf(Setup.Trim) is { } trim)
        {
            string number = trim.ProgramNumber is { } n ? Figures.Whole(n) : "none";
            yield return ("Program", $"{number}, {trim.FileName}");
            yield return (
                "Machine time",
                $"{Figures.Minutes(trim.Minutes)} min a part, {Figures.Minutes(trim.Minutes * job.Quantity)} min in all"
            );
        }
        yield return (
            "Cutter",
            $"T{Figures.Whole(job.TrimTool.Number)} {ToolWords.Describe(job.TrimTool)}, stick-out {Lengths.For(job).Long(job.TrimTool.StickOut)}"
        );
        if (facts.Design.TrimCuts.Select(c => c.Tool).FirstOrDefault(t => t != job.TrimTool) is { } second)
        {
            yield return (
                "Second cutter",
                $"T{Figures.Whole(second.Number)} {ToolWords.Describe(second)}, stick-out {Lengths.For(job).Long(second.StickOut)}"
            );
        }
        foreach (IGrouping<Tool, DrilledHole> alike in facts.Design.DrilledHoles.GroupBy(h => h.Tool))
        {
            yield return (
                "Drill",
                $"T{Figures.Whole(alike.Key.Number)} {ToolWords.Describe(alike.Key)}, for {Figures.Count(alike.Count(), "hole")}: "
                    + string.Join(", ", alike.Select(h => $"X{Figures.Mm(h.At.X)} Y{Figures.Mm(h.At.Y)}"))
            );
        }
        yield return job.HoldBy == HoldBy.Magnets
            ? ("Held by", $"{Figures.Count(facts.Design.Magnets.Length, "magnet")} alone")
            : ("Vacuum", $"not below {Figures.Vacuum(facts.Holding.VacuumKPa)}");
        yield return ("Shell", $"{job.ShellMaterial.Description}, {Lengths.For(job).Long(job.Shell.Thickness)}");
    }

    /// <summary>The rail with one place for each magnet: full before loading, empty when all are on.</summary>
    private static void Magnets(Paper paper, int count)
    {
        paper.Heading($"Magnets to see: {Figures.Whole(count)}", 24);
        if (count == 0)
        {
            paper.Text("This fixture has no magnets.");
            return;
        }
        const int most = 16;
        int rows = (count + most - 1) / most;
        Box2 rail = paper.Place((rows * 9.5) + 3);
        paper.Page.Shape(Chain.Box(rail with { MaxY = rail.MaxY - 2 }), Pen.Solid(0.3, Colour.Black), Colour.Grey(236));
        for (int i = 0; i < count; i++)
        {
            Point2 at = new(rail.MinX + 7 + (i % most * 11), rail.MaxY - 7 - (i / most * 9.5));
            paper.Page.Shape(Chain.Circle(at, 3.8), Pen.Solid(0.5, Colour.Black), Colour.White);
            paper.Page.Text(Figures.Whole(i + 1), at - new Point2(0, 1.2), TypeStyle.Strong(3.3), Anchor.Middle);
        }
        paper.Y += 1;
        paper.Text(
            $"Lay out exactly {Figures.Whole(count)}, marked side up. None left on the rail means all are on the shell; all back on the rail means none went out with a part."
        );
    }

    private static void Steps(Paper paper, string title, IEnumerable<string> steps)
    {
        paper.Heading(title);
        foreach (string step in steps)
        {
            paper.Tick(step);
        }
    }

    private static IEnumerable<string> BeforeBatch(PaperFacts facts)
    {
        Job job = facts.Job;
        yield return $"Fixture {job.FixtureId} revision {Figures.Whole(job.Revision)} on the plate, pins in, label read aloud against this paper.";
        string[] bolts = [.. job.Plate.Bolts.Select(b => b.Name)];
        yield return $"{Figures.Count(bolts.Length, "bolt")} in ({string.Join(", ", bolts)}), {Figures.Torque(job.Bolt.TorqueNm)}.";
        yield return job.HoldBy == HoldBy.Magnets
            ? "Discs in the block whole and glued fast, none proud; face, pockets and relief clean and dry, no oil."
            : "Cord whole, seated, joints closed; grooves, relief and chip filter clean.";
        yield return $"Trim cutter sharp, T{Figures.Whole(job.TrimTool.Number)} measured, program's first lines match the label.";
        if (!facts.Design.Magnets.IsEmpty)
        {
            yield return "Jackets checked with the marked master magnet: all the same way.";
        }
    }

    private static IEnumerable<string> EveryPart(PaperFacts facts) =>
        facts.Job.HoldBy == HoldBy.Magnets ? OnMagnets(facts) : OnVacuum(facts);

    private static IEnumerable<string> OnMagnets(PaperFacts facts)
    {
        string n = Figures.Whole(facts.Design.Magnets.Length);
        yield return "Shell on its place, down on the block all round, no chip under it. Start: the program stops.";
        yield return $"{n} magnets set on their places, one at a time; the rail is empty. They alone hold the shell.";
        yield return "Push the shell by hand: it does not stir. Else a magnet is missing, turned over or on a chip.";
        yield return "Doors shut. Start again. If the shell stirs: stop.";
        yield return $"Spindle still. Magnets off, {n} back on the rail. Part out, scrap and slugs out, chips off the face.";
    }

    private static IEnumerable<string> OnVacuum(PaperFacts facts)
    {
        string n = Figures.Whole(facts.Design.Magnets.Length);
        bool byHand = facts.Job.Control.VacuumOn.Length == 0;
        yield return byHand
            ? "Shell on its place, seated all round. Vacuum on by hand; start: the program stops."
            : "Shell on its place, seated all round. Doors shut, start: the vacuum comes on and the program stops.";
        yield return $"Gauge at or above {Figures.Vacuum(facts.Holding.VacuumKPa)}.";
        if (facts.Design.Magnets.Length > 0)
        {
            yield return $"{n} magnets set on their places, one at a time; the rail is empty.";
        }
        yield return "Doors shut. Start again. If the level falls or the shell stirs: stop.";
        yield return facts.Design.Magnets.Length > 0
            ? $"Spindle still, vacuum off. Magnets off, {n} back on the rail. Part out, scrap and slugs out, chips off the seal."
            : "Spindle still, vacuum off. Part out, scrap and slugs out, chips off the seal.";
    }

    private static IEnumerable<string> FirstPart()
    {
        yield return "Cut one part, let it come to room temperature, measure every size of the last table and write it in.";
        yield return "All within least and greatest: name ____________ . Else stop: no second part before the cause is found.";
    }

    private static IEnumerable<string> AfterBatch(PaperFacts facts)
    {
        yield return "Last part measured like the first.";
        yield return $"{Figures.Count(facts.Job.Quantity, "good piece")} counted, scrap written down, magnets counted once more{(facts.Job.HoldBy == HoldBy.Magnets ? "" : ", chip filter emptied")}.";
    }

    /// <summary>One small box a part, in tens.</summary>
    private static void Tally(Paper paper, int quantity)
    {
        const int row = 40;
        const double step = 4.2;
        int rows = (quantity + row - 1) / row;
        Box2 box = paper.Place((rows * (step + 0.8)) + 1.5);
        for (int i = 0; i < quantity; i++)
        {
            int column = i % row;
            double x = box.MinX + (column * step) + (column / 10 * 3);
            double y = box.MaxY - 1 - (i / row * (step + 0.8));
            paper.Page.Shape(Chain.Box(new Box2(x, y - 3.2, x + 3.2, y)), Pen.Solid(0.2, Colour.Black));
        }
    }

    private static void Record(Paper paper, Job job)
    {
        int quantity = job.Quantity;
        paper.Heading("Record", 22);
        string[] names =
        [
            "Date",
            "Name",
            $"Good of {Figures.Whole(quantity)}",
            "Scrap",
            job.HoldBy == HoldBy.Magnets ? "Magnets counted" : "Vacuum read",
            "Cutter changed",
        ];
        Box2 box = paper.Place(15);
        double w = box.Width / names.Length;
        for (int i = 0; i < names.Length; i++)
        {
            Box2 cell = new(box.MinX + (i * w), box.MinY, box.MinX + ((i + 1) * w), box.MaxY - 1.5);
            paper.Page.Shape(Chain.Box(cell), Pen.Solid(0.25, Colour.Black));
            paper.Page.Text(names[i], new Point2(cell.MinX + 1.2, cell.MaxY - 3.4), TypeStyle.Plain(2.7));
        }
        if (quantity <= MostTallied)
        {
            Tally(paper, quantity);
        }
    }
}
