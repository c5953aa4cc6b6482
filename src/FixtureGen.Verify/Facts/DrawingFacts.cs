using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Shape;

namespace FixtureGen.Verify.Facts;

/// <summary>The design's part against the drawing in its placement, line by line and both ways: other checks may then use it.</summary>
internal static class DrawingFacts
{
    private const double Bin = 4;

    public static void Check(FactRun facts)
    {
        (Part design, PlacedDrawing drawn) = (facts.Design.Part, facts.Drawing);
        Same(facts, "the outline", Spread.PiecesOf(design.Outer.Segments), drawn.Outer);
        Each(facts, "cutouts", [.. design.Cutouts.Select(c => Spread.PiecesOf(c.Segments))], drawn.Cutouts);
        Each(facts, "keep-outs", [.. design.KeepOuts.Select(c => Spread.PiecesOf(c.Segments))], drawn.KeepOuts);
        Each(facts, "forms", [.. design.Forms.Select(f => Spread.PiecesOf(f.Edge.Segments))], drawn.Forms);
        Each(
            facts,
            "marks",
            [.. design.Engravings.Select(m => Spread.PiecesOf(m.Strokes.SelectMany(s => s.Segments)))],
            drawn.Marks
        );
        foreach ((FormRegion form, FormRegion wanted) in design.Forms.Zip(drawn.Drawing.Forms))
        {
            if (form.Direction != wanted.Direction)
            {
                FactFindings.Named(facts, "a form's way", $"{form.Direction}", $"{wanted.Direction}");
            }
            if (Math.Abs(form.Height - wanted.Height) > Fits.Drawing)
            {
                FactFindings.Job(facts, "a form's height", form.Height, wanted.Height, "mm");
            }
        }
    }

    private static void Each(
        FactRun facts,
        string what,
        ImmutableArray<ImmutableArray<Piece>> design,
        ImmutableArray<ImmutableArray<Piece>> drawn
    )
    {
        if (design.Length != drawn.Length)
        {
            FactFindings.DrawingCount(facts, what, design.Length, drawn.Length);
            return;
        }
        for (int i = 0; i < design.Length; i++)
        {
            Same(facts, FormattableString.Invariant($"number {i + 1} of the {what}"), design[i], drawn[i]);
        }
    }

    private static void Same(FactRun facts, string what, ImmutableArray<Piece> design, ImmutableArray<Piece> drawn)
    {
        if (design.IsEmpty || drawn.IsEmpty)
        {
            if (design.Length != drawn.Length)
            {
                FactFindings.DrawingCount(facts, $"lines of {what}", design.Length, drawn.Length);
            }
            return;
        }
        Spread there = Spread.Find(design, new PieceBins(drawn, Bin), 0, Fits.Drawing);
        Spread back = Spread.Find(drawn, new PieceBins(design, Bin), 0, Fits.Drawing);
        Spread worse = there.Greatest >= back.Greatest ? there : back;
        if (worse.Greatest > Fits.Drawing)
        {
            FactFindings.Drawing(facts, what, worse.Greatest, worse.GreatestAt);
        }
    }
}
