using FixtureGen.Holding.Sliding;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

/// <summary>
/// What is said to set a factor, for loads through the middle of an evenly pressed rectangle: nothing turns, so Coulomb's
/// law alone gives friction (pressed - factor lift) = factor shear.
/// </summary>
public sealed class GoverningTest
{
    private const double Friction = 0.2;

    private static HeldPart Pressed(double newton) =>
        new(
            new PressureMeasure(ContactQuadrature.OverArea([Region.From(Outlines.Rectangle(-60, -40, 120, 80))], 120)),
            Friction,
            newton,
            default,
            [],
            [new(-60, -40), new(60, -40), new(60, 40), new(-60, 40)]
        );

    private static CutLoad Load(double lift) => new(default, new Point2(0, 10), lift, 0);

    private static double Factor(double pressed, double lift) => Friction * pressed / (10 + (Friction * lift));

    private static string Said(HeldPart[] held, double lift)
    {
        StepFactor answer = new(Factor(held.Min(h => h.Total), lift), HoldMode.Slide, 0, 0);
        return Governing.Describe(held, Load(lift), answer);
    }

    [Fact]
    public void Friction_is_told_with_the_least_that_presses()
    {
        Assert.Equal("friction: 0.20 under 300 N against 10.0 N", Said([Pressed(500), Pressed(300)], 0));
        Assert.Equal("friction: 0.20 under 300 N against 10.0 N", Said([Pressed(300), Pressed(500)], 0));
    }

    // Without the lift the factor is 1 + 0.2 lift / 10 times as large: 15 % are passed at a lift of 7.5 N.
    [Fact]
    public void The_cutters_lift_is_named_where_it_takes_more_than_15_percent()
    {
        Assert.Equal(
            "force: the cutter's lift of 7.6 N takes friction away (10.00 without it)",
            Said([Pressed(500)], 7.6)
        );
        Assert.Equal("friction: 0.20 under 500 N against 10.0 N", Said([Pressed(500)], 7.4));
        Assert.Equal(
            "force: the cutter's lift of 7.6 N takes friction away (6.00 without it)",
            Said([Pressed(500), Pressed(300)], 7.6)
        );
    }

    [Fact]
    public void Nothing_governs_from_the_largest_factor_on()
    {
        CutLoad little = Load(0) with { Shear = new Point2(0.1, 0) };
        StepFactor most = new(LimitState.Most, HoldMode.Slide, 0, 0);
        StepFactor less = new(0.99 * LimitState.Most, HoldMode.Slide, 0, 0);
        Assert.Equal("nothing: more than any load here", Governing.Describe([Pressed(500)], little, most));
        Assert.Equal("friction: 0.20 under 500 N against 0.1 N", Governing.Describe([Pressed(500)], little, less));
    }

    [Fact]
    public void A_part_that_nothing_presses_is_told_so()
    {
        StepFactor none = new(0, HoldMode.Lift, 0, 0);
        Assert.Equal("pressure: nothing presses the part down", Governing.Describe([], Load(0), none));
        Assert.Equal("pressure: nothing presses the part down", Governing.Describe([Pressed(0)], Load(0), none));
        Assert.Equal(
            "force: a lift of 3.0 N and the overturning of 10.0 N",
            Governing.Describe([Pressed(0), Pressed(500)], Load(3), none)
        );
    }

    [Theory]
    [InlineData(39, "friction: 0.20 under 500 N against 10.0 N")]
    [InlineData(41, "pressure: the cord takes back 41 N of the vacuum's 100 N")]
    public void The_cord_is_named_where_it_takes_more_than_two_fifths(double cord, string said) =>
        Assert.Equal(
            said,
            Governing.WithVacuum([Pressed(500)], Load(0), new StepFactor(10, HoldMode.Slide, 0, 0), 100, cord)
        );

    [Fact]
    public void A_part_that_tips_is_not_laid_to_the_cord_or_the_magnets()
    {
        const string tips = "force: a lift of 0.0 N and the overturning of 10.0 N";
        StepFactor tipping = new(10, HoldMode.Tip, 0, 0);
        Assert.Equal(tips, Governing.WithVacuum([Pressed(500)], Load(0), tipping, 100, 90));
        Assert.Equal(tips, Governing.WithMagnets([Pressed(500)], Load(0), tipping, 60, 0.4));
    }

    [Fact]
    public void Magnets_are_named_with_the_lift_where_the_shell_floats()
    {
        StepFactor slides = new(10, HoldMode.Slide, 0, 0);
        Assert.Equal(
            "force: the magnets' 60 N, less by the cord's lift of 0.40 mm, against 10.0 N",
            Governing.WithMagnets([Pressed(500)], Load(0), slides, 60, 0.4)
        );
        Assert.Equal(
            "friction: 0.20 under 500 N against 10.0 N",
            Governing.WithMagnets([Pressed(500)], Load(0), slides, 60, 0)
        );
    }
}
