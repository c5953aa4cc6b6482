using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Toolpaths;

/// <summary>The operations of one block setup, in order: methods and tools chosen, left-over cut again, routes joined.</summary>
internal static class BlockPlan
{
    public static Stage<ImmutableArray<Operation>> Operations(Frame frame)
    {
        List<Finding> findings = [];
        List<ImmutableArray<Method>> methods = [];
        foreach (Feature feature in frame.Features)
        {
            ImmutableArray<Method> ways = [.. Methods(feature, frame)];
            if (ways.IsEmpty)
            {
                findings.Add(ToolpathFindings.NoTool(feature, frame));
            }
            else
            {
                methods.Add(ways);
            }
        }
        if (findings.Count > 0)
        {
            return Stage.Failed<ImmutableArray<Operation>>(findings);
        }
        ImmutableArray<Method> chosen = ToolSet.Choose(methods, frame.Job.Plate.Machine.ToolChangeSeconds / 60);
        chosen = SmallestTool.Complete(chosen, frame);
        ImmutableArray<Work> works = Sequence.Order([.. Works(chosen, frame).Where(w => !w.Pieces.IsEmpty)]);
        return Stage.Of<ImmutableArray<Operation>>([.. works.Select(w => Operation(w, frame))], findings);
    }

    private static IEnumerable<Method> Methods(Feature feature, Frame frame) =>
        feature switch
        {
            PocketFeature { Kind: FeatureKind.Skim } p => SkimMethods.For(p, frame),
            PocketFeature p => PocketMethods.For(p, Fit.Of(p, frame.Setup), frame),
            GrooveFeature g => GrooveMethods.For(g, frame),
            HoleFeature h => HoleMethods.For(h, frame),
            EngravingFeature e => EngravingMethods.For(e, frame),
            _ => [],
        };

    private static IEnumerable<Work> Works(ImmutableArray<Method> chosen, Frame frame)
    {
        var cuttings = chosen.SelectMany(m =>
            m.Cuttings.Select(
                (c, i) =>
                    (
                        m.Feature,
                        Cutting: c,
                        Second: i > 0,
                        Breaks: frame.Setup == Setup.Top && PlateSeal.Breaks(m.Feature, frame.Job.Plate)
                    )
            )
        );
        foreach (
            var group in cuttings.GroupBy(c =>
                (
                    c.Feature.Kind,
                    c.Cutting.Tool.Number,
                    c.Cutting.Tool.Name,
                    c.Cutting.Kind,
                    c.Second,
                    c.Breaks,
                    c.Cutting.Data.Feed
                )
            )
        )
        {
            var first = group.First();
            yield return new Work(
                Stages.Name(first.Feature.Kind) + (first.Second ? " corners" : ""),
                Stages.Of(first.Feature.Kind),
                first.Cutting,
                first.Second,
                first.Breaks,
                [.. group.Select(c => c.Feature)],
                [.. group.SelectMany(c => c.Cutting.Pieces())]
            );
        }
    }

    private static Operation Operation(Work work, Frame frame)
    {
        double hop =
            work.Stage == 0 ? frame.Job.BlankThickness + Heights.HopGap
            : work.BreaksPlateSeal ? frame.Heights.Clearance
            : frame.Heights.Hop;
        return Joiner.Join(work.Name, work.Cutting, work.BreaksPlateSeal, work.Pieces, hop, frame.Heights.Clearance);
    }
}
