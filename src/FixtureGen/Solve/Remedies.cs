using System.Collections.Immutable;
using FixtureGen.Cutting;
using FixtureGen.Design.Block;
using FixtureGen.Design.Trim;
using FixtureGen.Geometry;
using FixtureGen.Holding;
using FixtureGen.Holding.Magnets;
using FixtureGen.Model;

namespace FixtureGen.Solve;

/// <summary>
/// What would mend a hold that is too low. Every remedy is tried on this design before it is said, with the factor that it
/// gives; where none is enough the best of them is named as that.
/// </summary>
internal sealed class Remedies(FixtureDesign design, Job job, Tolerances tolerances)
{
    private const int MostPasses = 12;

    /// <summary>So many magnets more are tried, the fewest first.</summary>
    private static readonly int[] More = [1, 2, 3, 5, 8];

    /// <summary>Where the most magnets would not do though each gave so many times what the first gives, no more are tried.</summary>
    private const double Hopeful = 1.5;

    private const double PinBeyondEdge = 15;

    private static readonly FeatureKind[] OfMagnets =
    [
        FeatureKind.MagnetPocket,
        FeatureKind.MagnetNotch,
        FeatureKind.Net,
        FeatureKind.Label,
        FeatureKind.Mark,
    ];

    /// <summary>One change, in words, and the factor it gives.</summary>
    private readonly record struct Tried(string Change, double Factor, bool Many = false);

    /// <summary>For a part that does not stay put on vacuum alone.</summary>
    public string ForVacuum(double factor, double limit)
    {
        double Held(Job changed) => Context(changed)?.Limited([]).Put ?? 0;
        Tried[] single =
        [
            .. Passes(job, factor, limit, Held),
            .. Slower(factor, limit, Held),
            .. OtherHelix(Held),
            .. OtherCords(Held),
        ];
        Tried[] all = single.Any(t => t.Factor >= limit) ? single : [.. single, .. Lightest(limit, Held)];
        return Sentence(all, factor, limit, "a larger sealed area");
    }

    /// <summary>For a part that does not stay on magnets alone while the machine stops, or stay put on them where they are the hold.</summary>
    public string ForMagnets(double factor, double limit)
    {
        double Held(Job changed) => Asked(Context(changed)?.Limited(design.Magnets));
        return Sentence(
            [
                .. job.HoldBy == HoldBy.Magnets ? [] : Pins(Held),
                .. MoreMagnets(factor, limit),
                .. OtherDiscs(),
                .. Passes(job, factor, limit, Held),
                .. Slower(factor, limit, Held),
                .. OtherHelix(Held),
            ],
            factor,
            limit,
            job.HoldBy == HoldBy.Magnets
                ? "a thinner shell or jacket floor, or a rougher block"
                : "stops for the shell (locator pins, a form that nests)"
        );
    }

    private HoldingContext? Context(Job changed)
    {
        ImmutableArray<TrimCut> cuts = TrimPlanner.Recut(design.TrimCuts, changed.TrimTool);
        return HoldingAnalysis.Context(design with { TrimCuts = cuts }, changed, tolerances).Value;
    }

    private static IEnumerable<Tried> Passes(Job like, double factor, double limit, Func<Job, double> held)
    {
        int now = FixtureGen.Cutting.Passes.Count(like.Shell.ThicknessMax, TrimFeeds.For(like, like.TrimTool).StepDown);
        int guess = (int)Math.Min(MostPasses, Math.Ceiling(now * limit / Math.Max(factor, limit / MostPasses)));
        for (int passes = Math.Max(now + 1, guess - 2); passes <= Math.Min(MostPasses, guess + 2); passes++)
        {
            double then = held(like with { TrimPasses = passes });
            if (then >= limit || passes == MostPasses)
            {
                yield return new Tried(
                    FormattableString.Invariant($"{passes} passes through the shell for {now}"),
                    then,
                    true
                );
                yield break;
            }
        }
    }

    /// <summary>The least chip of the chart and more passes besides: the lightest cut that does not rub.</summary>
    private IEnumerable<Tried> Lightest(double limit, Func<Job, double> held)
    {
        CutData data = TrimFeeds.For(job, job.TrimTool);
        double least = Feeds.ChipLoadRange(job.TrimTool, job.ShellMaterial).Least * data.Rpm * job.TrimTool.Flutes;
        double feed = Math.Ceiling(least / 10) * 10;
        if (feed >= data.Feed)
        {
            yield break;
        }
        Job light = job with { TrimFeedMmPerMin = feed, TrimRpm = data.Rpm };
        double then = held(light);
        foreach (Tried more in Passes(light, then, limit, held))
        {
            yield return more with
            {
                Change = FormattableString.Invariant(
                    $"a trim feed of {feed:0} mm/min, the chart's least chip, with {more.Change}"
                ),
                Many = false,
            };
        }
    }

    private IEnumerable<Tried> Slower(double factor, double limit, Func<Job, double> held)
    {
        CutData data = TrimFeeds.For(job, job.TrimTool);
        double least = Feeds.ChipLoadRange(job.TrimTool, job.ShellMaterial).Least * data.Rpm * job.TrimTool.Flutes;
        double feed = Math.Floor(data.Feed * factor / limit / 10) * 10;
        if (feed < least || feed >= data.Feed || feed <= 0)
        {
            yield break;
        }
        yield return new Tried(
            FormattableString.Invariant($"a trim feed of {feed:0} mm/min for {data.Feed:0}"),
            held(job with { TrimFeedMmPerMin = feed, TrimRpm = data.Rpm })
        );
    }

