using System.Collections.Immutable;
using FixtureGen.Cutting;
using FixtureGen.Design.Block;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Toolpaths.Moves;

namespace FixtureGen.Toolpaths.Methods;

/// <summary>One setup as the cutters see it, in its own frame: what is cut, from which heights, with which shop.</summary>
internal sealed record Frame(
    Setup Setup,
    Job Job,
    Kernel Kernel,
    Heights Heights,
    Box2 Block,
    ImmutableArray<Feature> Features,
    ImmutableSortedDictionary<int, double> Ease
)
{
    /// <summary>How far a shank no thicker than its flutes must stay out of the hole with the holder, mm.</summary>
    private const double HolderGap = 1;

    /// <summary>The block's end mills, largest first.</summary>
    public ImmutableArray<Tool> EndMills { get; } = BlockMills.For(Job);

    /// <summary>Top of a plug so near that holder and shank must stay above it, mm; 0 where there is none.</summary>
    public double Standing { get; init; }

    /// <summary>The frame for a feature: with what stands beside it.</summary>
    public Frame Beside(Feature feature)
    {
        double reach = EndMills.Select(t => t.HolderDiameter / 2).DefaultIfEmpty(0).Max();
        IEnumerable<Removal> cuts = feature.Removals.Where(r => r.Setup == Setup);
        bool near =
            !feature.Removals.Any(r => r.MakesFace)
            && Plugs.Any(p => cuts.Any(c => Measure.Bounds(p.Outer).Outset(reach).Meets(Measure.Bounds(c.Area))));
        return near
            ? this with
            {
                Standing = Features.Where(f => f.Kind == FeatureKind.Plug).SelectMany(f => f.Removals).Max(r => r.TopZ),
            }
            : this;
    }

    private IEnumerable<Region> Plugs =>
        Features
            .Where(f => f.Kind == FeatureKind.Plug)
            .SelectMany(f => f.Removals.Take(1))
            .SelectMany(r => r.Area)
            .SelectMany(r => r.Holes)
            .Select(h => Region.From(Contours.Ccw(h)));

    /// <summary>How a tool runs in the block; ae is the radial width of its cut, mm.</summary>
    public CutData Data(Tool tool, double ae) =>
        Eased(Feeds.For(tool, Job.BlockMaterial, Job.Plate.Machine, ae, 0), tool);

    /// <summary>
    /// The cut made lighter where the block is held too weakly for it: a mill's step-down, a drill's feed, by the tool's
    /// share in Ease.
    /// </summary>
    public CutData Eased(CutData data, Tool tool)
    {
        if (!Ease.TryGetValue(tool.Number, out double share))
        {
            return data;
        }
        return tool.Kind == ToolKind.Drill
            ? data with
            {
                Feed = data.Feed * share,
                Plunge = data.Plunge * share,
                LimitedBy = data.LimitedBy.Split(';')[0] + "; feed by the hold of the block",
            }
            : data with
            {
                StepDown = data.StepDown * share,
                LimitedBy = data.LimitedBy + "; step-down by the hold of the block",
            };
    }

    /// <summary>
    /// The end mills that fit and get to a floor with their flutes; where none does, those whose shank is as thin as their
    /// flutes and whose holder stays out of the block.
    /// </summary>
    public ImmutableArray<Tool> Reaching(double floorZ, Func<Tool, bool> fits)
    {
        double deep = Heights.Face - floorZ;
        double beside = Math.Max(Heights.Face, Standing) - floorZ;
        Tool[] fitting =
        [
            .. EndMills.Where(t =>
                fits(t)
                && t.StickOut >= beside + HolderGap
                && (beside <= deep || t.ShankDiameter <= t.Diameter + 1e-6 || t.FluteLength >= beside)
            ),
        ];
        ImmutableArray<Tool> flutes = [.. fitting.Where(t => t.FluteLength >= deep - 1e-6)];
        return flutes.IsEmpty ? [.. fitting.Where(t => t.ShankDiameter <= t.Diameter + 1e-6)] : flutes;
    }

    /// <summary>The block's outline where an area runs to it or over it, else nothing.</summary>
    public Box2? OpenEdge(Region area)
    {
        Box2 b = Measure.Bounds(area);
        return
            b.MinX < Block.MinX + 0.1
            || b.MinY < Block.MinY + 0.1
            || b.MaxX > Block.MaxX - 0.1
            || b.MaxY > Block.MaxY - 0.1
            ? Block
            : null;
    }
}
