using FixtureGen.Model;
using FixtureGen.Solve;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

public sealed class CutReasonTest
{
    private static readonly HouseLimits Limits = HeldDesigns.Job().Limits with { VacuumFactor = 2, MagnetFactor = 1.2 };

    private static readonly DirectionTrial Up = new(HelixDirection.Up, "mill-up", true, 12.34, 1.1, 0.9, false);
    private static readonly DirectionTrial Straight = new(HelixDirection.Straight, "", false, 0.04, 2.5, 1.5, true);
    private static readonly DirectionTrial Down = new(HelixDirection.Down, "mill-down", true, -12.34, 3, 2, true);

    [Fact]
    public void A_cutter_that_holds_is_told_with_what_the_others_would_do() =>
        Assert.Equal(
            "Downcut: presses the shell down with 12.3 N; vacuum alone holds 3.0 times the load, magnets and stops while stopping 2.0 times"
                + " (limits 2 and 1.2). It holds, but packs its chips into the relief: keep the extraction on and watch for welded chips."
                + " Upcut would: pulls the shell up with 12.3 N; vacuum alone holds 1.1 times the load, magnets and stops while stopping 0.90 times."
                + " Straight would: neither pulls nor presses; vacuum alone holds 2.5 times the load, magnets and stops while stopping 1.5 times"
                + " (none in the changer).",
            CutReason.Explain([Up, Straight, Down], HelixDirection.Down, stated: false, Limits)
        );

    [Fact]
    public void A_stated_cutter_that_does_not_hold_is_told_what_to_take() =>
        Assert.EndsWith(
            "(none in the changer). Downcut would: presses the shell down with 12.3 N; vacuum alone holds 3.0 times the load,"
                + " magnets and stops while stopping 2.0 times. Take a straight one: it holds.",
            CutReason.Explain([Up, Straight, Down], HelixDirection.Up, stated: true, Limits),
            StringComparison.Ordinal
        );

    [Fact]
    public void A_stated_cutter_that_holds_hears_of_one_that_clears_better() =>
        Assert.EndsWith(
            " Upcut (mill-up) would hold too and clear the slot better.",
            CutReason.Explain(
                [Up with { MeetsLimits = true }, Straight, Down],
                HelixDirection.Down,
                stated: true,
                Limits
            ),
            StringComparison.Ordinal
        );
}
