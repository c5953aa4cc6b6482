using FixtureGen.Geometry;
using FixtureGen.Holding;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

/// <summary>The part on its magnets alone: equilibrium, and who carries how much of the pull.</summary>
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
    public void Contact_and_magnets_together_carry_the_pulls_where_they_act(string cord)
    {
        (HoldingContext context, _) = Of(cord == "soft" ? Soft : Shop);
        double[] shares = context.Pair.SharesN(At);
        double pull = shares.Sum();
        double lift = context.Lost.LiftOf(pull);
        double kept = (1 - StoppingLoad.PullLost) * context.Pair.PullN(lift) / context.Pair.PullN(0);

        HeldPart held = context.Lost.Hold(At)!;

        Assert.Equal(cord == "house", lift > 0);
        Assert.Equal(kept * pull, held.Total, 1e-3 * pull);
        Point2 wanted = default;
        Point2 carried = (held.Pressed * held.Contact.Middle) + held.Moment;
        for (int i = 0; i < At.Length; i++)
        {
            wanted += kept * shares[i] * At[i];
            carried += held.Points[i].Force * held.Points[i].At;
        }
        Assert.Equal(0, wanted.DistanceTo(carried), 1e-3 * wanted.Length);
        Assert.Equal(Shop.Gasket.FrictionShellOnCord.Least, held.Friction);
    }

    // A floating shell rests where the cord's push is the pull that is left.
    [Fact]
    public void A_floating_shell_stands_where_pull_and_push_are_equal()
    {
        (HoldingContext context, double cord) = Of(Shop);
        double pull = context.Pair.SharesN(At).Sum();
        double lift = context.Lost.LiftOf(pull);
        double left = pull * context.Pair.PullN(lift) / context.Pair.PullN(0);
        Assert.Equal(CordForce.HardestNPerMm(Shop.Gasket, lift) * cord, left, 2e-3 * pull);
        Assert.Equal(0, context.Lost.LiftOf(CordForce.HardestNPerMm(Shop.Gasket, 0) * cord));
    }

    /// <summary>The worse end of the cord's grade: the softest where the cord grips better than the block, else the hardest.</summary>
    [Theory]
    [InlineData(0.5)]
    [InlineData(0.1)]
    public void A_cord_pressed_down_carries_its_push_and_the_block_the_rest(double frictionOnCord)
    {
        Job job = Soft with { Gasket = Soft.Gasket with { FrictionShellOnCord = frictionOnCord } };
        (HoldingContext context, double cord) = Of(job);
        double kept = (1 - StoppingLoad.PullLost) * context.Pair.SharesN(At).Sum();
        double perMm =
            frictionOnCord > Friction.ShellOnBlock(job).Least
                ? CordForce.SoftestNPerMm(job.Gasket)
                : CordForce.HardestNPerMm(job.Gasket, 0);

        HeldPart held = context.Lost.Hold(At)!;

        Assert.Equal(perMm * cord, held.Pressed, 1e-6);
        Assert.Equal(kept - (perMm * cord), held.Points.Sum(p => p.Force), 1e-6);
        Assert.Equal(frictionOnCord, held.Friction);
    }

    // Coulomb under the magnets, and over them what centres the jackets, no more than their own friction.
    [Fact]
    public void Jackets_drag_by_their_centring_and_never_by_more_than_friction()
    {
        (HoldingContext context, _) = Of(Soft);
        double friction = Friction.ShellOnBlock(Soft).Least;
        double[] shares = context.Pair.SharesN(At);

        PressPoint[] points = [.. context.Lost.Hold(At)!.Points];

        for (int i = 0; i < points.Length; i++)
        {
            double most = friction * shares[i] * (1 - StoppingLoad.PullLost);
            double jacket = Math.Min(most, context.Pair.CentringN);
            Assert.Equal((friction * points[i].Force) + jacket, points[i].Grip, 1e-9);
        }
    }

    [Fact]
    public void Without_magnets_nothing_is_held() => Assert.Null(Of(Shop).Context.Lost.Hold([]));
}
