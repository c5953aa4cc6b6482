using FixtureGen.Geometry;
using FixtureGen.Holding;
using FixtureGen.Holding.Magnets;
using FixtureGen.Holding.Seal;
using FixtureGen.Holding.Sliding;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

/// <summary>The part on its magnets alone: equilibrium at both ends of the cord, and who carries how much of the pull.</summary>
public sealed class SealLostTest
{
    private static readonly Job Shop = HeldDesigns.Job();

    private static readonly Point2[] At = [new(70, 75), new(170, 90), new(150, 140)];

    private static Job Soft => Shop with { Gasket = Shop.Gasket with { P25MinKPa = 3, P25MaxKPa = 5 } };

    private static (HoldingContext Context, double Cord) Of(Job job)
    {
        FixtureDesign design = HeldDesigns.Of(HeldDesigns.Plain, job);
        HoldingContext context = HoldingAnalysis.Context(design, job, Tolerances.House).Value!;
        return (context, design.Cords.Sum(c => Measure.Length(c.Centre)));
    }

    public static TheoryData<string> Cords => ["house", "soft"];

    // Whatever carries the pulls, together it balances them: the same sum and the same moment about the plate's origin.
    [Theory]
    [MemberData(nameof(Cords))]
    public void Every_way_to_be_held_carries_the_pulls_where_they_act(string cord)
    {
        (HoldingContext context, _) = Of(cord == "soft" ? Soft : Shop);
        double[] shares = context.Pair.SharesN(At);
        double pull = shares.Sum();
        double lift = context.Lost.LiftOf(pull);
        Assert.Equal(cord == "house", lift > 0);
        foreach (HeldPart held in context.Lost.Hold(At))
        {
            double kept = held.Total / pull;
            double atLift = (1 - StoppingLoad.PullLost) * context.Pair.PullN(lift) / context.Pair.PullN(0);
            Assert.InRange(kept, atLift * (1 - 1e-3), 1 - StoppingLoad.PullLost + 1e-9);
            Point2 wanted = default;
            foreach ((double share, int i) in shares.Select((s, i) => (s, i)))
            {
                wanted += kept * share * At[i];
            }
            Point2 carried = (held.Pressed * held.Contact.Middle) + held.Moment;
            foreach (PressPoint p in held.Points)
            {
                carried += p.Force * p.At;
            }
            // spread over the contact a pressure that would pull is left out: a little of the moment may stay
            double near = held.Corner.Contains("all over", StringComparison.Ordinal) ? 0.03 : 1e-3;
            Assert.Equal(0, wanted.DistanceTo(carried), near * wanted.Length);
            Assert.Equal(Shop.Gasket.FrictionShellOnCord.Least, held.Friction);
        }
    }

    // A floating shell rests where the stiffest cord's push is the pull that is left.
    [Fact]
    public void A_floating_shell_stands_where_pull_and_push_are_equal()
    {
        (HoldingContext context, double cord) = Of(Shop);
        double pull = context.Pair.SharesN(At).Sum();
        double lift = context.Lost.LiftOf(pull);
        double left = (1 - StoppingLoad.PullLost) * pull * context.Pair.PullN(lift) / context.Pair.PullN(0);
        Assert.Equal(CordForce.HardestNPerMm(Shop.Gasket, lift) * cord, left, 2e-3 * pull);
        double balance = CordForce.HardestNPerMm(Shop.Gasket, 0) * cord / (1 - StoppingLoad.PullLost);
        Assert.Equal(0, context.Lost.LiftOf(balance * (1 + 1e-9)));
    }

    /// <summary>Both ends of the cord's grade are tried: each carries its own push, the block the rest.</summary>
    [Fact]
    public void A_cord_pressed_down_carries_its_own_push_and_the_block_the_rest()
    {
        (HoldingContext context, double cord) = Of(Soft);
        double kept = (1 - StoppingLoad.PullLost) * context.Pair.SharesN(At).Sum();
        HeldPart?[] ways = context.Lost.Ways(At);
        double[] pushes = [CordEnd.Softest(Soft.Gasket).PushNPerMm(0), CordEnd.Hardest(Soft.Gasket).PushNPerMm(0)];
        for (int way = 0; way < ways.Length; way++)
        {
            double push = pushes[way / 2] * cord;
            Assert.Equal(push, ways[way]!.Pressed, 1e-6);
            Assert.Equal(kept - push, ways[way]!.Points.Sum(p => p.Force), 1e-6);
            Assert.Equal(Friction.ShellOnBlock(Soft).Least * (kept - push), ways[way]!.Points.Sum(p => p.Grip), 1e-6);
        }
    }

    // Where pull and push are the same by a hair either way, so is the hold: nothing is gained by parking the pull at the push.
    [Fact]
    public void The_hold_does_not_jump_where_the_shell_begins_to_float()
    {
        (HoldingContext context, double cord) = Of(Shop);
        double pull = context.Pair.SharesN(At).Sum() * (1 - StoppingLoad.PullLost);
        double balance = pull / cord / CordForce.HardestNPerMm(Shop.Gasket, 0);
        double[] factors =
        [
            .. new[] { -1e-6, 1e-6 }.Select(hair =>
            {
                double scale = balance * (1 + hair);
                Gasket at = Shop.Gasket with
                {
                    P25MinKPa = Shop.Gasket.P25MaxKPa * scale,
                    P25MaxKPa = Shop.Gasket.P25MaxKPa * scale,
                };
                return Of(Shop with { Gasket = at }).Context.StoppingFactor(At);
            }),
        ];
        Assert.Equal(factors[0], factors[1], 1e-3 * factors[0]);
    }

    [Fact]
    public void Without_magnets_nothing_is_held() => Assert.Empty(Of(Shop).Context.Lost.Hold([]));
}
