using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Toolpaths.Methods;
using FixtureGen.Toolpaths.Moves;

namespace FixtureGen.Toolpaths.Routes;

/// <summary>The pieces that one tool cuts in one stage, before they are put in order and joined by rapids.</summary>
internal sealed record Work(
    string Name,
    int Stage,
    ToolCut Cutting,
    bool IsSecond,
    bool BreaksPlateSeal,
    ImmutableArray<Feature> Features,
    ImmutableArray<Piece> Pieces
)
{
    /// <summary>True when this must wait for <paramref name="other"/>: it cuts what that leaves, or starts on its floor.</summary>
    public bool Follows(Work other) =>
        (IsSecond && !other.IsSecond && other.Stage == Stage && Features.Any(other.Features.Contains))
        || (other.Stage <= Stages.StageOf(FeatureKind.Plug) && Stage > other.Stage)
        || (Stage == Stages.StageOf(FeatureKind.MagnetNotch) && other.Stage == Stages.StageOf(FeatureKind.MagnetPocket))
        || (other.BreaksPlateSeal == false && BreaksPlateSeal)
        || Features.Any(mine => other.Features.Any(theirs => mine != theirs && StartsOn(mine, theirs)));

    private static bool StartsOn(Feature mine, Feature theirs) =>
        mine.Removals.Any(m =>
            theirs.Removals.Any(t => Math.Abs(m.TopZ - t.FloorZ) < 1e-3 && m.TopZ < t.TopZ && Meet(m, t))
        );

    private static bool Meet(Removal a, Removal b)
    {
        Box2 p = Measure.Bounds(a.Area);
        Box2 q = Measure.Bounds(b.Area);
        return p.MinX < q.MaxX && q.MinX < p.MaxX && p.MinY < q.MaxY && q.MinY < p.MaxY;
    }
}
