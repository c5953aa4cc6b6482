using FixtureGen.Model;
using FixtureGen.Output.Reports;
using FixtureGen.Output.Scenes;

namespace FixtureGen.Output.Papers;

/// <summary>ANSI Z535.4/.6: WARNING could result in death or serious injury, CAUTION in minor or moderate injury, NOTICE is not related to injury and carries no alert symbol.</summary>
internal enum Signal
{
    Warning,
    Caution,
    Notice,
}

internal sealed record Caution(Signal Signal, string Text);

/// <summary>The cautions of every sheet, with signal words by ANSI Z535.6 and this job's own numbers.</summary>
internal static class Cautions
{
    public static IReadOnlyList<Caution> For(PaperFacts facts)
    {
        string alarm = Figures.Vacuum(facts.Holding.VacuumKPa);
        double implant = ImplantMm(facts);
        bool magnets = !facts.Design.Magnets.IsEmpty;
        Caution[] all =
        [
            new(
                Signal.Warning,
                $"Strong magnets. People with a pacemaker, defibrillator or other active implant stay {Lengths.For(facts.Job).Far(implant)} away."
            ),
            new(
                Signal.Warning,
                facts.Job.HoldBy == HoldBy.Magnets
                    ? $"The part may fly off if a magnet is missing or turned over. Count {Figures.Whole(facts.Design.Magnets.Length)} before every start; doors shut while the spindle turns; stop at once if the shell stirs."
                    : $"The part may fly off if the vacuum is lost. Do not start below the alarm level {alarm}; doors shut while the spindle turns; stop at once if the level falls."
            ),
            new(
                Signal.Warning,
                "Rotating cutter. Dry-run above the block in the air first. Never reach in before the spindle stands."
            ),
            new(
                Signal.Caution,
                "Magnets leap together, pinch and shatter. Wear eye protection; handle one at a time; keep steel tools away."
            ),
            new(Signal.Caution, "Sharp edges and hot chips. Eye protection; gloves only with the spindle off."),
            new(
                Signal.Caution,
                "Dust, noise, and fumes if plastic is overheated. Use extraction and hearing protection; never run a dull cutter."
            ),
            new(
                Signal.Notice,
                $"Magnets lose strength above {Figures.Degrees(facts.Job.Magnet.MaxTemperatureC)} °C: no baking, no solvent bath. Keep cards and magnetic media away."
            ),
            new(
                Signal.Notice,
                "Plastic chips burn: no ignition source, empty the collector. Never blow fine dust about."
            ),
            new(
                Signal.Notice,
                "Fit a chip filter between block and pump before a port is opened; empty it after every fixture."
            ),
        ];
        return [.. all.Where(c => magnets || !OfMagnets(c.Text))];
    }

    /// <summary>A fixture without magnets says nothing of them.</summary>
    private static bool OfMagnets(string text) =>
        text.StartsWith("Strong magnets", StringComparison.Ordinal)
        || text.StartsWith("Magnets", StringComparison.Ordinal);

    /// <summary>Distance printed for implants, mm: 300, the house's word on every sheet, or more where the magnets' own field needs it.</summary>
    public static double ImplantMm(PaperFacts facts) => Math.Max(300, facts.Holding.ImplantDistanceMm);

    /// <summary>The few that must stand on a paper with room for one box only; the setup sheet has them all.</summary>
    public static IReadOnlyList<Caution> Brief(PaperFacts facts) =>
        [
            new(
                Signal.Warning,
                (
                    facts.Design.Magnets.IsEmpty
                        ? ""
                        : $"Implants stay {Lengths.For(facts.Job).Far(ImplantMm(facts))} from the magnets. "
                )
                    + $"Dry run in the air first, doors shut. Stop if {(facts.Job.HoldBy == HoldBy.Magnets ? "the shell stirs" : $"the vacuum falls below {Figures.Vacuum(facts.Holding.VacuumKPa)}")}. Eye protection. All cautions: setup sheet."
            ),
        ];

    /// <summary>Draws all of them, one box to a signal word.</summary>
    public static void Draw(Paper paper, IReadOnlyList<Caution> cautions)
    {
        foreach (IGrouping<Signal, Caution> group in cautions.GroupBy(c => c.Signal))
        {
            Panel(paper, group.Key, [.. group.Select(c => c.Text)]);
        }
    }

    private static void Panel(Paper paper, Signal signal, string[] texts)
    {
        const double word = 34;
        TypeStyle type = TypeStyle.Plain(Paper.Body);
        IReadOnlyList<string>[] lines = [.. texts.Select(t => Typefaces.Wrap(t, type, paper.Wide - word - 6))];
        double tall = Math.Max(9, lines.Sum(l => (l.Count * Paper.Body * 1.36) + 0.9) + 2.2);
        paper.Keep(tall + 2);
        Box2 box = paper.Place(tall);
        Box2 left = box with { MaxX = box.MinX + word };
        paper.Page.Shape(Chain.Box(left), null, Fill(signal));
        paper.Page.Shape(Chain.Box(box), Pen.Solid(0.35, Colour.Black));
        paper.Page.Line(new(left.MaxX, left.MinY), new(left.MaxX, left.MaxY), Pen.Solid(0.35, Colour.Black));
        Colour ink = signal == Signal.Notice ? Colour.White : Colour.Black;
        bool symbol = signal != Signal.Notice;
        if (symbol)
        {
            Triangle(paper.Page, new Point2(left.MinX + 5.2, left.Middle.Y - 0.4), 2.6);
        }
        string name = signal.ToString().ToUpperInvariant();
        paper.Page.Text(
            name,
            new Point2(left.MinX + (symbol ? 20.5 : word / 2), left.Middle.Y - 1.5),
            new TypeStyle(4.1, true, ink),
            Anchor.Middle
        );
        double y = box.MaxY - 0.8;
        foreach (IReadOnlyList<string> text in lines)
        {
            foreach (string line in text)
            {
                y -= Paper.Body * 1.36;
                paper.Page.Text(line, new Point2(left.MaxX + 3, y), type);
            }
            y -= 0.9;
        }
        paper.Y += 1.6;
    }

    /// <summary>Safety orange, yellow and blue of ANSI Z535.1, each with a lightness of its own in grey.</summary>
    private static Colour Fill(Signal signal) =>
        signal switch
        {
            Signal.Warning => Colour.FromRgb(0xF08A1D),
            Signal.Caution => Colour.FromRgb(0xF7DE3A),
            Signal.Notice => Colour.FromRgb(0x1F4E8C),
        };

    private static void Triangle(Scene scene, Point2 c, double r)
    {
        double w = r * 1.1;
        scene.Shape(
            Chain.Polygon(c + new Point2(0, r), c + new Point2(-w, -r * 0.8), c + new Point2(w, -r * 0.8)),
            Pen.Solid(0.5, Colour.Black),
            Colour.Black
        );
        scene.Line(c + new Point2(0, r * 0.35), c + new Point2(0, -r * 0.2), Pen.Solid(0.6, Colour.White));
        scene.Shape(Chain.Circle(c + new Point2(0, -r * 0.52), 0.32), null, Colour.White);
    }
}
