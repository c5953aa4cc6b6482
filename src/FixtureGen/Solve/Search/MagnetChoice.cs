using System.Collections.Immutable;
using FixtureGen.Holding;
using FixtureGen.Holding.Magnets;
using FixtureGen.Model;

namespace FixtureGen.Solve.Search;

/// <summary>A disc, a number of them and the speed that they and the vacuum allow; Batch is an estimate of minutes over the batch but for the block's own.</summary>
internal sealed record MagnetOption(MagnetSpec Disc, int Count, TrimSpeed Speed, double Batch, double Cap);

/// <summary>
/// Which disc and how many. First a quick estimate of what each number of each disc holds, the strongest first; from it the least
/// minutes that each could come to, by which they are then placed in earnest, best first, until none that is left can better the best.
/// No more than the strongest needs until the vacuum alone decides how fast the trim runs. Where the limit is out of reach the most
/// that fit, up to 24, count as nearest.
/// </summary>
internal sealed class MagnetChoice
{
    private const int Most = 24;

    /// <summary>Down, round, up and over, minutes (common practice, no source).</summary>
    private const double PocketMinutes = 0.15;

    /// <summary>The estimate goes on to so many times what is needed, since it may be a little too good where pockets meet the net.</summary>
    private const double Further = 1.05;

    /// <summary>Magnets so few gain most by moving together.</summary>
    private const int Few = 2;

    /// <summary>So many times the estimate the best places hold at the most.</summary>
    private const double Widest = 1.25;

    /// <summary>Another number of the same disc gains at most so many times what those gained that were placed.</summary>
    private const double FurtherGain = 1.03;

    private readonly Choice _choice;
    private readonly Tolerances _tolerances;
    private readonly FixtureDesign _begun;
    private readonly Job _job;
    private readonly Dictionary<string, HoldingContext?> _contexts = [];
    private List<Candidate>? _candidates;

    public MagnetChoice(Choice choice, Tolerances tolerances)
    {
        _choice = choice;
        _tolerances = tolerances;
        _begun = choice.Draft!.Begun.Value!;
        _job = choice.Job;
    }

    /// <summary>A disc and a number of them, with the least minutes over the batch that they may come to; MaxValue where the limits are out of reach.</summary>
    private readonly record struct Candidate(MagnetSpec Disc, int Count, double Bound, double Cap);

    /// <summary>What no number of any disc betters, minutes over the batch but for the block's own; MaxValue where the limits are out of reach.</summary>
    public double Least => Candidates.Count == 0 ? double.MaxValue : Candidates[0].Bound;

    /// <summary>The most that the estimate says of the magnets: chip times the share of the load that they must hold, mm2.</summary>
    public double MostCap => Candidates.Select(c => c.Cap).DefaultIfEmpty(0).Max();

    /// <summary>What was worked out: the best first; one that misses the limits has no speed of its own and comes last.</summary>
    /// <param name="below">What could not come to less, minutes over the batch but for the block's own, is not worked out.</param>
    public ImmutableArray<MagnetOption> Options(double below)
    {
        List<MagnetOption> found = [];
        MagnetOption? best = null;
        Dictionary<string, double> gains = [];
        foreach (Candidate candidate in Candidates)
        {
            bool inReach = candidate.Bound < double.MaxValue;
            if (inReach ? candidate.Bound >= Math.Min(below, best?.Batch ?? double.MaxValue) : best is not null)
            {
                break;
            }
            double gain = gains.GetValueOrDefault(candidate.Disc.Name, double.MaxValue);
            if (gain * FurtherGain < Margin(candidate.Count) && Tighter(candidate, gain * FurtherGain) >= best!.Batch)
            {
                continue;
            }
            if (Placed(candidate) is { } option)
            {
                found.Add(option);
                if (candidate.Cap > 0 && candidate.Count > Few)
                {
                    gains[candidate.Disc.Name] = gains.TryGetValue(candidate.Disc.Name, out double before)
                        ? Math.Max(before, option.Cap / candidate.Cap)
                        : option.Cap / candidate.Cap;
                }
                best = best is null || Better(option, best) ? option : best;
            }
        }
        if (best is { Speed.Passes: 0 } && Open)
        {
            int placed = found.Where(o => o.Disc == best.Disc).Max(o => o.Count);
            found.AddRange(More(best.Disc, placed, below));
        }
        return [.. found.Order(Comparer<MagnetOption>.Create(Compare))];
    }

