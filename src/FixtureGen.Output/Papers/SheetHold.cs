using FixtureGen.Model;
using FixtureGen.Output.Reports;

namespace FixtureGen.Output.Papers;

/// <summary>How well the shell is held: worst case beside nominal, without and with its stops, and what those stops are.</summary>
internal static class SheetHold
{
    public static void Draw(Paper paper, PaperFacts facts)
    {
        HoldingResult h = facts.Holding;
        paper.Heading("Hold of the shell while it is trimmed", 46);
        Column[] columns =
        [
            new("Held by", 3.1, Fit.Left),
            new("Worst case", 1.1, Fit.Right),
            new("Nominal", 1.4, Fit.Right),
            new("With stops", 1.2, Fit.Right),
            new("Limit", 1.5, Fit.Right),
            new("First it", 1.7, Fit.Left),
            new("Worst at", 3.7, Fit.Left),
            new("Worst case is; governed by", 5.4, Fit.Left),
        ];
        HouseLimits limits = facts.Job.Limits;
        Lengths lengths = Lengths.For(facts.Job);
        bool byMagnets = facts.Job.HoldBy == HoldBy.Magnets;
        paper.Table(
            columns,
            byMagnets
                ? [Answer(lengths, "Magnets alone, full load", h.MagnetsOnly, Figures.Factor(limits.VacuumFactor))]
                :
                [
                    Answer(lengths, "Vacuum alone, alarm level", h.VacuumOnly, Figures.Factor(limits.VacuumFactor)),
                    Answer(
                        lengths,
                        "Magnets alone, stopping",
                        h.MagnetsStopping,
                        Figures.Factor(limits.MagnetFactor) + " with stops"
                    ),
                    Answer(lengths, "Magnets alone, full load", h.MagnetsOnly, "none"),
                    Answer(lengths, "Vacuum and magnets", h.Both, "none"),
                ]
        );
        paper.Text(
            "Factor: how many times the cutting load is held, rounded down. Worst case: every input at its worse end, no slip at all; "
                + "nominal: for information; with stops: the worst case once the shell has slipped onto them."
        );
        paper.Text(byMagnets ? MagnetForces(h) : Forces(lengths, h));
        string onCord = byMagnets ? "" : $", on the cord {Figures.Range(facts.Job.Gasket.FrictionShellOnCord)}";
        paper.Text(
            $"Friction of the shell: on the block {Figures.Range(facts.Job.ShellFriction ?? facts.Job.BlockMaterial.ShellFriction)}{onCord}. Worst cases take the least; more friction never holds less."
        );
        if (!byMagnets)
        {
            WhileStopping(paper, facts);
        }
        Stops(paper, facts);
        Dimple(paper, facts);
        Forms(paper, facts);
    }

    private static void WhileStopping(Paper paper, PaperFacts facts)
    {
        Machine machine = facts.Job.Plate.Machine;
        paper.Text(
            $"While the machine stops: full load for {Figures.Seconds(machine.VacuumReactionSeconds)} s until the feed hold begins, then less and less over {Lengths.For(facts.Job).Long(machine.FeedHoldDistance)}."
        );
    }

    private static string[] Answer(Lengths lengths, string by, HoldAnswer a, string limit) =>
        [
            by,
            Figures.Factor(a.Factor),
            Figures.FactorOrNone(a.Nominal),
            Figures.FactorOrNone(a.Stays),
            limit,
            Figures.Mode(a.Mode),
            lengths.Place(a.At),
            a.Corner.Length > 0 ? $"{a.Corner}; {a.Governs}" : a.Governs,
        ];

    private static string MagnetForces(HoldingResult h) =>
        $"No cord and no vacuum under the shell: {Figures.Count(h.MagnetShareN.Length, "magnet")} pull it down with {Figures.Force(h.MagnetForceN)} N in the worst case; "
        + $"cutting load up to {Figures.Force(h.CuttingForceN)} N. The weakest jacket holds {Figures.Factor(h.JacketGrip)} times against the wind of the tool.";

