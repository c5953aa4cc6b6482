using FixtureGen.Holding;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

/// <summary>What is proposed, verbatim, with figures worked by hand.</summary>
public sealed class RemediesTest
{
    private static readonly Job Job = HeldDesigns.Job();
    private static readonly FixtureDesign Design = HeldDesigns.Of(HeldDesigns.Plain, Job, true, new Point2(125, 107));
    private static readonly HoldingContext Context = HoldingAnalysis.Context(Design, Job, Tolerances.House).Value!;
    private static readonly HoldingResult Result = HoldingAnalysis.Evaluate(Design, Job).Value!;

    [Theory]
    [InlineData(5, 1.0, "One magnet more; or the trim feed at 83 % of what it is.")]
    [InlineData(1, 1.15, "One magnet more; or the trim feed at 96 % of what it is.")]
    [InlineData(10, 1.0, "Some 2 magnets more, or stronger ones; or the trim feed at 83 % of what it is.")]
    [InlineData(4, 0.3, "Some 12 magnets more, or stronger ones; or the trim feed at 25 % of what it is.")]
    [InlineData(4, 0.29, "Some 13 magnets more, or stronger ones.")]
    [InlineData(4, 0, "Magnets in the block: there is no pull now.")]
    public void Magnets_are_asked_for_in_proportion(int magnets, double factor, string remedy)
    {
        HoldAnswer answer = new(factor, HoldMode.Slide, default, "friction");

        Assert.Equal(remedy, Remedies.ForMagnets(Context, Result with { MagnetsStopping = answer }, magnets, 1.2));
    }

    // Force F of the zone, C of its cord: a factor k below the limit wants k (F - C) + C of the zone.
    [Theory]
    [InlineData(1.8, "The trim feed at 90 % of what it is; or a zone or a vacuum some ")]
    [InlineData(0.3, "A sealed zone some ")]
    [InlineData(0, "A sealed zone that pulls more than its cord pushes back.")]
    public void A_weak_hold_asks_for_what_could_mend_it(double factor, string remedy)
    {
        HoldAnswer answer = new(factor, HoldMode.Slide, default, "friction");
        string said = Remedies.ForVacuum(Context, Result with { VacuumOnly = answer }, 2);
        double net = Context.GrossForceN - Context.CordForceN;
        double times = ((2 / factor * net) + Context.CordForceN) / Context.GrossForceN;
        string end =
            factor == 0 ? ""
            : times <= 2 ? FormattableString.Invariant($"{100 * (times - 1):0} % larger.")
            : FormattableString.Invariant($"{times:0.#} times as large.");
        Assert.Equal(remedy + end, said);
    }

    // Pushes of one cord go as its 25 % pressure: the hardest grade that takes half of the vacuum at most is named.
    [Theory]
    [InlineData(89.7, "grade 3")]
    [InlineData(89.5, "grade 2")]
    [InlineData(62.2, "grade 2")]
    [InlineData(62.0, "grade 1")]
    [InlineData(34.6, "grade 1")]
    [InlineData(34.4, "No sponge of this section is soft enough")]
    public void The_hardest_cord_that_leaves_half_the_vacuum_is_named(double halfKPa, string named)
    {
        Gasket sponge = Job.Gasket with { Kind = CordKind.Sponge, P25MinKPa = halfKPa, P25MaxKPa = halfKPa };
        double gross = 2 * CordForce.HardestNPerMm(sponge, 0) * 600;

        Assert.Contains(named, Remedies.CordThatSeats(Job.Gasket, 600, gross), StringComparison.Ordinal);
    }
}
