using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Finished;

/// <summary>Depths of the design at the cells' centres, in the setup's frame.</summary>
internal static class TargetGrid
{
    public static Heights Make(AllowedShape shape, BlockGrid grid, bool engraving)
    {
        Heights target = new(grid.Columns, grid.Rows, (float)grid.RawTopZ);
        Lower(target, grid, shape.Cuts.Where(c => engraving || !IsEngraving(c)));
        return target;
    }

    public static void AddEngraving(Heights target, AllowedShape shape, BlockGrid grid) =>
        Lower(target, grid, shape.Cuts.Where(IsEngraving));

    /// <summary>Takes from the grid all that the shape allows.</summary>
    public static void Cut(AllowedShape shape, BlockGrid grid) => Lower(grid.TopHeights, grid, shape.Cuts);

    public static bool IsEngraving(AllowedCut cut) => cut.Kind is FeatureKind.Label or FeatureKind.Mark;

    private static void Lower(Heights target, BlockGrid grid, IEnumerable<AllowedCut> cuts)
    {
        Raster raster = new(grid);
        foreach (AllowedCut cut in cuts)
        {
            float floor = (float)Math.Max(cut.Floor, grid.RawBottomZ);
            Lowering lower = new(target, float.MaxValue);
            lower.Flat(raster.StripsOf(cut.Area), floor);
        }
    }
}
