using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Output.Pictures;
using FixtureGen.Output.Reports;
using FixtureGen.Output.Scenes;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Output.Papers;

/// <summary>The first page: the name large enough to read from the aisle, the picture with its origin, the programs and the hold.</summary>
internal static class SheetFront
{
    public static void Draw(Paper paper, PaperFacts facts)
    {
        paper.NewPage();
        Banner(paper, facts.Job, "SETUP SHEET");
        LowHoldBanner.Draw(paper, facts);
        double top = paper.Y;
        Picture(paper, facts, out IReadOnlyList<LineKind> key);
        double below = paper.Y;
        paper.Y = top + 2;
        paper.Pairs(Block(facts), Paper.Left + Side(paper) + 3, paper.Wide - Side(paper) - 3, 20);
        paper.Y = Math.Max(below, paper.Y);
        Key(paper, key);
        Alarm(paper, facts);
        Programs(paper, facts);
        Judge(paper, facts.Verdict);
        SheetHold.Draw(paper, facts);
    }

    /// <summary>Fixture and revision, title, and what this paper is.</summary>
    public static void Banner(Paper paper, Job job, string paperName)
    {
        paper.Y += 7.5;
        paper.Page.Text(
            $"{job.FixtureId}  rev {Figures.Whole(job.Revision)}",
            paper.PointAt(Paper.Left, paper.Y),
            TypeStyle.Strong(9)
        );
        paper.Page.Text(paperName, paper.PointAt(paper.Right, paper.Y), TypeStyle.Strong(4.6), Anchor.Right);
        paper.Y += 6;
        paper.Page.Text(
            job.Title,
            paper.PointAt(Paper.Left, paper.Y),
            Typefaces.Shrunk(job.Title, TypeStyle.Plain(4.6), paper.Wide)
        );
        paper.Y += 2.4;
        paper.Page.Line(
            paper.PointAt(Paper.Left, paper.Y),
            paper.PointAt(paper.Right, paper.Y),
            Pen.Solid(0.8, Colour.Black)
        );
        paper.Y += 2;
    }

    private static void Picture(Paper paper, PaperFacts facts, out IReadOnlyList<LineKind> key)
    {
        double side = Side(paper);
        Box2 place = paper.Place(side + 4);
        Box2 box = new(place.MinX + 9, place.MinY + 10, place.MinX + side, place.MaxY - 1);
        Box2 blank = facts.Design.Placement.BlankBox;
        View view = View.Fit(blank, box, 1, mirrorX: false);
        FixtureView picture = new(paper.Page, view, textSize: 0);
        picture.Everything(facts.Design, facts.Job);
        key = picture.Used;
        Marks.Stops(paper.Page, view, facts.Job.Plate);
        Marks.Origin(paper.Page, view.ToPage(new Point2(0, 0)), 8, 3, mirrorX: false);
        SheetMarks.All(paper.Page, view, facts, 2.5);
        Point2 a = view.ToPage(new Point2(blank.MinX, blank.MinY));
        Marks.Dimension(
            paper.Page,
            a,
            view.ToPage(new Point2(blank.MaxX, blank.MinY)),
            8,
            Marks.Length(blank.Width, facts.Job.Control.Unit),
            2.8
        );
        Marks.Dimension(
            paper.Page,
            a,
            view.ToPage(new Point2(blank.MinX, blank.MaxY)),
            -7,
            Marks.Length(blank.Height, facts.Job.Control.Unit),
            2.8
        );
    }

    /// <summary>Width and height of the picture: what leaves the programs and the hold room on the same page.</summary>
    private static double Side(Paper paper) => paper.IsShort ? 92 : 99;

    private static void Key(Paper paper, IReadOnlyList<LineKind> key)
    {
        const int columns = 4;
        const double size = 2.5;
        int rows = (key.Count + columns - 1) / columns;
        Box2 place = paper.Place((rows * size * 1.75) + 1);
        for (int i = 0; i < columns; i++)
        {
            Point2 top = new(place.MinX + (i * paper.Wide / columns), place.MaxY);
            Legend.Column(paper.Page, key.Skip(i * rows).Take(rows), top, size);
        }
    }

    private static IEnumerable<(string Name, string Value)> Block(PaperFacts facts)
    {
        Job job = facts.Job;
        FixtureDesign design = facts.Design;
        Box2 part = Measure.Bounds(design.Part.Outer);
        yield return ("Blank", job.Blank.Description);
        yield return ("Size", Lengths.For(job).Size(job.Blank.Width, job.Blank.Height));
        yield return ("Thickness", Thickness(facts.Design, job));
        yield return (
            "Skim to",
            $"Z {Lengths.For(job).Long(design.SkimmedZ)}, takes {Lengths.For(job).Long(design.RawThickness - design.SkimmedZ)}, at most {Lengths.For(job).Long(job.BlankThickest - design.SkimmedZ)}{Plug(design, job)}"
        );
        yield return (
            "Plate",
            $"{job.Plate.Description}, rev {Figures.Whole(job.Plate.Revision)}; X0 Y0 its origin, Z0 its face"
        );
        yield return ("Control", job.Control.Description.Length > 0 ? job.Control.Description : job.Control.Name);
        yield return ("Label", design.Label);
        if (design.Features.OfType<EngravingFeature>().FirstOrDefault(f => f.Kind == FeatureKind.Mark) is { } arrow)
        {
            yield return (
                "Lies",
                $"the engraved arrow points to {Axis(arrow.Strokes[0].End - arrow.Strokes[0].Start)}"
            );
        }
        yield return (
            "Part",
            $"area {Figures.Area(PartArea(design.Part))} mm², edge {Lengths.For(job).Long(Measure.Length(design.Part.Outer))}"
        );
        yield return ("Outside", Lengths.For(job).Size(part.Width, part.Height) + " on the block");
        yield return ("Cutouts", Figures.Whole(design.Part.Cutouts.Length));
        Pose pose = design.Placement.Pose;
        yield return (
            "Placed",
            $"{Lengths.For(job).Place(new Point2(pose.X, pose.Y))}, turned {Figures.Degrees(pose.AngleDeg)}°"
        );
        yield return (
            "Shell",
            $"{job.ShellMaterial.Description}, {Lengths.For(job).Long(job.Shell.Thickness)}, found by {Locator(job)}"
        );
    }

