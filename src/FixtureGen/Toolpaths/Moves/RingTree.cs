using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Toolpaths.Moves;

/// <summary>One region of a clearing level; Inside are the regions of the next level that lie in it.</summary>
internal sealed record Ring(Region Region, ImmutableArray<Ring> Inside);

/// <summary>Rings nested: a ring's child is the next level's region inside it. A leaf is a local maximum of depth.</summary>
internal static class RingTree
{
    /// <summary>
    /// Leaves below the first level in which no disc of a radius over <paramref name="point"/> fits are dropped: the ring round
    /// them clears them, since no point of them is farther from it than the step and that radius.
    /// </summary>
    public static ImmutableArray<Ring> Build(IReadOnlyList<ImmutableArray<Region>> levels, double point)
    {
        ImmutableArray<Ring> below = [];
        for (int k = levels.Count - 1; k >= 0; k--)
        {
            ImmutableArray<Ring> inside = [.. below.Where(r => !r.Inside.IsEmpty || !IsPoint(r.Region, point))];
            below = [.. levels[k].Select(r => new Ring(r, Within(r, inside, levels[k].Length)))];
        }
        return below;
    }

    private static bool IsPoint(Region region, double point)
    {
        Box2 box = Measure.Bounds(region);
        return Math.Min(box.Width, box.Height) < 2 * point;
    }

    private static ImmutableArray<Ring> Within(Region region, ImmutableArray<Ring> candidates, int regions) =>
        regions == 1
            ? candidates
            : [.. candidates.Where(c => Inside.Contains(region, c.Region.Outer.Segments[0].Start))];
}
