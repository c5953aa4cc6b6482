using FixtureGen.Model;
using FixtureGen.Output.Scenes;
using FixtureGen.Toolpaths;

namespace FixtureGen.Output.Papers;

/// <summary>The black bar under a paper's name that says the hold is below a house limit, by how much, and why it was made all the same.</summary>
internal static class LowHoldBanner
{
    private const double Big = 5.2;

    /// <summary>Draws nothing where no factor is below its limit.</summary>
    public static void Draw(Paper paper, PaperFacts facts)
    {
        if (facts.Shortfalls.IsEmpty)
        {
            return;
        }
        double room = paper.Wide - 6;
        TypeStyle plain = new(Paper.Body, true, Colour.White);
        string[] lines =
        [
            .. Typefaces.Wrap($"In the worst case {string.Join("; ", facts.Shortfalls)}.", plain, room),
            .. Typefaces.Wrap($"Made all the same because: {LowHold.Reason(facts.Job)}.", plain, room),
        ];
        double tall = Big + 4.4 + (lines.Length * Paper.Body * 1.4);
        paper.Y += 1;
        Box2 box = paper.Place(tall);
        paper.Page.Shape(Chain.Box(box), null, Colour.Black);
        double y = box.MaxY - Big - 0.6;
        paper.Page.Text(LowHold.Words, new(box.MinX + 3, y), new TypeStyle(Big, true, Colour.White));
        foreach (string line in lines)
        {
            y -= Paper.Body * 1.4;
            paper.Page.Text(line, new(box.MinX + 3, y - 0.6), plain);
        }
        paper.Y += 2;
    }

    /// <summary>The words for the head of every further page; empty where no factor is below its limit.</summary>
    public static string Running(PaperFacts facts) => facts.Shortfalls.IsEmpty ? "" : "   " + LowHold.Words;
}
