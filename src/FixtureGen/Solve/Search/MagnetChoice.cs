using System.Collections.Immutable;
using FixtureGen.Holding;
using FixtureGen.Holding.Magnets;
using FixtureGen.Model;

namespace FixtureGen.Solve.Search;

/// <summary>A disc, a number of them and the speed that they and the vacuum allow; Batch is an estimate of minutes over the batch but for the block's own.</summary>
internal sealed record MagnetOption(MagnetSpec Disc, int Count, TrimSpeed Speed, double Batch, double Cap);

/// <summary>
/// Which disc and how many: the strongest first, one more at a time until the vacuum alone decides how fast the trim runs or one
/// more costs longer to pocket than it saves; then the weaker ones, with as many or fewer. Where the limit is out of reach the most
/// that fit, up to 24, count as nearest.
/// </summary>
internal sealed class MagnetChoice(Choice choice, Tolerances tolerances)
{
    private const int Most = 24;

    /// <summary>Down, round, up and over, minutes (common practice, no source).</summary>
    private const double PocketMinutes = 0.15;

    private readonly FixtureDesign _begun = choice.Draft!.Begun.Value!;
    private readonly Job _job = choice.Job;

    /// <summary>What was worked out: the best first; one that misses the limits has no speed of its own and comes last.</summary>
    public ImmutableArray<MagnetOption> Options()
    {
        List<MagnetOption> found = [];
        MagnetSpec[] discs =
        [
            .. Discs()
                .OrderByDescending(d => new PairOnBlock(_job with { Magnet = d }).PullN(0))
                .ThenBy(d => d.Name, StringComparer.Ordinal),
        ];
        int from = Wishes();
        MagnetOption? best = null;
        foreach (MagnetSpec disc in discs)
        {
            int most = best is null ? Most : best.Count;
            MagnetOption? own = Fewest(disc, best is null ? from : most, most, best);
            if (own is null)
            {
                continue;
            }
            found.Add(own);
            best = best is null || Better(own, best) ? own : best;
            if (best.Speed == choice.Fastest && best.Count <= from)
            {
                break;
            }
        }
        return [.. found.Order(Comparer<MagnetOption>.Create(Compare))];
    }

    public static int Compare(MagnetOption a, MagnetOption b) =>
        (a.Speed.Passes == 0, Math.Round(a.Batch, 6), a.Count, -a.Cap).CompareTo(
            (b.Speed.Passes == 0, Math.Round(b.Batch, 6), b.Count, -b.Cap)
        );

    private static bool Better(MagnetOption a, MagnetOption b) => Compare(a, b) < 0;

    private IEnumerable<MagnetSpec> Discs() =>
        _job.Open.HasFlag(OpenKeys.Magnet) ? _job.OtherMagnets.Prepend(_job.Magnet) : [_job.Magnet];

    private int Wishes() => Math.Max(1, _job.Magnets.Length + _begun.Part.MagnetWishes.Length);

    private MagnetOption? Fewest(MagnetSpec disc, int from, int most, MagnetOption? beat)
    {
        Job with = choice.Fastest.Passes > 0 ? choice.Fastest.In(_job) : Lightest().In(_job);
        with = with with { Magnet = disc };
        if (HoldingAnalysis.Context(_begun, with, tolerances).Value is not { } context)
        {
            return null;
        }
        bool open = _job.Open.HasFlag(OpenKeys.Count);
        MagnetOption? best = null;
        (int first, int last) = open ? (from, most) : (0, 0);
        for (int step = first; step <= last; step++)
        {
            Job trial = open ? with with { MagnetCount = step } : with;
            Stage<ImmutableArray<MagnetPlace>> places = MagnetPlacement.Choose(_begun, trial, tolerances);
            if (!places.Ok)
            {
                break;
            }
            MagnetOption option = Rated(disc, trial, context, places.Value);
            best = best is null || Better(option, best) ? option : best;
            double oneMore = (_job.Quantity * Minutes(choice.Fastest)) + ((option.Count + 1) * PocketMinutes);
            if (option.Speed.Passes > 0 && (option.Speed == choice.Fastest || oneMore >= best.Batch))
            {
                break;
            }
        }
        return best;
    }

    private TrimSpeed Lightest() => choice.Ladder.MinBy(s => s.Chip(_job, _job.TrimTool));

    private double Minutes(TrimSpeed speed) => speed.Passes == 0 ? 0 : choice.TrimMinutes(_begun, speed.In(_job));

    /// <summary>What the places hold, and the fastest speed for it. The load while stopping goes with the chip and with the share that is left while the machine stops.</summary>
    private MagnetOption Rated(MagnetSpec disc, Job at, HoldingContext context, ImmutableArray<MagnetPlace> places)
    {
        TrimSpeed own = new(at.TrimPasses!.Value, at.TrimRpm!.Value, at.TrimFeedMmPerMin!.Value);
        double stopping = context.StoppingFactor([.. places.Select(p => p.At)]);
        double cap = stopping * Load(own, context.Pair.Slip);
        TrimSpeed? speed = Allowed(choice.MostChip, cap, context.Pair.Slip);
        double batch = speed is { } s
            ? (_job.Quantity * Minutes(s)) + (places.Length * PocketMinutes)
            : double.MaxValue;
        return new MagnetOption(disc, places.Length, speed ?? default, batch, cap);
    }

    /// <summary>The fastest speed whose chip the vacuum holds and whose stopping load the magnets hold.</summary>
    public TrimSpeed? Allowed(double mostChip, double cap, double slip) =>
        choice.BestSpeed(
            s =>
                s.Chip(_job, _job.TrimTool) <= mostChip
                && cap >= _job.Limits.MagnetFactor * Choice.Spare * Load(s, slip),
            Minutes
        );

    /// <summary>Chip times the share of the load that is left while the machine stops.</summary>
    public double Load(TrimSpeed speed, double slip)
    {
        Machine machine = _job.Plate.Machine;
        double chip = speed.FeedMmPerMin / (speed.Rpm * _job.TrimTool.Flutes);
        double reaction = speed.FeedMmPerMin / 60 * machine.VacuumReactionSeconds;
        return speed.Chip(_job, _job.TrimTool) * StoppingLoad.Share(reaction, machine.FeedHoldDistance, slip, chip);
    }
}
