using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Output.Reports;

namespace FixtureGen.Output.Papers;

/// <summary>What the fixture carries: bolts, pins, port, magnets, cords and the list of what to cut and fetch.</summary>
internal static class SheetFixture
{
    public static void Draw(Paper paper, PaperFacts facts)
    {
        paper.Heading(
            facts.Job.HoldBy == HoldBy.Vacuum ? "Bolts, pins, locators and ports" : "Bolts, pins and locators"
        );
        Lengths lengths = Lengths.For(facts.Job);
        Column[] columns =
        [
            new("Name", 2.2, Fit.Left),
            new("What", 4, Fit.Left),
            new(lengths.Head("X"), 2.2, Fit.Right),
            new(lengths.Head("Y"), 2.2, Fit.Right),
            new(lengths.Head("Diameter"), 2.4, Fit.Right),
            new("Fit", 6.5, Fit.Left),
        ];
        paper.Table(columns, Holes(facts).Select(r => (IReadOnlyList<string>)r));
        Magnets(paper, facts);
        if (facts.Job.HoldBy == HoldBy.Vacuum)
        {
            Cords(paper, facts);
        }
        paper.Heading("Cut list", 30);
        CutListTable(paper, facts);
    }

    private static IEnumerable<string[]> Holes(PaperFacts facts)
    {
        Job job = facts.Job;
        Lengths lengths = Lengths.For(job);
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
                    $"{lengths.Long(hole.SlotLength)} long beyond its ends at {Figures.Degrees(hole.SlotAngleDeg)}°"
                ),
                FeatureKind.LocatorHole => (
                    "shell locator",
                    $"pin pressed in, {lengths.Long(hole.TopZ - hole.FloorZ)} deep"
                ),
                FeatureKind.Port => (
                    "vacuum port",
                    hole.BreaksThrough ? "through to the plate's port" : $"to Z {lengths.Long(hole.FloorZ)}"
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
            yield return [name, what, lengths.Cell(hole.At.X), lengths.Cell(hole.At.Y), Diameter(lengths, hole), fit];
        }
    }

    /// <summary>Holes that a fit depends on are made true by a reamer or a gauge and have a figure more.</summary>
    private static string Diameter(Lengths lengths, HoleFeature hole) =>
        hole.Kind is FeatureKind.PinHole or FeatureKind.PinSlot or FeatureKind.LocatorHole
            ? lengths.Fine(hole.Diameter)
            : lengths.Cell(hole.Diameter);

    private static string Bush(Job job) =>
        job.Pin.BushDiameter > 0 && job.BlockMaterial.IsPlastic
            ? $"bush {Lengths.For(job).Size(job.Pin.BushDiameter, job.Pin.BushLength)} pressed in and bonded, flush with the block's underside; {Pin(job)}"
            : $"{Pin(job)}; the mill leaves it within 0.001 in (0.03 mm) (common practice), so try the pin and ream where it binds";

    private static string Pin(Job job) =>
        $"pin {Lengths.For(job).Fine(job.Pin.Diameter)} {Lengths.For(job).Sign}, {Lengths.For(job).Long(job.Pin.Projection)} above the plate";

    private static void Magnets(Paper paper, PaperFacts facts)
    {
        Job job = facts.Job;
        Lengths lengths = Lengths.For(job);
        int n = facts.Design.Magnets.Length;
        if (n == 0)
        {
            return;
        }
        paper.Heading($"Magnets: {Figures.Whole(n)} in the block, {Figures.Whole(n)} loose in jackets");
        Column[] columns =
        [
            new("Name", 1.2, Fit.Left),
            new(lengths.Head("X"), 2.2, Fit.Right),
            new(lengths.Head("Y"), 2.2, Fit.Right),
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
                            lengths.Cell(m.At.X),
                            lengths.Cell(m.At.Y),
                            i < facts.Holding.MagnetShareN.Length ? Figures.Force(facts.Holding.MagnetShareN[i]) : "",
                            "north up",
                            m.Locked ? "fixed by the job"
                            : m.FromDrawing ? "from the drawing"
                            : "chosen",
                        ]
            )
        );
        paper.Text(
            $"{job.Magnet.Description}, {job.Magnet.Grade}, {lengths.Size(job.Magnet.Diameter, job.Magnet.Thickness)}, glued in, never pressed; "
                + $"top {lengths.Long(job.Rules.MagnetRecess)} below the face. All in the block north up, all jackets the same way: "
                + "check each with the marked master magnet before the glue and before every batch. "
                + $"The field falls to the implant limit of 0.5 mT at {lengths.Far(facts.Holding.ImplantDistanceMm)}; keep implants {lengths.Far(Cautions.ImplantMm(facts))} away."
        );
    }

    private static void Cords(Paper paper, PaperFacts facts)
    {
        Lengths lengths = Lengths.For(facts.Job);
        paper.Heading(
            $"Gasket cord: {facts.Job.Gasket.Description}, {lengths.Long(facts.Design.AllCords.Sum(c => c.Length))} of groove"
        );
        Column[] columns =
        [
            new("Joint", 1.2, Fit.Left),
            new("Zone", 1.2, Fit.Left),
            new("Loop", 2.4, Fit.Left),
            new(lengths.Head("Groove"), 2.4, Fit.Right),
            new(lengths.Head("Cut to"), 2.4, Fit.Right),
            new(lengths.Head("Joint at X"), 2.4, Fit.Right),
            new(lengths.Head("Y"), 2.2, Fit.Right),
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
                            lengths.Cell(c.Length),
                            lengths.Cell(c.CutLength),
                            lengths.Cell(c.Joint.X),
                            lengths.Cell(c.Joint.Y),
                        ]
            )
        );
        double area = Measure.Area(facts.Design.Zones.SelectMany(z => z.Reached));
        paper.Text(
            $"Sealed area {Figures.Area(area)} mm² in {Figures.Count(facts.Design.Zones.Length, "zone")}. One scarfed, bonded joint a loop, on the mark; "
                + $"press the cord in from the joint both ways, never stretch it. Groove wide and deep {lengths.Size(facts.Job.Gasket.GrooveWidth, facts.Job.Gasket.GrooveDepth)}."
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