    private static string Forces(Lengths lengths, HoldingResult h) =>
        $"Seal {Figures.Force(h.SealedForceN)} N less cord {Figures.Force(h.GasketForceN)} N; magnets {Figures.Force(h.MagnetForceN)} N; "
        + $"cutting load up to {Figures.Force(h.CuttingForceN)} N. "
        + (
            h.LiftMm > 0
                ? $"If the seal is lost the cord lifts the shell {lengths.Long(h.LiftMm)}."
                : "If the seal is lost the magnets keep the shell down on the block."
        )
        + (
            h.JacketGrip < 999
                ? $" The weakest jacket holds {Figures.Factor(h.JacketGrip)} times against the wind of the tool."
                : ""
        );

    private static void Stops(Paper paper, PaperFacts facts)
    {
        HoldingResult h = facts.Holding;
        if (h.Stops.IsEmpty)
        {
            paper.Text("No stop counts in the hold: the shell is held by friction alone.");
            return;
        }
        Lengths lengths = Lengths.For(facts.Job);
        Column[] columns =
        [
            new("Stop", 2.4, Fit.Left),
            new("Name", 2.6, Fit.Left),
            new(lengths.Head("X"), 2.6, Fit.Right),
            new(lengths.Head("Y"), 2.6, Fit.Right),
            new(lengths.Head("Clearance"), 2.3, Fit.Right),
            new("Strength N", 2, Fit.Right),
            new("Holds", 5, Fit.Left),
        ];
        paper.Table(
            columns,
            h.Stops.Select(s =>
                (IReadOnlyList<string>)
                    [
                        Words.For(s.Kind),
                        s.Name,
                        lengths.Cell(s.At.X),
                        lengths.Cell(s.At.Y),
                        lengths.Cell(s.ClearanceMm),
                        Figures.Force(s.StrengthN),
                        Holds(s.Kind),
                    ]
            )
        );
        paper.Text(
            $"If it slips, the shell may shift up to {Lengths.For(facts.Job).Long(h.ShiftMm)} before these hold it; its stated slack on the block is {Lengths.For(facts.Job).Long(facts.Job.Shell.SlackMax)}. "
                + "A part that has shifted is measured before it is used."
        );
    }

    private static void Dimple(Paper paper, PaperFacts facts)
    {
        if (
            facts.Holding.Dimples.MaxBy(d => d.SagMm) is { } deepest
            && facts.Job.ShellMaterial.Sheet is { ModulusMPa: var modulus }
        )
        {
            paper.Text(
                $"At the pump's full vacuum the shell sinks {Figures.Micron(deepest.SagMm)} mm into {deepest.Feature} ({Lengths.For(facts.Job).Long(deepest.SpanMm)} wide, {Lengths.For(facts.Job).Long(deepest.RoomMm)} deep), {Figures.Force(deepest.StressMPa)} N/mm² in the sheet: its worst dimple, with the least modulus of {Figures.Rate(modulus.Least)} to {Figures.Rate(modulus.Greatest)} N/mm²."
            );
        }
    }

    private static void Forms(Paper paper, PaperFacts facts)
    {
        foreach (FormBearing b in facts.Design.Bearings)
        {
            string carried = facts.Design.Part.Forms[b.Form].Plugged
                ? "The plug in the block carries it: never trim it on a block whose plug is damaged or gone."
                : "It stands without a plug.";
            paper.Text(
                $"Form {Figures.Whole(b.Form + 1)}, {Lengths.For(facts.Job).Long(b.HeightMm)} high, {Figures.Area(b.ProjectedMm2)} mm² under vacuum: alone, at its thinnest of {Lengths.For(facts.Job).Long(b.ThicknessMm)}, it bears {Figures.Factor(b.BucklingMargin)} times what the pump can reach, {Figures.Factor(FormBearing.LeastMargin)} are wanted, and is strained by {Figures.Force(b.StressMPa)} N/mm² of {Figures.Rate(SheetStrength.MostBendingMPa)}. {carried}"
            );
        }
    }

    private static string Holds(StopKind kind) =>
        kind switch
        {
            StopKind.Pin => "every way",
            StopKind.Slot => "across the slot",
            StopKind.Tab => "every way, while the scrap is on the pins",
            StopKind.Wall => "one way, off its wall",
        };
}
