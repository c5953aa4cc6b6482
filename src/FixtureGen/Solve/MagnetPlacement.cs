using System.Collections.Immutable;
using FixtureGen.Design.Seals;
using FixtureGen.Design.Vacuum;
using FixtureGen.Geometry;
using FixtureGen.Holding;
using FixtureGen.Model;
using FixtureGen.Shop.Jobs;

namespace FixtureGen.Solve;

/// <summary>
/// Where the magnets help most. Wishes of the drawing and of the job come first; the rest is placed so that the worst
/// factor with the seal lost is as large as can be for the job's count, or, where the job names a target, with as few as
/// reach it. Plate frame, mm.
/// </summary>
public static class MagnetPlacement
{
    private const int GridPlaces = 320;
    private const int MostMagnets = 24;

    /// <summary>
    /// The wishes, locked ones first, then the places found; empty where nobody asks for any. Errors: those of
    /// <see cref="HoldingAnalysis.Context"/> that leave no context, magnet-locked-blocked and magnet-wish-blocked (also by an
    /// earlier wish), magnets-do-not-fit. Warnings: magnet-wish-moved, magnet-target-missed (at most 24 magnets are tried).
    /// </summary>
    /// <param name="begun">The design without its magnets.</param>
    /// <exception cref="KernelException">What a cut takes of a zone, or what the magnets leave of the net, could not be proven.</exception>
    public static Stage<ImmutableArray<MagnetPlace>> Choose(FixtureDesign begun, Job job, Tolerances tolerances)
    {
        bool wanted = job.MagnetCount > 0 || job.MagnetFactorTarget is not null;
        if (!wanted && job.Magnets.IsEmpty && begun.Part.MagnetWishes.IsEmpty)
        {
            return Stage.Answer(ImmutableArray<MagnetPlace>.Empty);
        }
        Stage<HoldingContext> context = HoldingAnalysis.Context(begun, job, tolerances);
        if (context.Value is null)
        {
            return Stage.Failed<ImmutableArray<MagnetPlace>>(context.Findings);
        }
        Places given = Places.From(begun, job, context.Value);
        Stage<ImmutableArray<MagnetPlace>> wishes = given.Wishes;
        if (!wishes.Ok)
        {
            return wishes;
        }
        List<Finding> findings = [.. wishes.Findings];
        MagnetObjective objective = given.Objective;
        Point2[] held = given.Held;
        double rounding = WrittenPlace.Farthest(job);
        Found found = RoundTheNet(begun, job, tolerances, held, Chosen);
        findings.AddRange(found.Findings);
        ImmutableArray<MagnetPlace> all =
        [
            .. wishes.Value,
            .. found.Set.Skip(held.Length).Select(p => new MagnetPlace(p, false, false)),
        ];
        return Stage.Answer(all, findings);

        Found Chosen(Func<IReadOnlyList<Point2>, bool> fits)
        {
            MagnetSearch search = new(
                objective,
                given.Grid,
                given.Pitch,
                given.Spacing + (2 * rounding),
                p => given.Room.Leaves(p, rounding),
                fits
            );
            List<Finding> said = [];
            Point2[] set = job.MagnetFactorTarget is { } target
                ? Fewest(search, context.Value, held, target, said)
                : ForCount(
                    search,
                    held,
                    Math.Max(job.MagnetCount, held.Length),
                    given.Spacing,
                    !begun.Zones.IsEmpty,
                    said
                );
            Point2[] written =
            [
                .. held,
                .. set.Skip(held.Length).Select(p => WrittenPlace.OnPlate(p, begun.Placement.Pose, job)),
            ];
            return new Found(written, context.Value.MagnetsFactor(written), said);
        }
    }

    /// <summary>
    /// Factors with the seal lost of ever more magnets, from the wishes (or one) up, each put where it gains most while those before it
    /// stay: a quick estimate of what <see cref="Choose"/> comes to, mostly less. Empty where a wish cannot be honoured.
    /// </summary>
    /// <param name="context">The hold of the design without its magnets, for the job's disc.</param>
    /// <param name="most">So many magnets at the most; fewer where no more fit.</param>
    /// <param name="enough">Stops at the first factor that reaches it.</param>
    /// <exception cref="KernelException">What the magnets leave of the net could not be proven.</exception>
    public static ImmutableArray<(int Count, double Factor)> Estimate(
        FixtureDesign begun,
        Job job,
        HoldingContext context,
        Tolerances tolerances,
        int most,
        double enough
    )
    {
        Places given = Places.From(begun, job, context);
        if (!given.Wishes.Ok)
        {
            return [];
        }
        Point2[] set = given.Held;
        NetPassage passage = new(
            begun,
            job,
            new Kernel(tolerances),
            set,
            job.Rules.Wall,
            NetChoice.Cusp(NetWidth.Choose(job)?.Radius ?? 0)
        );
        MagnetSearch search = new(
            given.Objective,
            given.Grid,
            given.Pitch,
            given.Spacing,
            static _ => true,
            passage.Leaves
        );
        var factors = ImmutableArray.CreateBuilder<(int Count, double Factor)>();
        while (set.Length <= most)
        {
            if (set.Length > 0)
            {
                factors.Add((set.Length, context.MagnetsFactor(set)));
                if (factors[^1].Factor >= enough)
                {
                    break;
                }
            }
            Point2[] more = search.Filled(set, set.Length + 1);
            if (more.Length == set.Length)
            {
                break;
            }
            set = more;
        }
        return factors.ToImmutable();
    }