    private static string Plug(FixtureDesign design, Job job) =>
        design.SkimmedZ > design.FixtureHeight
            ? $"; round the plug on down to the face, Z {Lengths.For(job).Long(design.FixtureHeight)}"
            : "";

    /// <summary>Measured only where the job says so; else the first program's steps ask for it.</summary>
    private static string Thickness(FixtureDesign design, Job job)
    {
        string safe = $"{Lengths.For(job).Range(design.BlankLeastSafe(job), job.BlankThickest)} is safe";
        return job.BlockMeasured
            ? $"{Lengths.For(job).Long(job.BlankThickness)}, measured; {safe}"
            : $"stock of {Lengths.For(job).Long(job.BlankThickness)}, measure it: {safe}";
    }

    private static string Axis(Point2 way) =>
        Math.Abs(way.X) > Math.Abs(way.Y) ? (way.X > 0 ? "+X" : "-X")
        : way.Y > 0 ? "+Y"
        : "-Y";

    /// <summary>Outer less cutouts, mm2; cutouts run clockwise and count negative.</summary>
    public static double PartArea(Part part) => Measure.Area(part.Outer) + part.Cutouts.Sum(Measure.Area);

    private static string Locator(Job job) =>
        job.Locator switch
        {
            LocatorKind.Form => "its form",
            LocatorKind.Pins => "pins in the scrap",
            LocatorKind.Hand => "hand: lay to the line",
            _ => "nothing stated",
        };

    /// <summary>The one figure that is looked at for every part stands on the first page, above the tables.</summary>
    private static void Alarm(Paper paper, PaperFacts facts)
    {
        HoldingResult h = facts.Holding;
        if (facts.Job.HoldBy == HoldBy.Magnets)
        {
            string n = Figures.Count(facts.Design.Magnets.Length, "magnet").ToUpperInvariant();
            paper.Text(
                $"HELD BY {n} ALONE: never cut with one missing. No cord, no vacuum under the shell; the raw block is held by the plate's vacuum, not below {Figures.Vacuum(h.VacuumKPa)}.",
                bold: true
            );
            return;
        }
        paper.Text(
            $"ALARM LEVEL {Figures.Vacuum(h.VacuumKPa)}: never cut below it. The pump reaches {Figures.Vacuum(h.PumpKPa)} here "
                + $"(atmosphere {Figures.Force(h.AtmosphereKPa)} kPa at {Figures.Rate(facts.Job.Vacuum.AltitudeM)} m).",
            bold: true
        );
    }

    private static void Programs(Paper paper, PaperFacts facts)
    {
        paper.Heading("Programs, in this order");
        Lengths lengths = Lengths.For(facts.Job);
        Column[] columns =
        [
            new("Setup", 2.2, Fit.Left),
            new("File", 4.6, Fit.Left),
            new("No.", 1.6, Fit.Right),
            new("Minutes", 1.9, Fit.Right),
            new("Lines", 1.6, Fit.Right),
            new("Arcs", 1.6, Fit.Right),
            new(lengths.Sign == "in" ? "Cut in (m)" : "Cut m (in)", 2.3, Fit.Right),
            new(lengths.Sign == "in" ? "Rapid in (m)" : "Rapid m (in)", 2.3, Fit.Right),
            new("Tools", 3, Fit.Left),
        ];
        paper.Table(columns, facts.Verdict.Programs.Select(p => (IReadOnlyList<string>)Row(facts, p)));
    }

    private static string[] Row(PaperFacts facts, ProgramVerdict p) =>
        [
            Figures.Setup(p.Setup),
            p.FileName,
            p.ProgramNumber is { } n ? Figures.Whole(n) : "none",
            Figures.Minutes(p.Minutes),
            Figures.Whole(p.Lines),
            Figures.Whole(p.Arcs),
            Lengths.For(facts.Job).Way(p.CutMm),
            Lengths.For(facts.Job).Way(p.RapidMm),
            string.Join(", ", p.Tools.Select(t => "T" + Figures.Whole(t.Tool))),
        ];

    private static void Judge(Paper paper, VerifyResult verdict)
    {
        string word = verdict.Ok ? "passed" : "FAILED: do not run";
        paper.Text(
            $"Checked on a simulated block of {Figures.Mm(verdict.CellMm)} mm cells: {word}. Too deep at most {Figures.Micron(verdict.MaxGougeDepthMm)} mm, "
                + $"into a wall at most {Figures.Micron(verdict.MaxGougeSideMm)} mm, left standing at most {Figures.Micron(verdict.MaxLeftoverMm)} mm."
        );
    }
}
