using System.Collections.Immutable;
using FixtureGen.Design;
using FixtureGen.Model;

namespace FixtureGen.Solve;

/// <summary>
/// The zones and magnets that a placed part gets with one trim cutter, each worked out when it is first asked for: the choice
/// of the cutter tries them, and the design goes on from the ones tried.
/// </summary>
public sealed class Draft(Part part, Placement placement, Job job, Tolerances tolerances)
{
    private Stage<FixtureDesign>? _begun;
    private Stage<ImmutableArray<MagnetPlace>>? _magnets;

    /// <summary>The part in its drawing's frame.</summary>
    public Part Part => part;

    /// <summary>Where the part lies on the plate.</summary>
    public Placement Placement => placement;

    /// <summary>The job with this draft's trim cutter.</summary>
    public Job Job => job;

    /// <summary>As <see cref="Designer.Begin(Part, Placement, Job, Tolerances)"/> answers.</summary>
    public Stage<FixtureDesign> Begun => _begun ??= Designer.Begin(part, placement, job, tolerances);

    /// <summary>As <see cref="MagnetPlacement.Choose"/> answers; only for a draft whose <see cref="Begun"/> is ok.</summary>
    /// <exception cref="InvalidOperationException">It is not.</exception>
    public Stage<ImmutableArray<MagnetPlace>> Magnets =>
        _magnets ??= Begun is { Ok: true, Value: { } design }
            ? MagnetPlacement.Choose(design, job, tolerances)
            : throw new InvalidOperationException("no magnets without zones");
}
