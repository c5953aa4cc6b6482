using System.Collections.Immutable;
using FixtureGen.Cutting;
using FixtureGen.Holding.Block;
using FixtureGen.Model;
using FixtureGen.Toolpaths.Methods;
using FixtureGen.Toolpaths.Moves;
using FixtureGen.Toolpaths.Routes;

namespace FixtureGen.Toolpaths;

/// <summary>The operations of one block setup, in order: methods and tools chosen, left-over cut again, routes joined.</summary>
internal static class BlockPlan
{
    private const int HoldRounds = 4;

    /// <summary>A lighter cut aims this far over the house factor.</summary>
    private const double HoldMargin = 1.05;

    /// <summary>No cut is made lighter than this share of the tool's own.</summary>
    private const double LeastEase = 0.05;

    /// <summary>
    /// The operations with every cut as heavy as the block's hold bears: what is held less than the house factor is planned
    /// again with a lighter cut by that tool. What no lighter cut mends is left for the holding's own findings.
    /// </summary>
    public static Stage<ImmutableArray<Operation>> Held(Frame frame, BlockHolding hold)
    {
        (Frame eased, Stage<ImmutableArray<Work>> works) = Eased(frame, hold);
        return works.Ok
            ? Stage.Answer<ImmutableArray<Operation>>([.. works.Value.Select(w => Operation(w, eased))], works.Findings)
            : Stage.Failed<ImmutableArray<Operation>>(works.Findings);
    }

    /// <summary>The frame with the shares by which its tools cut lighter, and the work in it.</summary>
    public static (Frame Frame, Stage<ImmutableArray<Work>> Works) Eased(Frame frame, BlockHolding hold)
    {
        Stage<ImmutableArray<Work>> works = Ordered(frame);
        for (int round = 0; round < HoldRounds && works.Ok; round++)
        {
            ImmutableArray<Operation> drafts = [.. works.Value.Select(w => Draft(w, frame))];
            Stage<ImmutableArray<BlockHold>> holds = hold.Evaluate([
                .. drafts.Select(o => (o, o.BreaksPlateSeal, o.BreaksPlateSeal)),
            ]);
            ImmutableSortedDictionary<int, double> ease = holds.Value.IsDefault
                ? frame.Ease
                : Lighter(frame, drafts, holds.Value);
            if (ease.SequenceEqual(frame.Ease))
            {
                break;
            }
            frame = frame with { Ease = ease };
            works = Ordered(frame);
        }
        return (frame, works);
    }

    private static ImmutableSortedDictionary<int, double> Lighter(
        Frame frame,
        ImmutableArray<Operation> operations,
        ImmutableArray<BlockHold> holds
    )
    {
        ImmutableSortedDictionary<int, double> ease = frame.Ease;
        double needed = HoldMargin * frame.Job.Limits.BlockFactor;
        foreach ((Operation op, BlockHold hold) in operations.Zip(holds).Where(x => x.Second.Factor < needed))
        {
            int tool = op.Tool.Number;
            double before =
                op.Tool.Kind == ToolKind.Drill
                    ? frame.Ease.GetValueOrDefault(tool, 1)
                    : op.StepDown / Feeds.StepDown(op.Tool, frame.Job.BlockMaterial);
            double share = Math.Max(LeastEase, before * hold.Factor / needed * (1 - 1e-6));
            ease = ease.SetItem(tool, Math.Min(share, ease.GetValueOrDefault(tool, 1)));
        }
        return ease;
    }

    /// <summary>The work in its order, before its pieces are joined.</summary>
    public static Stage<ImmutableArray<Work>> Ordered(Frame frame)
    {
        List<Finding> findings = [];
        List<ImmutableArray<Method>> methods = [];
        foreach (Feature feature in frame.Features)
        {
            ImmutableArray<Method> ways = [.. Methods(feature, frame.Beside(feature))];
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
            return Stage.Failed<ImmutableArray<Work>>(findings);
        }
        ImmutableArray<Method> chosen = ToolSet.Choose(methods, frame.Job.Plate.Machine.ToolChangeSeconds / 60);
        chosen = SmallestTool.Complete(chosen, frame);
        return Stage.Answer(Sequence.Order([.. Works(chosen, frame).Where(w => !w.Pieces.IsEmpty)]), findings);
    }

    private static IEnumerable<Method> Methods(Feature feature, Frame frame) =>
        feature switch
        {
            PocketFeature { Kind: FeatureKind.Skim } p => SkimMethods.For(p, frame),
            PocketFeature { Kind: FeatureKind.Plug } p => PlugMethods.For(p, frame),
            PocketFeature { OnePass: not null } p => ReliefMethods.For(p, frame),
            PocketFeature p => PocketMethods.For(p, Fit.RemovalsIn(p, frame.Setup), frame),
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
                        Goes: i < m.Cuttings.Length - 1,
                        Breaks: frame.Setup == Setup.Top && PlateSealBreak.Breaks(m.Feature, frame.Job.Plate)
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
                    c.Goes,
                    c.Breaks,
                    c.Cutting.Data.Feed
                )
            )
        )
        {
            var first = group.First();
            yield return new Work(
                Name(first.Feature.Kind, first.Cutting.Kind, first.Second, first.Goes),
                Stages.StageOf(first.Feature.Kind),
                first.Cutting with
                {
                    Data = first.Cutting.Data with { StepDown = group.Max(c => c.Cutting.Data.StepDown) },
                },
                first.Second,
                first.Breaks,
                [.. group.Select(c => c.Feature)],
                [.. group.SelectMany(c => c.Cutting.Pieces())]
            );
        }
    }

    /// <summary>What an operation is called where a feature takes two: drilled and then bored, or cleared and then its corners.</summary>
    private static string Name(FeatureKind feature, OperationKind cut, bool second, bool another) =>
        Stages.Name(feature)
        + (cut, second, another) switch
        {
            (OperationKind.Drill, false, true) => " drilled first",
            (OperationKind.Profile, true, _) when feature == FeatureKind.Plug => " wall",
            (OperationKind.Profile, true, _) => " corners",
            _ => "",
        };

    public static Operation Operation(Work work, Frame frame) =>
        Joiner.Join(
            work.Name,
            work.Cutting,
            work.BreaksPlateSeal,
            work.Pieces,
            Hop(work, frame),
            frame.Heights.Clearance
        );

    /// <summary>The operation with its pieces as they come: where and how heavily it cuts is known without a route.</summary>
    private static Operation Draft(Work work, Frame frame) =>
        Joiner.Join(
            work.Name,
            work.Cutting,
            work.BreaksPlateSeal,
            [.. work.Pieces.Select(p => (p, p.Ways[0]))],
            Hop(work, frame),
            frame.Heights.Clearance
        );

    private static bool HasPlug(Frame frame) => frame.Features.Any(f => f.Kind == FeatureKind.Plug);

    /// <summary>Where the tool travels between a work's pieces: over the raw face before it is skimmed, over the bolts once they are in.</summary>
    public static double Hop(Work work, Frame frame) =>
        work.Stage == 0 ? frame.Job.BlankThickest + Heights.HopGap
        : work.BreaksPlateSeal ? frame.Heights.Clearance
        : work.Cutting.Kind == OperationKind.Engrave && !HasPlug(frame) ? frame.Heights.Face + Heights.EngraveGap
        : frame.Heights.Hop;
}