    private IEnumerable<Tried> OtherHelix(Func<Job, double> held) =>
        job
            .Tools.Where(t =>
                t.Kind == job.TrimTool.Kind
                && t.Helix != job.TrimTool.Helix
                && t.Helix != HelixDirection.Up
                && t.Flutes == job.TrimTool.Flutes
                && Math.Abs(t.Diameter - job.TrimTool.Diameter) < 1e-6
                && t.FluteLength >= job.Shell.ThicknessMax + job.Rules.TipBelowShell
            )
            .Take(1)
            .Select(t => new Tried($"the cutter {t.Name}", held(job with { TrimTool = t })));

    /// <summary>Only cords that lie in the very same groove: any other makes another design.</summary>
    private IEnumerable<Tried> OtherCords(Func<Job, double> held) =>
        job
            .OtherGaskets.Where(g =>
                Math.Abs(g.GrooveWidth - job.Gasket.GrooveWidth) < 1e-6
                && Math.Abs(g.GrooveDepth - job.Gasket.GrooveDepth) < 1e-6
            )
            .Select(g => new Tried($"the cord {g.Name}", held(job with { Gasket = g })));

    private IEnumerable<Tried> Pins(Func<Job, double> held)
    {
        if (job.Locator != LocatorKind.Hand)
        {
            yield break;
        }
        Box2 part = Measure.Bounds(design.Part.Outer);
        Point2[] pins =
            part.Width >= part.Height
                ? [new(part.MinX - PinBeyondEdge, part.Middle.Y), new(part.MaxX + PinBeyondEdge, part.Middle.Y)]
                : [new(part.Middle.X, part.MinY - PinBeyondEdge), new(part.Middle.X, part.MaxY + PinBeyondEdge)];
        Job pinned = job with
        {
            Locator = LocatorKind.Pins,
            LocatorPins = [.. pins.Select(p => Transform.Apply(Transform.Inverse(design.Placement.Pose), p))],
        };
        Box2 block = design.Placement.BlankBox.Outset(-job.Rules.LocatorPinDiameter);
        if (!pins.All(p => block.Contains(p)))
        {
            yield break;
        }
        yield return new Tried("two locator pins in the scrap for laying it by hand", held(pinned), true);
    }

    private IEnumerable<Tried> MoreMagnets(double factor, double limit)
    {
        FixtureDesign bare = Bare();
        foreach (int more in More)
        {
            int count = design.Magnets.Length + more;
            if (With(bare, job with { MagnetCount = count, MagnetFactorTarget = null }) is not { } then)
            {
                yield break;
            }
            if (more == 1 && factor + (Hopeful * More[^1] * (then - factor)) < limit)
            {
                yield break;
            }
            if (then >= limit)
            {
                yield return new Tried(
                    more == 1 ? "one such magnet more" : FormattableString.Invariant($"{more} such magnets more"),
                    then,
                    more > 1
                );
                yield break;
            }
        }
    }

    private IEnumerable<Tried> OtherDiscs()
    {
        FixtureDesign bare = Bare();
        double own = new PairOnBlock(job).PullN(0);
        foreach (
            MagnetSpec disc in job.OtherMagnets.Where(d => new PairOnBlock(job with { Magnet = d }).PullN(0) > own)
        )
        {
            Job changed = job with
            {
                Magnet = disc,
                MagnetCount = Math.Max(1, design.Magnets.Length),
                MagnetFactorTarget = null,
            };
            if (With(bare, changed) is { } then)
            {
                yield return new Tried(
                    FormattableString.Invariant($"{changed.MagnetCount} discs {disc.Name}"),
                    then,
                    true
                );
            }
        }
    }

    private FixtureDesign Bare() =>
        design with
        {
            Magnets = [],
            Features = [.. design.Features.Where(f => !OfMagnets.Contains(f.Kind))],
        };

    /// <summary>The factor with the magnets that a job would get; null where they do not all fit.</summary>
    private double? With(FixtureDesign bare, Job changed)
    {
        Stage<ImmutableArray<MagnetPlace>> magnets = MagnetPlacement.Choose(bare, changed, tolerances);
        return magnets.Ok
            ? Asked(HoldingAnalysis.Context(bare, changed, tolerances).Value?.Limited(magnets.Value))
            : null;
    }

    /// <summary>The factor that the magnets are asked for; 0 where nothing was worked out.</summary>
    private double Asked(LimitedFactors? held) =>
        held is not { } h ? 0
        : job.HoldBy == HoldBy.Magnets ? h.Put
        : h.Stopping;

    private static string Sentence(IReadOnlyList<Tried> tried, double factor, double limit, string more)
    {
        Tried[] enough = [.. tried.Where(t => t.Factor >= limit)];
        if (enough.Length > 0)
        {
            string all = string.Join("; or ", enough.Take(3).Select(Words));
            return char.ToUpperInvariant(all[0]) + all[1..] + ".";
        }
        Tried best = tried.OrderByDescending(t => t.Factor).FirstOrDefault();
        return best.Factor > factor * 1.01
            ? $"No single change tried is enough; the nearest: {Words(best)}. Beside it {more} would help."
            : $"No single change tried is enough; {more} would help.";
    }

    private static string Words(Tried t) =>
        FormattableString.Invariant($"{t.Change} {(t.Many ? "give" : "gives")} {t.Factor:0.00}");
}
