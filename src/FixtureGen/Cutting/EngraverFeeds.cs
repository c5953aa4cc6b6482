using FixtureGen.Model;

namespace FixtureGen.Cutting;

/// <summary>How an engraver's point runs: a slot as wide as the cone is at that depth, at the chip load that the tool's own data give.</summary>
internal static class EngraverFeeds
{
    /// <summary>Width of a cut at a depth, mm: the flat and twice the cone's reach.</summary>
    public static double WidthAt(Tool engraver, double depth) =>
        engraver.TipDiameter + (2 * depth * Math.Tan(engraver.TipAngleDeg * Math.PI / 360));

    public static CutData For(Tool engraver, double width, Material material, Machine machine)
    {
        CutData data = Feeds.For(engraver with { Diameter = width }, material, machine, width, 0);
        return data with { StepDown = engraver.ConeHeight, StepOver = width };
    }
}
