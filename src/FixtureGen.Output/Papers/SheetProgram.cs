using System.Collections.Immutable;
using FixtureGen.Design.Block;
using FixtureGen.Model;
using FixtureGen.Output.Reports;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Output.Papers;

/// <summary>One program's part of the sheet: how the block lies, what the operator does first, its tools, its steps with stops and hold.</summary>
internal static class SheetProgram
{
    public static void Draw(Paper paper, PaperFacts facts, ProgramPlan plan)
    {
        ProgramVerdict? verdict = facts.VerdictOf(plan.Setup);
        string minutes = verdict is null ? "" : $", {Figures.Minutes(verdict.Minutes)} min";
        string file = facts.TextOf(plan.Setup)?.FileName ?? facts.Job.Name;
        paper.Keep(plan.Setup == Setup.Underside ? 150 : 60);
        paper.Heading($"{Title(plan.Setup)}: program {Figures.Whole(plan.ProgramNumber)}, {file}{minutes}", 60);
        if (plan.Setup == Setup.Underside && facts.Design.Flip is { } flip)
        {
            SheetUnderside.Draw(paper, facts, flip);
        }
        foreach (string step in Before(facts, plan.Setup))
        {
            paper.Tick(step);
        }
        Control control = facts.Job.Control;
        string first = string.Join(" | ", plan.Header);
        paper.Text(
            $"The program is written in {(control.Unit == LengthUnit.Inch ? "inches" : "millimetres")}, which stand first on this sheet. Its first lines: {(control.CommentUpperCase ? first.ToUpperInvariant() : first)}"
        );
        Tools(paper, Lengths.For(facts.Job), plan, verdict);
        if (plan.Setup == Setup.Trim)
        {
            paper.Text("Cut direction. " + facts.Direction.Reason);
        }
        Steps(paper, facts, plan, verdict);
        if (plan.Setup == Setup.Top && !facts.MissingCutters.IsEmpty)
        {
            string[] missing =
            [
                .. facts.MissingCutters.Select(m =>
                    $"{Words.For(m.Kind)} of {Lengths.For(facts.Job).Long(m.DiameterMm)}: {Figures.Minutes(m.MinutesSaved)} min a block"
                ),
            ];
            paper.Text(
                $"Cutters that the rack does not have, and what each alone would save: {string.Join("; ", missing)}."
            );
        }
    }

    private static string Title(Setup setup) =>
        setup switch
        {
            Setup.Underside => "Underside",
            Setup.Top => "Top",
            Setup.Trim => "Trim",
        };

    /// <summary>What is done before the start button, in order; pins and bolts are said every time.</summary>
    private static IEnumerable<string> Before(PaperFacts facts, Setup setup)
    {
        Job job = facts.Job;
        Lengths lengths = Lengths.For(job);
        bool first = setup == (facts.Design.Flip is null ? Setup.Top : Setup.Underside);
        if (first && !job.BlockMeasured)
        {
            yield return $"Measure the blank: ____________ {lengths.Sign}. {lengths.Range(facts.Design.BlankLeastSafe(job), job.BlankThickest)} is safe; do not cut one that is thinner or thicker.";
        }
        string stops = string.Join("; ", job.Plate.Stops.Select(s => lengths.Place(s.At)));
        string bolts = Bolts(facts);
        switch (setup)
        {
            case Setup.Underside:
                yield return $"Pins OUT, bolts out. Raw block against the stops ({stops}), the side that becomes the underside up.";
                break;
            case Setup.Top when facts.Design.Flip is not null:
                yield return $"Block turned over left to right. Pins OUT, bolts out. Same edges against the stops ({stops}).";
                break;
            case Setup.Top:
                yield return $"Pins OUT, bolts out. Raw block against the stops ({stops}).";
                break;
            default:
                yield return $"Block on the pins (pins IN: {job.Plate.PinRound.Name}, {job.Plate.PinSlot.Name}), plate and block clean.";
                yield return $"Bolts IN: {bolts}.";
                yield return facts.Design.Magnets.IsEmpty
                    ? "Lay the shell on and seat it all round."
                    : $"Lay out {Figures.Whole(facts.Design.Magnets.Length)} magnets on the rail. Lay the shell on and seat it all round; the magnets are set when the program stops for them.";
                break;
        }
        if (setup == Setup.Trim && job.HoldBy == HoldBy.Magnets)
        {
            yield return "No vacuum holds this shell: the magnets alone do. Face of the block clean, dry, no chips.";
        }
        else
        {
            yield return $"Vacuum on. Gauge at or above {Figures.Vacuum(facts.Holding.VacuumKPa)}, else find the leak before cutting.";
        }
        yield return "Tool lengths and offsets checked, relief channel clear, air or extraction on, doors shut.";
    }

