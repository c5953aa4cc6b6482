using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Output.Reports;

namespace FixtureGen.Output.Papers;

/// <summary>What the fixture carries: bolts, pins, port, magnets, cords and the list of what to cut and fetch.</summary>
internal static class SheetFixture
{
    public static void Draw(Paper paper, PaperFacts facts)
    {
        paper.Heading("Bolts, pins, locators and ports");
        Column[] columns =
        [
            new("Name", 2.2, Fit.Left),
            new("What", 4, Fit.Left),
            new("X mm", 1.8, Fit.Right),
            new("Y mm", 1.8, Fit.Right),
            new("Diameter", 1.8, Fit.Right),
            new("Fit", 6.5, Fit.Left),
        ];
        paper.Table(columns, Holes(facts).Select(r => (IReadOnlyList<string>)r));
        Magnets(paper, facts);
        Cords(paper, facts);
        paper.Heading("Cut list", 30);
        CutListTable(paper, facts);
    }

    private static IEnumerable<string[]> Holes(PaperFacts facts)
    {
        Job job = facts.Job;
        foreach (
            HoleFeature hole in facts
                .Design.Features.OfType<HoleFeature>()
                .Where(h => h.Kind != FeatureKind.Counterbore)
                .OrderBy(h => h.Kind)
        )
        {
            string name = hole.Opening?.Name ?? hole.Name;
            (string what, string fit) = hole.Kind switch
            {
                FeatureKind.BoltHole => ("bolt", Figures.Torque(job.Bolt.TorqueNm) + ", washer under the head"),
                FeatureKind.PinHole => ("pin, round hole", Bush(job)),
                FeatureKind.PinSlot => (
                    "pin, slot",
                    $"{Figures.Mm(hole.SlotLength)} mm long beyond its ends at {Figures.Degrees(hole.SlotAngleDeg)}°"
                ),
                FeatureKind.LocatorHole => (
                    "shell locator",
                    $"pin pressed in, {Figures.Mm(hole.TopZ - hole.FloorZ)} mm deep"
                ),
                FeatureKind.Port => (
                    "vacuum port",
                    hole.BreaksThrough ? "through to the plate's port" : $"to Z {Figures.Mm(hole.FloorZ)}"
                ),
                FeatureKind.Skim
                or FeatureKind.Plug
                or FeatureKind.PlugVent
                or FeatureKind.Relief
                or FeatureKind.CutoutRelief
                or FeatureKind.FormPocket
                or FeatureKind.GasketGroove
                or FeatureKind.Net
                or FeatureKind.Channel
                or FeatureKind.MagnetPocket
                or FeatureKind.MagnetNotch
                or FeatureKind.Counterbore
                or FeatureKind.Label
                or FeatureKind.Mark => (hole.Name, ""),
            };
            yield return [name, what, Figures.Mm(hole.At.X), Figures.Mm(hole.At.Y), Figures.Mm(hole.Diameter), fit];
        }
    }

    private static string Bush(Job job) =>
        job.Pin.BushDiameter > 0 && job.BlockMaterial.IsPlastic
            ? $"bush {Figures.Mm(job.Pin.BushDiameter)} x {Figures.Mm(job.Pin.BushLength)} mm pressed in, pin {Figures.Mm(job.Pin.Diameter)} mm, {Figures.Mm(job.Pin.Projection)} mm above the plate"
            : $"pin {Figures.Mm(job.Pin.Diameter)} mm slides in, {Figures.Mm(job.Pin.Projection)} mm above the plate";

    private static void Magnets(Paper paper, PaperFacts facts)
    {
        Job job = facts.Job;
        int n = facts.Design.Magnets.Length;
        paper.Heading($"Magnets: {Figures.Whole(n)} in the block, {Figures.Whole(n)} loose in jackets");
        Column[] columns =
        [
            new("Name", 1.2, Fit.Left),
            new("X mm", 1.8, Fit.Right),
            new("Y mm", 1.8, Fit.Right),
            new("Pull share N", 2.2, Fit.Right),
            new("Pole", 3, Fit.Left),
            new("Place", 3, Fit.Left),
        ];
        paper.Table(
            columns,
            facts.Design.Magnets.Select(
                (m, i) =>
                    (IReadOnlyList<string>)
                        [
                            "M" + Figures.Whole(i + 1),
                            Figures.Mm(m.At.X),
                            Figures.Mm(m.At.Y),
                            i < facts.Holding.MagnetShareN.Length ? Figures.Force(facts.Holding.MagnetShareN[i]) : "",
                            "north up",
                            m.Locked ? "fixed by the job"
                            : m.FromDrawing ? "from the drawing"
                            : "chosen",
                        ]
            )
        );
        paper.Text(
            $"{job.Magnet.Description}, {job.Magnet.Grade}, {Figures.Mm(job.Magnet.Diameter)} x {Figures.Mm(job.Magnet.Thickness)} mm, glued in, never pressed; "
                + $"top {Figures.Mm(job.Rules.MagnetRecess)} mm below the face. All in the block north up, all jackets the same way: "
                + "check each with the marked master magnet before the glue and before every batch. "
                + $"The field falls to the implant limit of 0.5 mT at {Figures.Rate(facts.Holding.ImplantDistanceMm)} mm; keep implants {Figures.Rate(Cautions.ImplantMm(facts))} mm away."
        );
    }

    private static void Cords(Paper paper, PaperFacts facts)
    {
        paper.Heading(
            $"Gasket cord: {facts.Job.Gasket.Description}, {Figures.Mm(facts.Design.AllCords.Sum(c => c.Length))} mm of groove"
        );
        Column[] columns =
        [
            new("Joint", 1.2, Fit.Left),
            new("Zone", 1.2, Fit.Left),
            new("Loop", 2.4, Fit.Left),
            new("Groove mm", 2, Fit.Right),
            new("Cut to mm", 2, Fit.Right),
            new("Joint at X", 2, Fit.Right),
            new("Y", 2, Fit.Right),
        ];
        paper.Table(
            columns,
            facts.Design.AllCords.Select(
                (c, i) =>
                    (IReadOnlyList<string>)
                        [
                            "J" + Figures.Whole(i + 1),
                            Figures.Whole(c.Zone + 1),
                            c.IsOuter ? "outer" : "round a cutout",
                            Figures.Mm(c.Length),
                            Figures.Mm(c.CutLength),
                            Figures.Mm(c.Joint.X),
                            Figures.Mm(c.Joint.Y),
                        ]
            )
        );
        double area = Measure.Area(facts.Design.Zones.SelectMany(z => z.Reached));
        paper.Text(
            $"Sealed area {Figures.Area(area)} mm² in {Figures.Count(facts.Design.Zones.Length, "zone")}. One scarfed, bonded joint a loop, on the mark; "
                + $"press the cord in from the joint both ways, never stretch it. Groove {Figures.Mm(facts.Job.Gasket.GrooveWidth)} wide, {Figures.Mm(facts.Job.Gasket.GrooveDepth)} mm deep."
        );
    }

    private static void CutListTable(Paper paper, PaperFacts facts)
    {
        Column[] columns =
        [
            new("What", 3.4, Fit.Left),
            new("Pieces", 1.2, Fit.Right),
            new("Size", 5, Fit.Left),
            new("Note", 5, Fit.Left),
        ];
        paper.Table(
            columns,
            CutList.Rows(facts).Select(r => (IReadOnlyList<string>)[r.What, r.Pieces, r.Size, r.Note])
        );
    }
}