    /// <summary>What a search of places begins with: room, spacing, the wishes and the grid.</summary>
    private sealed record Places(
        MagnetRoom Room,
        double Spacing,
        Stage<ImmutableArray<MagnetPlace>> Wishes,
        Point2[] Grid,
        double Pitch,
        MagnetObjective Objective
    )
    {
        public Point2[] Held => [.. Wishes.Value.Select(w => w.At)];

        public static Places From(FixtureDesign begun, Job job, HoldingContext context)
        {
            MagnetRoom room = new(begun, job);
            double spacing = Math.Max(context.Pair.Spacing, room.PocketSpacing);
            (Point2[] grid, double pitch) = room.Grid(GridPlaces);
            Box2 box = MagnetRoom.Field(begun);
            return new Places(
                room,
                spacing,
                MagnetWishes.Honour(begun, job, room, spacing),
                grid,
                pitch,
                new MagnetObjective(context, new Point2(box.Width, box.Height).Length)
            );
        }
    }

    /// <summary>
    /// Places, their factor with the seal lost, and what is to be said of them: nothing where they are as many or as good as
    /// asked for.
    /// </summary>
    private sealed record Found(Point2[] Set, double Factor, List<Finding> Findings);

    /// <summary>
    /// The places that leave the net as the wishes leave it: a land from its grooves, or a wall where a land leaves too few or
    /// too little hold, as the net runs. Should the net that is made round them reach less all the same, only ways as wide as
    /// a ring count, and should even that not do, every step of the search lays the net.
    /// </summary>
    private static Found RoundTheNet(
        FixtureDesign begun,
        Job job,
        Tolerances tolerances,
        Point2[] held,
        Func<Func<IReadOnlyList<Point2>, bool>, Found> search
    )
    {
        if (begun.Zones.IsEmpty)
        {
            return search(static _ => true);
        }
        Kernel kernel = new(tolerances);
        NetTrial trial = new(begun, job, kernel, held);
        double radius = NetWidth.Choose(job)?.Radius ?? 0;
        double cusp = NetChoice.Cusp(radius);
        Found? best = null;
        foreach (double fromPockets in (double[])[job.Rules.Land, job.Rules.Wall])
        {
            if (Kept(fromPockets, cusp) is not { } found)
            {
                continue;
            }
            if (found.Findings.Count == 0 && found.Factor >= job.Limits.MagnetFactor)
            {
                return found;
            }
            best =
                best is null || (found.Set.Length, found.Factor).CompareTo((best.Set.Length, best.Factor)) > 0
                    ? found
                    : best;
        }
        return best ?? Kept(job.Rules.Land, NetChoice.Wide(radius, job)) ?? search(trial.Leaves);

        Found? Kept(double fromPockets, double neck)
        {
            Found found = search(new NetPassage(begun, job, kernel, held, fromPockets, neck).Leaves);
            return trial.Leaves(found.Set) ? found : null;
        }
    }

    private static Point2[] ForCount(
        MagnetSearch search,
        Point2[] held,
        int count,
        double spacing,
        bool seals,
        List<Finding> findings
    )
    {
        Point2[] best = search.Best(held, count);
        if (best.Length < count)
        {
            findings.Add(MagnetFindings.DoNotFit(count, best.Length, spacing, seals));
        }
        return best;
    }

    private static Point2[] Fewest(
        MagnetSearch search,
        HoldingContext context,
        Point2[] held,
        double target,
        List<Finding> findings
    )
    {
        Point2[] set = held;
        double reached = context.MagnetsFactor(set);
        while (reached < target && set.Length < MostMagnets)
        {
            Point2[] more = search.OneMore(set, held.Length);
            if (more.Length == set.Length)
            {
                break;
            }
            set = more;
            reached = context.MagnetsFactor(set);
            if (reached < target && reached > 0.9 * target)
            {
                Point2[] moved = search.Best(held, set.Length);
                double factor = context.MagnetsFactor(moved);
                (set, reached) = factor > reached ? (moved, factor) : (set, reached);
            }
        }
        if (reached < target)
        {
            findings.Add(MagnetFindings.TargetMissed(target, reached, set.Length));
        }
        return set;
    }
}
