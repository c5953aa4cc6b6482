using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Solve;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

/// <summary>Magnets as the hold, with no cord and no vacuum: their factor against hand arithmetic, and what it must keep.</summary>
public sealed class ByMagnetsTest(ITestOutputHelper output)
{
    private static readonly Point2 Middle = new(125, 107.5);

    /// <summary>Four places as far from the middle of the plate as each other, mm.</summary>
    private static readonly Point2[] Four = [new(70, 70), new(180, 70), new(180, 145), new(70, 145)];

    /// <summary>A gap of 2 mm between discs of 12.7 x 6.35 mm, N42, a straight cutter, friction 0.2 exactly.</summary>
    private static Job Job()
    {
        Job job = HeldDesigns.Job();
        return job with
        {
            HoldBy = HoldBy.Magnets,
            Gasket = Gasket.None,
            ShellFriction = 0.2,
            Shell = job.Shell with { ThicknessMin = 1.0, Thickness = 1.1, ThicknessMax = 1.2 },
            Rules = job.Rules with { MagnetRecess = 0.2, MagnetGlue = 0.1 },
            TrimTool = job.TrimTool with { Helix = HelixDirection.Straight, HelixAngleDeg = 0 },
            Magnet = job.Magnet with
            {
                BrMinT = 1.28,
                BrMaxT = 1.32,
                Diameter = 12.7,
                Thickness = 6.35,
                Plating = 0,
                JacketFloor = 0.5,
                JacketDiameter = 16,
                JacketHeight = 8.5,
            },
        };
    }

    private static FixtureDesign Design(params Point2[] magnets) =>
        HeldDesigns.Of(HeldDesigns.Plain, HeldDesigns.Job(), true, magnets) with
        {
            Zones = [],
            Cords = [],
        };

    private static HoldingResult Held(Job job, params Point2[] magnets) =>
        DemoDesign.Good(
            HoldJudgement.Evaluate(
                Design(magnets),
                job with
                {
                    Limits = job.Limits with { VacuumFactor = 0, MagnetFactor = 0 },
                }
            )
        );

    /// <summary>
    /// 24.287 N at 2 mm and 1.300 T (surface-charge integral of two such discs, checked against Ravaud et al., IEEE Trans. Magn. 46,
    /// 2010), times (1.28 / 1.3)^2 for the least of N42, (1 - 0.0012 x 20)^2 for 40 C, 0.85 for model error. Statics: in the plane the
    /// four hold at most 0.2 times 95 % of that together, and by the lower bound theorem at least so much over 1 + d / R, where d is
    /// the farthest load from the middle and R the discs' distance, or the mean distance of the plate's own points, 50 mm at the least.
    /// </summary>
    [Fact]
    public void Pull_and_factor_are_what_hand_arithmetic_says()
    {
        HoldingResult held = Held(Job(), Four);
        double pull = 24.287 * Math.Pow(1.28 / 1.3, 2) * Math.Pow(1 - (0.0012 * 20), 2) * 0.85;
        Assert.All(held.MagnetShareN, share => Assert.InRange(share, 0.98 * pull, 1.002 * pull));
        double grip = 0.2 * 0.95 * held.MagnetShareN.Sum();
        double far = held.Samples.Max(s => s.At.DistanceTo(Middle));
        output.WriteLine(FormattableString.Invariant($"{held.MagnetForceN:0.00} N, {held.MagnetsOnly.Factor:0.000}"));
        Assert.InRange(
            held.MagnetsOnly.Factor,
            grip / held.CuttingForceN / (1 + (far / 50)),
            grip / held.CuttingForceN
        );
    }

    /// <summary>No vacuum is counted anywhere, and what is asked of the magnets is the full load.</summary>
    [Fact]
    public void Vacuum_counts_for_nothing()
    {
        HoldingResult held = Held(Job(), Four);
        Assert.Equal(0, held.VacuumOnly.Factor);
        Assert.Equal(0, held.SealedForceN);
        Assert.Equal(0, held.GasketForceN);
        Assert.Equal(held.MagnetsOnly.Factor, held.Both.Factor);
        Assert.True(held.MagnetsStopping.Factor >= held.MagnetsOnly.Factor);
        Assert.Empty(held.Dimples);
        Assert.Equal(held.MagnetsOnly.Factor, held.Samples.Min(s => s.MagnetsFullLoad), 1e-9);
    }

