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
        Marks(facts);
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

    /// <summary>
    /// Drawn strokes as lines; a text by its words, its place and its height, and its letters by where they may be at most: which
    /// strokes a letter has is taken from the design.
    /// </summary>
    private static void Marks(FactRun facts)
    {
        (ImmutableArray<EngraveMark> design, Part drawn) = (facts.Design.Part.Engravings, facts.Drawing.Drawing);
        if (design.Length != drawn.Engravings.Length)
        {
            FactFindings.DrawingCount(facts, "marks", design.Length, drawn.Engravings.Length);
            return;
        }
        foreach ((int i, (EngraveMark mark, EngraveMark wanted)) in design.Zip(drawn.Engravings).Index())
        {
            string name = FormattableString.Invariant($"mark {i + 1}");
            ImmutableArray<Piece> strokes = Spread.PiecesOf(mark.Strokes.SelectMany(s => s.Segments));
            if (mark.Text != wanted.Text)
            {
                FactFindings.Named(facts, name, mark.Text, wanted.Text);
            }
            if (!wanted.Strokes.IsEmpty)
            {
                Same(facts, name, strokes, facts.Drawing.Marks[i]);
                continue;
            }
            Point2 at = facts.Drawing.Place(wanted.At);
            double turn = Math.IEEERemainder(
                mark.AngleDeg - wanted.AngleDeg - facts.Design.Placement.Pose.AngleDeg,
                360
            );
            double off = new[] { mark.At.DistanceTo(at), Math.Abs(mark.Height - wanted.Height), Math.Abs(turn) }.Max();
            double most = (wanted.Text.Length + 1) * wanted.Height * 2;
            bool astray = strokes.IsEmpty || strokes.Any(s => s.A.DistanceTo(at) > most);
            if (off > Fits.Drawing || astray)
            {
                FactFindings.Drawing(facts, name, astray ? most : off, at);
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
