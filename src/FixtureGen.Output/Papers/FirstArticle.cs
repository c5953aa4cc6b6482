using System.Collections.Immutable;
using FixtureGen.Design.Trim;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Output.Reports;

namespace FixtureGen.Output.Papers;

/// <summary>A size to measure on the first part: what, its nominal size and how far it may be off, mm.</summary>
internal sealed record FirstArticleSize(string What, double Nominal, double Tolerance);

/// <summary>
/// What the first part of a batch is measured for before the second is cut: the outline's width and height, and of every hole
/// its size and the place of its middle from the outline's lower left corner. Tolerances are ISO 2768-1:1989, medium.
/// </summary>
internal static class FirstArticle
{
    /// <summary>The paper lists as many cutouts; a part with more is measured by its drawing.</summary>
    private const int MostCutouts = 10;

    // ISO 2768-1:1989, table 1, class m: up to so many mm, plus and minus so many mm; the first line from memory.
    private static readonly (double UpTo, double Tolerance)[] Medium =
    [
        (6, 0.1),
        (30, 0.2),
        (120, 0.3),
        (400, 0.5),
        (1000, 0.8),
        (2000, 1.2),
    ];

    public static void Draw(Paper paper, PaperFacts facts)
    {
        bool inch = facts.Job.Control.Unit == LengthUnit.Inch;
        paper.Heading("First part, measured before the second is cut", 40);
        Column[] columns =
        [
            new("Size", 3.4, Fit.Left),
            new(inch ? "in" : "mm", 1.5, Fit.Right),
            new(inch ? "(mm)" : "(in)", 1.5, Fit.Right),
            new("+/-", 1.3, Fit.Right),
            new("Least", 1.5, Fit.Right),
            new("Greatest", 1.6, Fit.Right),
            new("Measured", 2.4, Fit.Right),
        ];
        paper.Table(
            columns,
            Sizes(facts.Drawn)
                .Select(s =>
                    (IReadOnlyList<string>)
                        [
                            s.What,
                            In(s.Nominal, inch),
                            $"({In(s.Nominal, !inch)})",
                            In(s.Tolerance, inch),
                            In(s.Nominal - s.Tolerance, inch),
                            In(s.Nominal + s.Tolerance, inch),
                            "______________",
                        ]
                )
        );
        int more = facts.Drawn.Cutouts.Length - MostCutouts;
        paper.Text(
            "Tolerances of ISO 2768-1 medium; the drawing's own go before them. Places are of middles, from the outline's lower left corner as drawn."
                + (more > 0 ? $" {Figures.Count(more, "more cutout")}: by the drawing." : "")
        );
    }

    /// <summary>The sizes of a part in the drawing's axes, in the order of the paper.</summary>
    public static ImmutableArray<FirstArticleSize> Sizes(Part part)
    {
        Box2 outline = Measure.Bounds(part.Outer);
        List<FirstArticleSize> sizes = [Size("outline wide", outline.Width), Size("outline high", outline.Height)];
        for (int i = 0; i < Math.Min(part.Cutouts.Length, MostCutouts); i++)
        {
            Box2 box = Measure.Bounds(part.Cutouts[i]);
            bool round = Circles.IsCircle(part.Cutouts[i], Same);
            string name = $"{(round ? "hole" : "cutout")} {Figures.Whole(i + 1)}";
            if (round)
            {
                sizes.Add(Size($"{name} diameter", box.Width));
            }
            else
            {
                sizes.Add(Size($"{name} wide", box.Width));
                sizes.Add(Size($"{name} high", box.Height));
            }
            sizes.Add(Size($"{name} at X", ((box.MinX + box.MaxX) / 2) - outline.MinX));
            sizes.Add(Size($"{name} at Y", ((box.MinY + box.MaxY) / 2) - outline.MinY));
        }
        return [.. sizes];
    }

    /// <summary>Plus and minus so many mm of a size in mm, ISO 2768-1:1989 class m; beyond its table the last class.</summary>
    public static double Tolerance(double size) => Medium.FirstOrDefault(m => size <= m.UpTo, Medium[^1]).Tolerance;

    private static FirstArticleSize Size(string what, double mm) => new(what, mm, Tolerance(mm));

    private static string In(double mm, bool inch) => inch ? Figures.Micron(mm / Units.MmPerInch) : Figures.Mm(mm);

    // Arcs of one circle as drawings round them, mm.
    private const double Same = 1e-3;
}
