using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Block;

/// <summary>Where the shell rests on the block: the part less everything that was taken from the face under it.</summary>
internal static class Contact
{
    public static ImmutableArray<Region> Find(Part placed, IEnumerable<Feature> features, Kernel kernel)
    {
        Region part = new(placed.Outer, placed.Cutouts);
        Region[] taken =
        [
            .. features
                .SelectMany(f => f.Removals)
                .Where(r => r.Setup == Setup.Top && !r.MakesFace)
                .SelectMany(r => r.Area),
            .. placed.Forms.Select(f => Region.From(Contours.Ccw(f.Edge))),
        ];
        return kernel.Difference([part], kernel.UnionAll(taken));
    }
}
