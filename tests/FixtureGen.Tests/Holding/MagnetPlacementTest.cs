using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Holding;
using FixtureGen.Holding.Magnets;
using FixtureGen.Model;
using FixtureGen.Solve;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

public sealed class MagnetPlacementTest(ITestOutputHelper output)
{
    private static readonly Job Shop = HeldDesigns.Job();

    private static ImmutableArray<MagnetPlace> Chosen(FixtureDesign design, Job job)
    {
        Stage<ImmutableArray<MagnetPlace>> stage = MagnetPlacement.Choose(design, job, Tolerances.House);
        Assert.True(stage.Ok, string.Join('\n', stage.Findings));
        return stage.Value;
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void Six_stand_clear_of_everything_and_hold_better_than_by_hand()
    {
        Job job = Shop with { MagnetCount = 6 };
        FixtureDesign design = HeldDesigns.Of(HeldDesigns.Plain, job);
        ImmutableArray<MagnetPlace> six = Chosen(design, job);
        HoldingContext context = HoldingAnalysis.Context(design, job, Tolerances.House).Value!;
        MagnetRoom room = new(design, job);
        Assert.Equal(6, six.Length);
        foreach (MagnetPlace m in six)
        {
            Assert.True(room.RoomAt(m.At).Slack >= 0);
            Assert.All(six.Where(o => o != m), o => Assert.True(o.At.DistanceTo(m.At) >= context.Pair.Spacing));
        }
        double best = context.Evaluate(six).MagnetsStopping.Factor;
        Point2[] byHand = [new(75, 75), new(125, 75), new(175, 75), new(75, 140), new(125, 140), new(175, 140)];
        double hand = context
            .Evaluate([.. byHand.Select(p => new MagnetPlace(p, false, false))])
            .MagnetsStopping.Factor;
        output.WriteLine(FormattableString.Invariant($"{best:0.0000} by hand {hand:0.0000}"));
        Assert.True(best >= hand);
        Assert.Equal(six, Chosen(design, job));
    }

    [Theory]
    [InlineData(2, "stay down")]
    [InlineData(3, "stay down")]
    [InlineData(2, "float")]
    [InlineData(3, "float")]
    public void Search_is_as_good_as_trying_every_set(int count, string shell)
    {
        Job job = shell == "float" ? Shop : WithSoftCord(Shop);
        FixtureDesign design = HeldDesigns.Of(Ell, job);
        HoldingContext context = HoldingAnalysis.Context(design, job, Tolerances.House).Value!;
        MagnetRoom room = new(design, job);
        (Point2[] places, double pitch) = room.Grid(28);
        double spacing = context.Pair.Spacing;
        MagnetObjective objective = new(context, 200);
        MagnetSearch search = new(objective, places, pitch, spacing, p => room.RoomAt(p).Slack >= 0, _ => true);
        double found = objective.Factor(search.OnGrid([], count));
        double best = 0;
        foreach (Point2[] set in Sets(places, count, spacing))
        {
            best = objective.Score(set, best) > best ? Math.Max(best, objective.Factor(set)) : best;
        }
        output.WriteLine(
            FormattableString.Invariant(
                $"{places.Length} places, {count}: found {found:0.00000} of {best:0.00000}, {100 * (1 - (found / best)):0.00} % short"
            )
        );
        Assert.InRange(found, 0.98 * best, best * 1.001);
    }

    /// <summary>One place in the middle, best for a single magnet and farthest from the mean, takes away the two that would do.</summary>
    [Fact]
    public void Two_that_fit_are_found_where_the_best_one_and_the_farthest_one_leave_no_room()
    {
        FixtureDesign design = HeldDesigns.Of(HeldDesigns.Plain, Shop);
        HoldingContext context = HoldingAnalysis.Context(design, Shop, Tolerances.House).Value!;
        Point2 middle = Measure.Bounds(design.Part.Outer).Middle;
        Point2[] places = [middle, .. new[] { -26, -25, 25, 26 }.Select(x => middle + new Point2(x, -37))];
        MagnetObjective objective = new(context, 200);
        Assert.Equal(middle, places.MaxBy(p => objective.Factor([p])));
        Point2[] found = new MagnetSearch(objective, places, 5, 46, _ => true, _ => true).OnGrid([], 2);
        Assert.Equal(2, found.Length);
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void Fewest_for_a_target_reaches_it_and_one_fewer_does_not()
    {
        Job job = WithSoftCord(Shop) with { TrimFeedMmPerMin = 600, TrimRpm = 18000, MagnetFactorTarget = 0.7 };
        FixtureDesign design = HeldDesigns.Of(HeldDesigns.Plain, job);
        ImmutableArray<MagnetPlace> chosen = Chosen(design, job);
        HoldingContext context = HoldingAnalysis.Context(design, job, Tolerances.House).Value!;
        Assert.InRange(chosen.Length, 2, 12);
        Assert.True(context.Evaluate(chosen).MagnetsStopping.Stays >= 0.7);
        Job fewer = job with { MagnetFactorTarget = null, MagnetCount = chosen.Length - 1 };
        Assert.True(context.Evaluate(Chosen(design, fewer)).MagnetsStopping.Stays < 0.7);
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void Wishes_stay_where_they_are_and_locked_ones_are_refused_where_they_cannot()
    {
        Job job = Shop with { MagnetCount = 3, Magnets = [new MagnetWish(new Point2(100, 100), true)] };
        FixtureDesign design = HeldDesigns.Of(HeldDesigns.Plain, job);
        ImmutableArray<MagnetPlace> chosen = Chosen(design, job);
        Assert.Equal(3, chosen.Length);
        Assert.Equal(new MagnetPlace(new Point2(100, 100), true, false), chosen[0]);

        Job blocked = job with { Magnets = [new MagnetWish(new Point2(42, 100), true)] };
        Finding refusal = MagnetPlacement.Choose(design, blocked, Tolerances.House).Findings.Single();
        Assert.Equal("magnet-locked-blocked", refusal.Code);
        Job moved = job with { Magnets = [new MagnetWish(new Point2(55, 100), false)] };
        Stage<ImmutableArray<MagnetPlace>> stage = MagnetPlacement.Choose(design, moved, Tolerances.House);
        Assert.Equal("magnet-wish-moved", Assert.Single(stage.Findings).Code);
        Assert.InRange(stage.Value[0].At.DistanceTo(new Point2(55, 100)), 0.5, 15);
    }

    // Each 10 mm from a straight edge, so the shortest way to a free place is straight in; rings stand half a millimetre apart.
    [Theory]
    [InlineData(50, 107)]
    [InlineData(200, 107)]
    [InlineData(125, 50)]
    [InlineData(125, 165)]
    public void A_wish_that_cannot_stand_moves_no_farther_than_it_must(double x, double y)
    {
        Point2 wish = new(x, y);
        Job job = Shop with { MagnetCount = 1, Magnets = [new MagnetWish(wish, false)] };
        FixtureDesign design = HeldDesigns.Of(HeldDesigns.Plain, job);
        double shortest = -new MagnetRoom(design, job).RoomAt(wish).Slack;

        Point2 moved = Chosen(design, job)[0].At;

        Assert.InRange(shortest, 1, 14);
        Assert.InRange(moved.DistanceTo(wish), shortest - 1e-6, shortest + 0.6);
    }

    [Fact]
    public void A_wish_too_near_another_moves_aside()
    {
        double spacing = new PairOnBlock(Shop).Spacing;
        Point2 locked = new(125, 107);
        Point2 wish = new(125 + spacing - 2, 107);
        Job job = Shop with { MagnetCount = 2, Magnets = [new(wish, false), new(locked, true)] };

        ImmutableArray<MagnetPlace> chosen = Chosen(HeldDesigns.Of(HeldDesigns.Plain, job), job);

        Assert.Equal(locked, chosen[0].At);
        Assert.True(chosen[1].At.DistanceTo(locked) >= spacing);
        Assert.InRange(chosen[1].At.DistanceTo(wish), 2 - 1e-6, 2.6);
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void More_than_fit_are_refused_with_the_number_that_fits()
    {
        Job job = Shop with { MagnetCount = 60 };
        FixtureDesign design = HeldDesigns.Of(Ell, job);
        Finding finding = MagnetPlacement.Choose(design, job, Tolerances.House).Findings.Single();
        Assert.Equal("magnets-do-not-fit", finding.Code);
        Assert.Equal(Severity.Error, finding.Severity);
    }

    [Fact]
    public void A_holder_that_passes_low_keeps_the_jackets_farther_off()
    {
        FixtureDesign design = HeldDesigns.Of(HeldDesigns.Plain, Shop);
        Tool stubby = Shop.TrimTool with { StickOut = 8 };
        FixtureDesign low = design with { TrimCuts = [.. design.TrimCuts.Select(c => c with { Tool = stubby })] };
        Point2 nearEdge = new(70, 107);
        Assert.True(new MagnetRoom(design, Shop).RoomAt(nearEdge).Slack > 0);
        double lost =
            new MagnetRoom(design, Shop).RoomAt(nearEdge).Slack - new MagnetRoom(low, Shop).RoomAt(nearEdge).Slack;
        Assert.True(lost > 0);
    }

    private static Job WithSoftCord(Job job) => job with { Gasket = job.Gasket with { P25MinKPa = 3, P25MaxKPa = 5 } };

    private static Part Ell
    {
        get
        {
            Point2[] corners = [new(30, 30), new(150, 30), new(150, 90), new(95, 90), new(95, 150), new(30, 150)];
            return HeldDesigns.Part(
                new Kernel(Tolerances.House).Close([Region.From(Contours.FromPoints(corners))], 5)[0].Outer
            );
        }
    }

    private static IEnumerable<Point2[]> Sets(Point2[] places, int count, double spacing)
    {
        IEnumerable<int[]> indices =
        [
            [],
        ];
        for (int k = 0; k < count; k++)
        {
            indices = indices.SelectMany(set =>
                Enumerable
                    .Range(set.Length == 0 ? 0 : set[^1] + 1, places.Length - (set.Length == 0 ? 0 : set[^1] + 1))
                    .Where(i => set.All(j => places[i].DistanceTo(places[j]) >= spacing))
                    .Select(i => (int[])[.. set, i])
            );
        }
        return indices.Select(set => set.Select(i => places[i]).ToArray());
    }
}
