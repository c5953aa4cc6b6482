using System.Collections.Immutable;
using FixtureGen.Cutting;
using FixtureGen.Model;
using FixtureGen.Toolpaths.Moves;

namespace FixtureGen.Toolpaths.Methods;

/// <summary>One tool's share of a feature. Minutes is an estimate for choosing; Pieces makes the paths when chosen.</summary>
internal sealed record ToolCut(
    Tool Tool,
    OperationKind Kind,
    CutData Data,
    double Minutes,
    Func<ImmutableArray<Piece>> Pieces
);

/// <summary>One way to make a feature whole, with one tool or with a second for what the first leaves.</summary>
internal sealed record Method(Feature Feature, ImmutableArray<ToolCut> Cuttings)
{
    /// <summary>
    /// Short ways round small holes and pockets take so much longer than their length over the feed: corners, links and accelerations, as
    /// measured on the demo programs.
    /// </summary>
    private const double Slowed = 1.6;

    public double Minutes =>
        Cuttings.Sum(c =>
            c.Kind is OperationKind.Bore or OperationKind.Clear or OperationKind.Profile
                ? Slowed * c.Minutes
                : c.Minutes
        );

    public static Method Cut(Feature feature, params ImmutableArray<ToolCut> cuttings) => new(feature, cuttings);
}
