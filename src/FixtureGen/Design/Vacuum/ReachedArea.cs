using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Vacuum;

/// <summary>What of a sealed area lies near enough to the grooves of its net that the vacuum comes there under the shell.</summary>
internal static class ReachedArea
{
    /// <summary>Less than this that is not reached, mm2, is rounding: a tenth of a newton at full vacuum.</summary>
    public const double Rounding = 1;

    /// <summary>
    /// The points of the area no farther than the reach from a groove's wall. A piece of them that holds no groove is reached
    /// only across a cord, and does not count.
    /// </summary>
    /// <param name="net">The grooves as they are cut.</param>
    /// <param name="open">Hollows that the net or a port opens into: they carry the vacuum like a groove.</param>
    /// <param name="reach">mm.</param>
    public static ImmutableArray<Region> Around(
        IReadOnlyList<Region> net,
        ImmutableArray<Region> open,
        ImmutableArray<Region> sealedArea,
        double reach,
        Kernel kernel
    )
    {
        ImmutableArray<Region> sources = open.IsEmpty ? [.. net] : kernel.UnionAll([.. net, .. open]);
        ImmutableArray<Region> near = kernel.Intersect(kernel.Offset(sources, reach), sealedArea);
        ImmutableArray<Region> fed = [.. near.Where(piece => kernel.Intersect([piece], net).Length > 0)];
        return kernel.Difference(sealedArea, fed).IsEmpty ? sealedArea : fed;
    }
}