    public static string Bolts(PaperFacts facts)
    {
        Screw bolt = facts.Job.Bolt;
        string[] names = [.. facts.Job.Plate.Bolts.Select(b => b.Name)];
        return $"{Figures.Whole(names.Length)} x {bolt.Description}{BoltLength(facts)} ({string.Join(", ", names)}), hexagon key {Lengths.For(facts.Job).Long(bolt.KeyEngagement)} into the head, {Figures.Torque(bolt.TorqueNm)}";
    }

    /// <summary>Which lengths reach into the plate's thread and not through it; empty where the design has no bolts.</summary>
    public static string BoltLength(PaperFacts facts) =>
        ScrewReach.For(facts.Design, facts.Job) is { } reach
            ? $", {Lengths.For(facts.Job).Range(reach.Shortest, reach.Longest)} long, {Figures.Whole(reach.Turns)} full turns in the thread at least"
            : "";

    private static void Tools(Paper paper, Lengths lengths, ProgramPlan plan, ProgramVerdict? verdict)
    {
        Column[] columns =
        [
            new("Tool", 1.1, Fit.Left),
            new("Offset", 1.3, Fit.Left),
            new("Name", 5, Fit.Left),
            new(lengths.Head("Diameter"), 2.2, Fit.Right),
            new("Flutes", 1.3, Fit.Right),
            new(lengths.Head("Flutes long"), 2.2, Fit.Right),
            new(lengths.Head("Stick-out"), 2.2, Fit.Right),
            new("Helix", 1.4, Fit.Right),
            new("Minutes", 1.6, Fit.Right),
        ];
        IEnumerable<Tool> tools = plan
            .Steps.Select(s => s.Operation)
            .OfType<Operation>()
            .Select(o => o.Tool)
            .DistinctBy(t => t.Number);
        paper.Table(columns, tools.Select(t => (IReadOnlyList<string>)ToolRow(lengths, t, verdict)));
    }

    private static string[] ToolRow(Lengths lengths, Tool t, ProgramVerdict? verdict) =>
        [
            "T" + Figures.Whole(t.Number),
            "H" + Figures.Whole(t.Number),
            ToolWords.Describe(t),
            lengths.Cell(t.Diameter),
            Figures.Whole(t.Flutes),
            lengths.Cell(t.FluteLength),
            lengths.Cell(t.StickOut),
            Words.For(t.Helix),
            verdict?.Tools.FirstOrDefault(x => x.Tool == t.Number) is { } time ? Figures.Minutes(time.Minutes) : "",
        ];

    private static void Steps(Paper paper, PaperFacts facts, ProgramPlan plan, ProgramVerdict? verdict)
    {
        Column[] columns =
        [
            new("", 0.7, Fit.Left),
            new("Step", 4.2, Fit.Left),
            new("Tool", 1, Fit.Left),
            new("rpm", 1.3, Fit.Right),
            new(Lengths.For(facts.Job).FeedHead, 2.7, Fit.Right),
            new(Lengths.For(facts.Job).Head("Step-down"), 2.4, Fit.Right),
            new("Minutes", 1.6, Fit.Right),
            new("Hold", 1.5, Fit.Right),
            new("Feed and speed set by", 6.4, Fit.Left),
        ];
        ImmutableArray<double> minutes = OperationMinutes.Share(plan, verdict, facts.Job.Plate.Machine);
        List<IReadOnlyList<string>> rows = [];
        int operation = 0;
        foreach (ProgramStep step in plan.Steps.Where(s => s.Kind != ProgramStepKind.Comment))
        {
            string number = Figures.Whole(rows.Count + 1);
            rows.Add(
                step.Operation is { } o
                    ? OperationRow(facts, plan.Setup, number, o, minutes[operation++])
                    : [number, Said(step)]
            );
        }
        paper.Table(columns, rows);
        paper.Text(
            plan.Setup == Setup.Trim && facts.Job.HoldBy == HoldBy.Magnets
                ? $"Hold: the magnets alone, at the cut's worst point; house limit {Figures.Factor(facts.Job.Limits.VacuumFactor)}."
            : plan.Setup == Setup.Trim
                ? $"Hold: the vacuum alone at the alarm level, at the cut's worst point; house limit {Figures.Factor(facts.Job.Limits.VacuumFactor)}."
            : $"Hold: the block on the plate's vacuum, with bolts where said, against this cut; least allowed {Figures.Factor(facts.Job.Limits.BlockFactor)}."
        );
    }