    /// <summary>One disc more, clear of the others, wherever it stands.</summary>
    [Theory]
    [InlineData(125, 107.5)]
    [InlineData(125, 60)]
    [InlineData(60, 107.5)]
    public void A_magnet_more_never_holds_less(double x, double y)
    {
        double before = Held(Job(), Four).MagnetsOnly.Factor;
        Assert.True(Held(Job(), [.. Four, new Point2(x, y)]).MagnetsOnly.Factor >= before * 0.999);
    }

    /// <summary>On a plate that is its own mirror image the mirrored places hold as well, but for the way round that the trim goes.</summary>
    [Fact]
    public void Mirrored_places_hold_as_well_on_a_symmetric_plate()
    {
        Point2[] places = [new(70, 70), new(170, 80), new(140, 140)];
        Point2[] turned = [.. places.Select(p => (2 * Middle) - p)];
        Point2[] mirrored = [.. places.Select(p => new Point2((2 * Middle.X) - p.X, p.Y))];
        double own = Held(Job(), places).MagnetsOnly.Factor;
        double other = Held(Job(), mirrored).MagnetsOnly.Factor;
        output.WriteLine(
            FormattableString.Invariant($"{own:0.0000} {other:0.0000} {Held(Job(), turned).MagnetsOnly.Factor:0.0000}")
        );
        Assert.InRange(Held(Job(), turned).MagnetsOnly.Factor, 0.99 * own, 1.01 * own);
        Assert.InRange(other, 0.93 * own, 1.07 * own);
    }

    [Fact]
    public void Worse_inputs_never_hold_better()
    {
        Job job = Job();
        double own = Held(job, Four).MagnetsOnly.Factor;
        Job[] worse =
        [
            job with
            {
                ShellFriction = 0.15,
            },
            job with
            {
                ShellFriction = new Interval(0.15, 0.2, 0.3),
            },
            job with
            {
                Shell = job.Shell with { ThicknessMax = 1.3 },
            },
            job with
            {
                DullFactor = 2,
            },
            job with
            {
                Magnet = job.Magnet with { BrMinT = 1.2 },
            },
        ];
        Assert.All(worse, w => Assert.True(Held(w, Four).MagnetsOnly.Factor < own));
    }

    /// <summary>A low hold on magnets is refused with that, not for the vacuum that it does not have.</summary>
    [Fact]
    public void A_low_hold_is_the_magnets_own()
    {
        Job job = Job() with { Limits = new HouseLimits(500, 1, 2) };
        Finding low = Assert.Single(
            HoldJudgement.Evaluate(Design(Four), job).Findings,
            f => f.Severity == Severity.Error
        );
        Assert.Equal("hold-magnets-low", low.Code);
        Assert.Contains("on magnets alone", low.Message, StringComparison.Ordinal);
        Assert.DoesNotContain("cord", low.Remedy, StringComparison.Ordinal);
    }

    /// <summary>A part of 20 x 16 mm takes no disc of 12.7 mm with its jacket clear of the cutter.</summary>
    [Fact]
    public void Where_no_magnet_fits_a_finding_says_so()
    {
        FixtureDesign tiny = HeldDesigns.Of(
            HeldDesigns.Part(Contours.RoundedRectangle(new Box2(100, 100, 120, 116), 4)),
            HeldDesigns.Job(),
            looped: false
        ) with
        {
            Zones = [],
            Cords = [],
        };
        Stage<ImmutableArray<MagnetPlace>> places = MagnetPlacement.Choose(tiny, Job(), Tolerances.House);
        Assert.False(places.Ok);
        Assert.Contains(places.Findings, f => f.Code == "magnets-do-not-fit");
    }
}
