using FixtureGen.Geometry;
using FixtureGen.Holding.Seal;
using FixtureGen.Model;
using FixtureGen.Shop.Files;
using FixtureGen.Solve;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

public sealed class HoldingAnalysisTest
{
    private static readonly Job Shop = HeldDesigns.Job();

    private static readonly Point2[] Six =
    [
        new(75, 75),
        new(125, 75),
        new(175, 75),
        new(75, 140),
        new(125, 140),
        new(175, 140),
    ];

    private static Stage<HoldingResult> Of(Job job, Part? part = null, bool looped = true, params Point2[] magnets) =>
        HoldJudgement.Evaluate(HeldDesigns.Of(part ?? HeldDesigns.Plain, job, looped, magnets), job);

    /// <summary>The factors of the plain part with all six magnets.</summary>
    private static HoldingResult Held(Job job) =>
        HeldDesigns.Hold(HeldDesigns.Of(HeldDesigns.Plain, job, true, Six), job);

    [Fact]
    [Trait("Speed", "Slow")]
    public void Forces_are_pressure_times_sealed_area_and_push_times_cord()
    {
        FixtureDesign design = HeldDesigns.Of(HeldDesigns.Plain, Shop, true, Six);
        HoldingResult r = HeldDesigns.Hold(design, Shop);
        double area = design.Zones.Sum(z => Measure.Area(z.Sealed));
        double cord = design.Cords.Sum(c => Measure.Length(c.Centre));
        Assert.Equal(r.VacuumKPa * area / 1000, r.SealedForceN, 0.01);
        Assert.Equal(CordForce.HardestNPerMm(Shop.Gasket, 0) * cord, r.GasketForceN, 0.01);
        Assert.Equal(r.MagnetShareN.Sum(), r.MagnetForceN, 1e-9);
        Assert.InRange(r.VacuumKPa, 0, Math.Min(Shop.Vacuum.AlarmKPa, r.AtmosphereKPa));
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void Samples_follow_the_trim_at_a_millimetre_and_carry_the_worst()
    {
        FixtureDesign design = HeldDesigns.Of(HeldDesigns.Plain, Shop, true, Six);
        HoldingResult r = HeldDesigns.Hold(design, Shop);
        Assert.True(r.Samples.Length >= Measure.Length(design.TrimCuts[0].Path));
        foreach (HoldSample s in r.Samples)
        {
            Assert.True(Measure.Distance(s.At, design.TrimCuts[0].Edge) >= design.TrimCuts[0].Tool.Radius - 1e-6);
            Assert.True(s.Both >= s.VacuumOnly && s.Both >= s.MagnetsFullLoad);
            Assert.InRange(s.Both, 0, 999);
        }
        Assert.Equal(r.Samples.Min(s => s.VacuumOnly), r.VacuumOnly.Factor, 12);
        Assert.Equal(r.Samples.Min(s => s.MagnetsStopping), r.MagnetsStopping.Factor, 12);
        Assert.Equal(r.Samples.Min(s => s.Both), r.Both.Factor, 12);
    }

    [Fact]
    public void Without_magnets_only_the_vacuum_holds()
    {
        HoldingResult r = Of(Shop).Value!;
        Assert.Equal(0, r.MagnetsOnly.Factor);
        Assert.Equal(0, r.MagnetsStopping.Factor);
        Assert.Equal(r.VacuumOnly.Factor, r.Both.Factor);
        Assert.Equal(0, r.ImplantDistanceMm);
    }

    // The answer for a plain rectangle-like part lies between the handbook's two easy cases: all friction against the
    // force (no turning), and the same force at the corner held by torque alone.
    [Fact]
    public void Vacuum_factor_is_below_plain_sliding()
    {
        HoldingResult r = Of(Shop).Value!;
        double net = r.SealedForceN - r.GasketForceN;
        double sliding = Shop.BlockMaterial.ShellFriction.Least * net / r.CuttingForceN;
        Assert.InRange(r.VacuumOnly.Factor, 0.2 * sliding, sliding);
        Assert.Equal(HoldMode.Slide, r.VacuumOnly.Mode);
        Assert.StartsWith("friction", r.VacuumOnly.Governs, StringComparison.Ordinal);
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void Below_the_house_limits_is_refused_unless_the_job_gives_its_reason()
    {
        Job job = Shop with
        {
            Limits = new HouseLimits(500, 500, 2),
            AcceptLowHold = "tried by hand",
            ShellFriction = 0.9,
            TrimFeedMmPerMin = 400,
            TrimRpm = 18000,
        };
        Stage<HoldingResult> warned = Of(job, null, true, Six);
        Assert.True(warned.Ok);
        Assert.All(
            new[] { "hold-vacuum-low", "hold-magnets-low" },
            code => Assert.Equal(Severity.Warning, warned.Findings.Single(f => f.Code == code).Severity)
        );
        Stage<HoldingResult> refused = Of(job with { AcceptLowHold = "" }, null, true, Six);
        Assert.False(refused.Ok);
        Assert.NotNull(refused.Value);
    }

    /// <summary>A disc of 10 mm has the permeance 4 t / (10 sqrt pi): 0.90 at 4 mm, 1.13 at 5 mm.</summary>
    [Theory]
    [InlineData(4, 80, true, true)]
    [InlineData(5, 80, true, false)]
    [InlineData(4, 100, true, false)]
    [InlineData(4, 80, false, false)]
    [Trait("Speed", "Slow")]
    public void A_disc_too_thin_for_its_diameter_is_told_unless_its_grade_bears_heat(
        double thickness,
        double hottest,
        bool magnets,
        bool told
    )
    {
        MagnetSpec disc = Shop.Magnet with
        {
            Name = "flat disc",
            Diameter = 10,
            DiameterTolerance = 0,
            Thickness = thickness,
            MaxTemperatureC = hottest,
        };
        Finding[] thin =
        [
            .. Of(Shop with { Magnet = disc }, null, true, magnets ? Six : [])
                .Findings.Where(f => f.Code == "magnet-thin"),
        ];
        Finding[] expected =
        [
            new(
                "magnet-thin",
                Severity.Note,
                "flat disc",
                "The disc is thin for its diameter (permeance 0.90): it may lose strength for good well below its 80 C.",
                "Keep it under 60 C, or use a grade with an M or H suffix or a thicker disc."
            ),
        ];
        Assert.Equal(told ? expected : [], thin);
    }

    [Fact]
    public void A_cord_that_keeps_the_shell_up_is_an_error_that_names_a_cord()
    {
        Gasket hard = Shop.Gasket with { Kind = CordKind.Solid, ShoreA = 80 };
        Stage<HoldingResult> stage = Of(Shop with { Gasket = hard });
        Finding finding = stage.Findings.Single(f => f.Code == "seal-never-seats");
        Assert.Equal(Severity.Error, finding.Severity);
        Assert.Contains("grade", finding.Remedy, StringComparison.Ordinal);
        Assert.Equal(0, stage.Value!.VacuumOnly.Factor);
    }

    [Fact]
    public void Alarm_above_what_the_pump_reaches_is_told_and_capped()
    {
        Job high = Shop with { Vacuum = Shop.Vacuum with { AltitudeM = 3000, AlarmKPa = 84 } };
        Stage<HoldingResult> stage = Of(high);
        Finding finding = stage.Findings.Single(f => f.Code == "vacuum-alarm-high");
        double mark = 0.8 * stage.Value!.PumpKPa;
        Assert.Equal(
            FormattableString.Invariant($"Set the alarm to {mark:0} kPa or less, or a stronger pump."),
            finding.Remedy
        );
        Assert.True(stage.Value!.VacuumKPa < Atmosphere.PressureKPa(3000));
        Assert.Equal(stage.Value.PumpKPa, stage.Value.VacuumKPa, 9);
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void A_cutout_without_its_own_loop_empties_the_zone()
    {
        Part part = HeldDesigns.Part(
            HeldDesigns.Plain.Outer,
            Contours.RoundedRectangle(new Box2(110, 95, 140, 120), 5)
        );
        Stage<HoldingResult> open = Of(Shop, part, looped: false);
        Assert.Contains(open.Findings, f => f.Code == "zone-opened");
        Assert.Equal(0, open.Value!.VacuumOnly.Factor);
        Stage<HoldingResult> sealedOff = Of(Shop, part, looped: true);
        Assert.DoesNotContain(sealedOff.Findings, f => f.Code == "zone-opened");
        Assert.True(sealedOff.Value!.VacuumOnly.Factor > 0.3);
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void What_is_changed_in_a_job_changes_the_factors_as_physics_says()
    {
        HoldingResult plain = Held(Shop);
        HoldingResult Changed(Job job) => Held(job);

        Job mountain = Shop with { Vacuum = Shop.Vacuum with { AltitudeM = 3500 } };
        Assert.True(Changed(mountain).VacuumOnly.Factor < plain.VacuumOnly.Factor);
        Job weakPump = Shop with { Vacuum = Shop.Vacuum with { PumpRatedKPa = 40 } };
        Assert.True(Changed(weakPump).VacuumOnly.Factor < plain.VacuumOnly.Factor);
        Job leaky = Shop with { Vacuum = Shop.Vacuum with { LeakHoleMm = 5 } };
        Assert.True(Changed(leaky).VacuumOnly.Factor < plain.VacuumOnly.Factor);
        Assert.Equal(plain.MagnetsStopping.Factor, Changed(leaky).MagnetsStopping.Factor, 9);

        double rough = Changed(Shop with { ShellFriction = 0.2 }).VacuumOnly.Factor;
        Assert.Equal(rough / 2, Changed(Shop with { ShellFriction = 0.1 }).VacuumOnly.Factor, 0.02 * rough);

        Job downcut = Shop with { TrimTool = Shop.TrimTool with { Helix = HelixDirection.Down } };
        Assert.True(Changed(downcut).MagnetsStopping.Factor > plain.MagnetsStopping.Factor);
        Job dull = Shop with { DullFactor = 2 * Shop.DullFactor };
        Assert.Equal(plain.VacuumOnly.Factor / 2, Changed(dull).VacuumOnly.Factor, 1e-3);

        Job stronger = Shop with { Magnet = Shop.Magnet with { BrMinT = 1.43, BrMaxT = 1.48 } };
        Assert.True(Changed(stronger).MagnetsStopping.Factor > plain.MagnetsStopping.Factor);
        Assert.Equal(plain.MagnetForceN * Math.Pow(1.43 / 1.28, 2), Changed(stronger).MagnetForceN, 1e-6);
        Assert.Equal(plain.VacuumOnly.Factor, Changed(stronger).VacuumOnly.Factor, 9);

        Machine machine = Shop.Plate.Machine;
        HoldingResult Stops(double reaction, double distance) =>
            Changed(
                Shop with
                {
                    Plate = Shop.Plate with
                    {
                        Machine = machine with { VacuumReactionSeconds = reaction, FeedHoldDistance = distance },
                    },
                }
            );
        Assert.True(Stops(0.01, 0.5).MagnetsStopping.Factor > plain.MagnetsStopping.Factor);
        Assert.True(Stops(0.02, 0.5).MagnetsStopping.Factor < Stops(0.01, 0.5).MagnetsStopping.Factor);
        Assert.True(Stops(0.01, 1.5).MagnetsStopping.Factor < Stops(0.01, 0.5).MagnetsStopping.Factor);
        Assert.Equal(plain.MagnetsOnly.Factor, Stops(1, 0).MagnetsStopping.Factor, 9);
        Assert.Equal(plain.MagnetsOnly.Factor, Stops(0.01, 0.5).MagnetsOnly.Factor, 9);
    }

    [Fact]
    public void Altitude_out_of_the_table_is_refused()
    {
        Stage<HoldingResult> stage = Of(Shop with { Vacuum = Shop.Vacuum with { AltitudeM = 20_000 } });
        Assert.Equal("vacuum-altitude", Assert.Single(stage.Findings).Code);
        Assert.Null(stage.Value);
    }

    [Fact]
    public void A_shell_that_touches_no_block_and_a_part_that_nothing_cuts_are_refused()
    {
        FixtureDesign design = HeldDesigns.Of(HeldDesigns.Plain, Shop);
        Assert.Equal(["hold-no-contact"], Refused(design with { Contact = [] }));
        Assert.Equal(["hold-no-trim"], Refused(design with { TrimCuts = [] }));
        Assert.Equal(["hold-no-contact", "hold-no-trim"], Refused(design with { Contact = [], TrimCuts = [] }));

        static string[] Refused(FixtureDesign refused)
        {
            Stage<HoldingResult> stage = HoldJudgement.Evaluate(refused, Shop);
            Assert.Null(stage.Value);
            return [.. stage.Findings.Select(f => f.Code)];
        }
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void Same_design_same_bits()
    {
        HoldingResult a = Held(Shop);
        HoldingResult b = Held(Shop);
        Assert.Equal(a.Samples, b.Samples);
        Assert.Equal(a.Both, b.Both);
    }
}