    private static string[] OperationRow(PaperFacts facts, Setup setup, string number, Operation o, double minutes) =>
        [
            number,
            o.Name + (o.BreaksPlateSeal ? " (breaks the plate seal)" : ""),
            "T" + Figures.Whole(o.Tool.Number),
            Figures.Rate(o.SpindleRpm),
            Lengths.For(facts.Job).Feed(o.FeedMmPerMin),
            Lengths.For(facts.Job).Cell(StepOf(facts, o)),
            Figures.Minutes(minutes),
            HoldOf(facts, setup, o),
            o.LimitedBy,
        ];

    /// <summary>An engraver could go deeper at once than its strokes are deep.</summary>
    private static double StepOf(PaperFacts facts, Operation o) =>
        o.Kind switch
        {
            OperationKind.Engrave => facts
                .Design.Features.OfType<EngravingFeature>()
                .Where(f => o.Features.Contains(f.Name))
                .Select(f => f.Depth)
                .DefaultIfEmpty(o.StepDown)
                .Max(),
            OperationKind.TrimEngrave => facts.Job.Rules.EngraveDepth,
            OperationKind.Skim
            or OperationKind.Clear
            or OperationKind.Profile
            or OperationKind.Groove
            or OperationKind.Bore
            or OperationKind.Drill
            or OperationKind.TrimCutout
            or OperationKind.TrimOutline => o.StepDown,
        };

    private static string HoldOf(PaperFacts facts, Setup setup, Operation o)
    {
        if (setup == Setup.Trim)
        {
            string[] cuts =
                o.Kind == OperationKind.Drill
                    ? [.. facts.Design.DrilledHoles.Where(h => h.Tool == o.Tool).Select(h => h.Name)]
                    : [.. facts.Design.TrimCuts.Where(c => Cuts(o.Kind, c.Kind)).Select(c => c.Name)];
            HoldSample[] samples = [.. facts.Holding.Samples.Where(s => cuts.Contains(s.Cut))];
            return samples.Length == 0
                ? ""
                : Figures.Factor(
                    samples.Min(s => facts.Job.HoldBy == HoldBy.Magnets ? s.MagnetsFullLoad : s.VacuumOnly)
                );
        }
        return BlockHoldOf(facts, o) is { } hold ? Figures.Factor(hold.Factor) + (hold.Bolted ? " bolted" : "") : "";
    }

    private static bool Cuts(OperationKind operation, TrimKind cut) =>
        (operation, cut) switch
        {
            (OperationKind.TrimCutout, TrimKind.Cutout or TrimKind.Corner) => true,
            (OperationKind.TrimOutline, TrimKind.Outline) => true,
            _ => false,
        };

    /// <summary>Operations of one name, such as a pocket's two tools, have their answers in the order of cutting.</summary>
    private static BlockHold? BlockHoldOf(PaperFacts facts, Operation o)
    {
        Operation[] same =
        [
            .. facts
                .Plans.SelectMany(p => p.Steps)
                .Select(s => s.Operation)
                .OfType<Operation>()
                .Where(x => x.Name == o.Name),
        ];
        BlockHold[] holds = [.. facts.BlockHolds.Where(h => h.Operation == o.Name)];
        int nth = Array.FindIndex(same, x => ReferenceEquals(x, o));
        return nth < holds.Length ? holds[nth] : null;
    }

    private static string Said(ProgramStep step) =>
        step.Kind switch
        {
            ProgramStepKind.Stop => "STOP: " + step.Text,
            ProgramStepKind.VacuumOn => "Vacuum on",
            ProgramStepKind.VacuumWait => "Wait: " + step.Text,
            ProgramStepKind.VacuumOff => "Vacuum off",
            ProgramStepKind.Operation or ProgramStepKind.Comment => step.Text,
        };
}
