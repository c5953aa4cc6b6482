using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Output.Reports;

namespace FixtureGen.Output.Papers;

/// <summary>Checks before the first part and on it, and the leak check, each with a box and this job's own numbers.</summary>
internal static class SheetChecks
{
    public static void Draw(Paper paper, PaperFacts facts)
    {
        bool byMagnets = facts.Job.HoldBy == HoldBy.Magnets;
        paper.Heading(
            byMagnets
                ? "Check of the magnets, before the first part and after every new disc"
                : "Leak check, before the first part and after every cord change"
        );
        foreach (string line in byMagnets ? Pull(facts) : Leak(facts))
        {
            paper.Tick(line);
        }
        paper.Heading("First article");
        foreach (string line in FirstArticle(facts))
        {
            paper.Tick(line);
        }
    }

    private static IEnumerable<string> Leak(PaperFacts facts)
    {
        HoldingResult h = facts.Holding;
        yield return "Cord seated all round, its joints on the marks, no chip in any groove, chip filter in the line.";
        yield return $"Shell on, vacuum on: the gauge settles near {Figures.Vacuum(h.PumpKPa)}. Below {Figures.Vacuum(h.VacuumKPa)} the machine may not start.";
        if (facts.Job.Vacuum.LeakHoleMm > 0)
        {
            yield return $"The factors allow for a leak as large as one hole of {Lengths.For(facts.Job).Long(facts.Job.Vacuum.LeakHoleMm)}.";
        }
        yield return "Press the shell along the seal by hand: if the level rises, find and mend that place.";
    }

    private static IEnumerable<string> Pull(PaperFacts facts)
    {
        HoldingResult h = facts.Holding;
        yield return "Every disc in the block whole, glued fast, below the face; every jacket whole, its mark up.";
        yield return $"Shell and magnets on, pull each jacket straight off with a spring balance: none lets go below {Figures.Force(h.MagnetShareN.Min())} N.";
        yield return "Push the shell with the thumb along its longest edge: it does not stir.";
    }

    private static IEnumerable<string> FirstArticle(PaperFacts facts)
    {
        FixtureDesign design = facts.Design;
        Box2 box = Measure.Bounds(design.Part.Outer);
        yield return $"Dry run in the air above the block, doors shut; label on the block reads {design.Label}.";
        yield return $"Edge to the drawing: outside {Lengths.For(facts.Job).Size(box.Width, box.Height)} as it lies on the block, {Figures.Count(design.Part.Cutouts.Length, "cutout")}.";
        int tabs = design.TrimCuts.Sum(c => c.Tabs.Length);
        if (tabs > 0)
        {
            yield return $"{Figures.Count(tabs, "tab")} of {Lengths.For(facts.Job).Long(facts.Job.Rules.TabLength)} broken off and dressed.";
        }
        yield return $"No cutter mark on the block: the tip ran {Lengths.For(facts.Job).Long(facts.Job.Rules.TipBelowShell)} below the shell, the relief floor lies {Lengths.For(facts.Job).Long(facts.Job.Rules.ReliefFloorBelowTip)} below that.";
        yield return "No dimple over grooves or pockets, no scuff under the jackets, no melted edge.";
        yield return facts.Job.HoldBy == HoldBy.Magnets
            ? "Cutter and count of magnets written on the traveler."
            : "Cutter and vacuum level written on the traveler.";
    }
}