    /// <summary>Where the estimate was too good: one more at a time until the limits are met, no more fit or it would take too long.</summary>
    private List<MagnetOption> More(MagnetSpec disc, int count, double below)
    {
        double trims = _job.Quantity * Minutes(_choice.Fastest);
        List<MagnetOption> found = [];
        while (
            count < Most && trims + ((count + 1) * PocketMinutes) < below && found is not [.., { Speed.Passes: > 0 }]
        )
        {
            if (Placed(new Candidate(disc, ++count, 0, 0)) is not { } option)
            {
                break;
            }
            found.Add(option);
        }
        return found;
    }

    public static int Compare(MagnetOption a, MagnetOption b) =>
        (a.Speed.Passes == 0, Math.Round(a.Batch, 6), a.Count, -a.Cap).CompareTo(
            (b.Speed.Passes == 0, Math.Round(b.Batch, 6), b.Count, -b.Cap)
        );

    private static bool Better(MagnetOption a, MagnetOption b) => Compare(a, b) < 0;

    private bool Open => _job.Open.HasFlag(OpenKeys.Count);

    private TrimSpeed Own => _choice.Fastest.Passes > 0 ? _choice.Fastest : Lightest();

    private List<Candidate> Candidates => _candidates ??= Found();

    private List<Candidate> Found()
    {
        MagnetSpec[] discs =
        [
            .. (_job.Open.HasFlag(OpenKeys.Magnet) ? _job.OtherMagnets.Prepend(_job.Magnet) : [_job.Magnet])
                .OrderByDescending(d => new PairOnBlock(_job with { Magnet = d }).PullN(0))
                .ThenBy(d => d.Name, StringComparer.Ordinal),
        ];
        List<Candidate> found = [];
        int most = Most;
        foreach (MagnetSpec disc in discs)
        {
            List<Candidate> own = OfDisc(disc, most);
            found.AddRange(own);
            most = own.Count > 0 && Open ? Math.Min(most, own[^1].Count) : most;
        }
        // the most of what misses the limits comes nearest to them
        return [.. found.OrderBy(c => c.Bound).ThenBy(c => c.Bound < double.MaxValue ? c.Count : -c.Cap)];
    }

    /// <summary>The numbers of a disc up to the first that, for all that is known, does not slow the trim.</summary>
    private List<Candidate> OfDisc(MagnetSpec disc, int most)
    {
        if (Context(disc) is not { } context)
        {
            return [];
        }
        if (!Open)
        {
            // stated: one answer, placed in any case
            return [new Candidate(disc, _job.MagnetCount, 0, 0)];
        }
        double own = Load(Own, context.Pair.Slip);
        double enough = Limit * Choice.Spare * Further;
        List<Candidate> found = [];
        foreach (
            (int count, double factor) in MagnetPlacement.Estimate(
                _begun,
                Asked(disc),
                context,
                _tolerances,
                most,
                enough
            )
        )
        {
            double bound = Batch(count, factor * Margin(count) * own, context.Pair.Slip);
            if (bound == double.MaxValue)
            {
                // nothing is called out of reach before the widest margin is tried
                bound = Batch(count, factor * Widest * own, context.Pair.Slip);
            }
            found.Add(new Candidate(disc, count, bound, factor * own));
        }
        return found;
    }

    /// <summary>By how much the best places may hold more than the estimate: few magnets gain most by moving together.</summary>
    private static double Margin(int count) => count <= Few ? Widest : 1.08;

