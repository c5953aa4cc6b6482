using FixtureGen.Model;
using static FixtureGen.Design.Block.FindingWords;

namespace FixtureGen.Design.Forms;

/// <summary>What the pockets of magnets have to say to people.</summary>
internal static class PocketFindings
{
    public static Finding NoNotchTool(double depth) =>
        new(
            "no-notch-tool",
            Severity.Error,
            "tools",
            $"no end mill is slimmer than a magnet and cuts {Mm(depth)} deep for the air notch of its pocket",
            "add an end mill of an eighth of an inch or 3 mm with longer flutes"
        );

    public static Finding MagnetWall(int magnet, Point2 at, string what, double by, double wall) =>
        new(
            "magnet-wall",
            Severity.Error,
            $"magnet {Count(magnet)} at {Place(at)}",
            $"the pocket's wall to {what} is {Mm(by)} thinner than the {Mm(wall)} it needs",
            "move the magnet by at least that much, or take a smaller one"
        )
        {
            At = at,
        };
}
