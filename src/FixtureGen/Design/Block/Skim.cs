using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Block;

/// <summary>
/// The first cut: the whole block from its thickness, nominal or measured, down to the fixture height. The area is generous, so that
/// a block that lies a placing tolerance off, or is a little large, is skimmed to its edges too.
/// </summary>
internal static class Skim
{
    /// <summary>How far past the nominal block the skim reaches besides the placing tolerance, mm (common practice, no source).</summary>
    private const double PastEdge = 2;

    public static PocketFeature Over(Box2 block, Levels levels, double placingTolerance)
    {
        Region area = Region.From(Contours.Rectangle(block.Outset(placingTolerance + PastEdge)));
        return new()
        {
            Name = "skim",
            Kind = FeatureKind.Skim,
            Setup = Setup.Top,
            Area = [area],
            TopZ = levels.Raw,
            FloorZ = levels.Face,
            Removals = [new(Setup.Top, FeatureKind.Skim, "skim", [area], levels.Raw, levels.Face)],
        };
    }
}