    /// <summary>The bound of a number once it is known by how much the best places of the same disc held more than the estimate.</summary>
    private double Tighter(Candidate candidate, double margin) =>
        Batch(candidate.Count, candidate.Cap * margin, Context(candidate.Disc)!.Pair.Slip);

    private double Batch(int count, double cap, double slip) =>
        Allowed(_choice.MostChip, cap, slip) is { } speed
            ? (_job.Quantity * Minutes(speed)) + (count * PocketMinutes)
            : double.MaxValue;

    private HoldingContext? Context(MagnetSpec disc)
    {
        if (!_contexts.TryGetValue(disc.Name, out HoldingContext? context))
        {
            context = HoldingAnalysis.Context(_begun, Asked(disc), _tolerances).Value;
            _contexts.Add(disc.Name, context);
        }
        return context;
    }

    private Job Asked(MagnetSpec disc) => Own.In(_job) with { Magnet = disc };

    private MagnetOption? Placed(Candidate candidate)
    {
        Job at = Open ? Asked(candidate.Disc) with { MagnetCount = candidate.Count } : Asked(candidate.Disc);
        Stage<ImmutableArray<MagnetPlace>> places = MagnetPlacement.Choose(_begun, at, _tolerances);
        return places.Ok ? Rated(candidate.Disc, at, Context(candidate.Disc)!, places.Value) : null;
    }

    private TrimSpeed Lightest() => _choice.Ladder.MinBy(s => s.Chip(_job, _job.TrimTool));

    private double Minutes(TrimSpeed speed) => speed.Passes == 0 ? 0 : _choice.TrimMinutes(_begun, speed.In(_job));

    /// <summary>What the places hold, and the fastest speed for it. The load while stopping goes with the chip and with the share that is left while the machine stops.</summary>
    private MagnetOption Rated(MagnetSpec disc, Job at, HoldingContext context, ImmutableArray<MagnetPlace> places)
    {
        TrimSpeed own = new(at.TrimPasses!.Value, at.TrimRpm!.Value, at.TrimFeedMmPerMin!.Value);
        double factor = context.MagnetsFactor([.. places.Select(p => p.At)]);
        double cap = factor * Load(own, context.Pair.Slip);
        TrimSpeed? speed = Allowed(_choice.MostChip, cap, context.Pair.Slip);
        double batch = speed is { } s
            ? (_job.Quantity * Minutes(s)) + (places.Length * PocketMinutes)
            : double.MaxValue;
        return new MagnetOption(disc, places.Length, speed ?? default, batch, cap);
    }

    /// <summary>The fastest speed whose chip the vacuum holds and whose stopping load the magnets hold.</summary>
    public TrimSpeed? Allowed(double mostChip, double cap, double slip) =>
        _choice.BestSpeed(
            s => s.Chip(_job, _job.TrimTool) <= mostChip && cap >= Limit * Choice.Spare * Load(s, slip),
            Minutes
        );

    /// <summary>
    /// What the magnets' factor must reach. As the hold they meet both house limits with the higher: a shell that stays put under the
    /// full load stays while the machine stops.
    /// </summary>
    private double Limit =>
        ByMagnets ? Math.Max(_job.Limits.VacuumFactor, _job.Limits.MagnetFactor) : _job.Limits.MagnetFactor;

    private bool ByMagnets => _job.HoldBy == HoldBy.Magnets;

    /// <summary>Chip times the share of the load that the magnets must hold: all of it where they are the hold, else what is left while the machine stops.</summary>
    public double Load(TrimSpeed speed, double slip)
    {
        if (ByMagnets)
        {
            return speed.Chip(_job, _job.TrimTool);
        }
        Machine machine = _job.Plate.Machine;
        double chip = speed.FeedMmPerMin / (speed.Rpm * _job.TrimTool.Flutes);
        double reaction = speed.FeedMmPerMin / 60 * machine.VacuumReactionSeconds;
        return speed.Chip(_job, _job.TrimTool) * StoppingLoad.Share(reaction, machine.FeedHoldDistance, slip, chip);
    }
}
