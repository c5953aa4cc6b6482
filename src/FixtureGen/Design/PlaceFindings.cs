using FixtureGen.Model;
using static FixtureGen.Design.Block.FindingWords;

namespace FixtureGen.Design;

/// <summary>What keeps the part from its place on the blank, and its relief from its way out; lengths in mm.</summary>
internal static class PlaceFindings
{
    public static Finding DoesNotFit(PlaceSearch.Shortage shortage, Blank blank, IReadOnlyList<string> others) =>
        new(
            "part-does-not-fit",
            Severity.Error,
            $"blank {blank.Name}",
            $"the part does not fit on the blank: {shortage.What}: {Mm(shortage.By)} short",
            others.Count > 0
                ? $"take the blank {string.Join(" or ", others)}"
                : "no blank of the shop takes it: add a larger one, or another plate"
        );

    public static Finding Mirrored(Part drawn) =>
        new(
            "part-mirrored",
            Severity.Note,
            "drawing",
            "the part is the drawing's twin, X counted the other way"
                + (drawn.Engravings.Any(m => m.Text.Length == 0) ? "; marks drawn as strokes are mirrored too" : ""),
            "places that the job states are those of the twin; written marks stay readable, letters drawn as strokes do not"
        );

    public static Finding ReliefOverEdge(double by, double margin) =>
        new(
            "part-over-edge",
            Severity.Error,
            "relief",
            $"the relief comes {Mm(by)} too near to the block's edge ({Mm(margin)} must stay)",
            "move the part on the blank or take a larger blank"
        );

    public static Finding ObstacleUnderPart(string what, Point2 at, double by) =>
        new(
            "bolt-under-part",
            Severity.Error,
            $"{what} at {Place(at)}",
            $"{what} stands {Mm(by)} too near to the part's relief",
            $"move or turn the part by at least that much, or take another blank"
        )
        {
            At = at,
        };
}
