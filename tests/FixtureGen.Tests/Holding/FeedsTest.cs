using FixtureGen.Cutting;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

public sealed class FeedsTest
{
    private static readonly Job Job = DemoShop.Job(DemoShop.PlainJob());

    private static Tool Mill(double diameter, int flutes) =>
        Job.Tools.First(t => t.Kind == ToolKind.EndMill) with
        {
            Diameter = diameter,
            Flutes = flutes,
            MaxStepDown = 0,
            MaxRpm = 0,
        };

    private static Machine Strong =>
        Job.Plate.Machine with
        {
            MaxSpindleRpm = 100_000,
            MinSpindleRpm = 100,
            MaxFeedMmPerMin = 100_000,
            SpindlePowerKw = 100,
        };

    private static Material Of(double speed, double chip, double diameter) =>
        Job.BlockMaterial with
        {
            MinSpeedMPerMin = speed,
            MaxSpeedMPerMin = speed,
            ChipLoads = [new ChipLoad(diameter, chip, chip)],
            SpecificForceMin = 1,
            SpecificForceMax = 1,
        };

    // rpm = 12 SFM / (pi D), SFM = pi D n / 12 with D in inches: Machinery's Handbook, speeds and feeds, cutting speed
    // formulas; 1/4 in at 500 SFM gives 7639.4 rev/min, 1/8 in at 1000 SFM 30557.7, worked by hand.
    [Theory]
    [InlineData(0.25, 500, 7639.4)]
    [InlineData(0.125, 1000, 30557.7)]
    [InlineData(0.375, 300, 3055.8)]
    public void Speed_follows_the_surface_speed_formula(double inches, double feetPerMinute, double rpm) =>
        Assert.Equal(rpm, Feeds.Rpm(feetPerMinute * 0.3048, inches * Units.MmPerInch), 0.1);

    // F = n z fz: 1/4 in, 2 flutes, 12000 rev/min, 0.008 in a tooth is 192 in/min; 3/8 in, 3 flutes, 8000 rev/min, 0.003 in a
    // tooth is 72 in/min (785.4 SFM both). Same formula, same handbook.
    [Theory]
    [InlineData(0.25, 2, 12000, 0.008, 192)]
    [InlineData(0.375, 3, 8000, 0.003, 72)]
    [InlineData(0.25, 2, 12000, 0.002, 48)]
    public void Feed_is_speed_times_flutes_times_chip_load(
        double inches,
        int flutes,
        double rpm,
        double chipInches,
        double inchesPerMinute
    )
    {
        double d = inches * Units.MmPerInch;
        double speed = Math.PI * d * rpm / 1000;

        CutData data = Feeds.For(Mill(d, flutes), Of(speed, chipInches * Units.MmPerInch, d), Strong, d / 2, 1);

        Assert.InRange(data.Rpm, rpm - 10, rpm);
        Assert.InRange(data.Feed, (inchesPerMinute * 25.4) - 15, inchesPerMinute * 25.4);
    }

    // Radial chip thinning 1 / sqrt(1 - (1 - 2 ae/D)^2), tabulated in milling handbooks: 2.2942 at 5 %, 1.6667 at 10 %, 1.25 at
    // 20 %, 1.1547 at 25 %, 1 from 50 % on.
    [Theory]
    [InlineData(0.05, 2.2942)]
    [InlineData(0.10, 1.6667)]
    [InlineData(0.20, 1.2500)]
    [InlineData(0.25, 1.1547)]
    [InlineData(0.40, 1.0206)]
    [InlineData(0.50, 1.0000)]
    [InlineData(0.90, 1.0000)]
    public void Chip_thinning_has_the_published_values(double engagement, double factor) =>
        Assert.Equal(factor, CuttingForce.ChipThinning(engagement), 4);

    [Fact]
    public void Chip_load_is_straight_between_rows_and_in_proportion_below_the_first()
    {
        Material m = Job.BlockMaterial with { ChipLoads = [new(2, 0.1, 0.2), new(4, 0.3, 0.6)] };

        Assert.Equal((0.05, 0.1), Feeds.ChipLoadRange(m, 1));
        Assert.Equal(0.2, Feeds.ChipLoadRange(m, 3).Least, 9);
        Assert.Equal(0.4, Feeds.ChipLoadRange(m, 3).Most, 9);
        Assert.Equal((0.3, 0.6), Feeds.ChipLoadRange(m, 9));
    }

    [Fact]
    public void A_slow_machine_lowers_the_speed_so_that_the_chip_load_stays()
    {
        Machine slow = Strong with { MaxFeedMmPerMin = 1000 };

        CutData data = Feeds.For(Mill(6.35, 2), Of(400, 0.2, 6.35), slow, 6.35, 1);

        Assert.Equal(1000, data.Feed);
        Assert.Equal(0.2, data.ChipLoad, 2);
        Assert.Contains("machine's 1000 mm/min", data.LimitedBy, StringComparison.Ordinal);
    }

    // P = Q kc / 60e6 kW: 1/4 in slot, 3.175 mm deep, 1 m/min at 700 N/mm2 takes 0.235 kW; with 0.1 kW at 70 % the feed falls to 298,
    // at half the depth to 595. The depth counts up to the full step-down, and 0 asks for that.
    [Theory]
    [InlineData(3.175, 3.175)]
    [InlineData(1.5875, 1.5875)]
    [InlineData(10, 3.175)]
    [InlineData(0, 3.175)]
    public void A_weak_spindle_lowers_the_feed(double asked, double deep)
    {
        Machine weak = Strong with { SpindlePowerKw = 0.1 };
        Material hard = Of(400, 1000 / 20050.0 / 2, 6.35) with { SpecificForceMax = 700, StepDownRatio = 0.5 };

        CutData data = Feeds.For(Mill(6.35, 2), hard, weak, 6.35, asked);

        // Feeds are written in whole tens.
        double feed = 0.7 * 0.1 * 60e6 / (deep * 6.35 * 700);
        Assert.InRange(data.Feed, feed - 10, feed);
        Assert.Equal(3.175, data.StepDown, 9);
        Assert.Contains("spindle power", data.LimitedBy, StringComparison.Ordinal);
    }

    [Fact]
    public void An_engraver_runs_at_the_chip_load_of_its_own_data_in_plastic_and_in_metal()
    {
        Tool point = Job.Tools.First(t => t.Kind == ToolKind.Engraver) with
        {
            Flutes = 1,
            ChipLoads = [new OwnChipLoad(InPlastic: true, 0.02, 0.06), new OwnChipLoad(InPlastic: false, 0.01, 0.02)],
        };
        Material plastic = Of(400, 0.2, 6.35) with { IsPlastic = true };

        Assert.Equal(0.04, EngraverFeeds.For(point, 0.4, plastic, Strong).ChipLoad, 3);
        Assert.Equal(0.015, EngraverFeeds.For(point, 0.4, plastic with { IsPlastic = false }, Strong).ChipLoad, 3);
    }

    // Handbook table of rpm at 250 ft/min: 1/8 in 7639.4, 0.201 in 4750.9, 1/4 in 3819.7, 9/32 in 3395.3, 3/8 in 2546.5; with feeds
    // of .003, .004, .004, .005, .006 in/rev 22.92, 19.00, 15.28, 16.98, 15.28 in/min (12 v / (pi d), d in inches).
    [Theory]
    [InlineData(0.125, 0.003, 7639.4, 22.92)]
    [InlineData(0.201, 0.004, 4750.9, 19.00)]
    [InlineData(0.25, 0.004, 3819.7, 15.28)]
    [InlineData(0.28125, 0.005, 3395.3, 16.98)]
    [InlineData(0.375, 0.006, 2546.5, 15.28)]
    public void A_drill_runs_by_the_drilling_chart(double inches, double perTurn, double rpm, double inchesPerMinute)
    {
        double d = inches * 25.4;
        DrillFeed row = new(d, perTurn * 25.4, perTurn * 25.4);
        DrillFeed other = new(40, 9, 9);
        Material m = Of(999, 0.05, 6.35) with { Drilling = new DrillChart(200 * 0.3048, 300 * 0.3048, [row, other]) };

        CutData data = DrillFeeds.For(Mill(d, 2), m, Strong, d)!;

        // speeds are written in whole tens, feeds too
        Assert.InRange(data.Rpm, rpm - 10, rpm + 0.1);
        Assert.InRange(data.Feed, (data.Rpm * perTurn * 25.4) - 10, data.Rpm * perTurn * 25.4);
        Assert.InRange(data.Feed, (inchesPerMinute * 25.4) - 13, inchesPerMinute * 25.4);
        Assert.Contains("drilling chart", data.LimitedBy, StringComparison.Ordinal);
    }

    /// <summary>A trade table of deep holes takes off speed and feed by diameters of depth.</summary>
    [Theory]
    [InlineData(2.9, 1, 1)]
    [InlineData(3, 0.9, 0.9)]
    [InlineData(4, 0.8, 0.9)]
    [InlineData(5.33, 0.7, 0.8)]
    [InlineData(7, 0.6, 0.8)]
    public void A_deep_hole_is_drilled_slower(double diameters, double speed, double feed)
    {
        Material m = Of(999, 0.05, 6.35) with { Drilling = new DrillChart(60, 60, [new DrillFeed(10, 0.2, 0.2)]) };
        double rpm = 1000 * 60 * speed / (Math.PI * 6.35);

        CutData data = DrillFeeds.For(Mill(6.35, 2), m, Strong, diameters * 6.35)!;

        Assert.InRange(data.Rpm, rpm - 10, rpm);
        Assert.Equal(0.2 * feed / 2, data.ChipLoad, 2);
        Assert.Equal(4000, DrillFeeds.For(Mill(6.35, 2), m, Strong with { MinSpindleRpm = 4000 }, 1)!.Rpm);
        Assert.Equal(200, DrillFeeds.For(Mill(6.35, 2), m, Strong with { MaxFeedMmPerMin = 200 }, 1)!.Feed);
        Assert.Null(DrillFeeds.For(Mill(6.35, 2), m with { Drilling = null }, Strong, 1));
    }

    [Fact]
    public void The_slower_of_tool_and_spindle_limits_the_speed()
    {
        Material m = Of(500 * 0.3048, 0.05, 6.35);
        Machine slow = Strong with { MaxSpindleRpm = 6000 };

        CutData bySpindle = Feeds.For(Mill(6.35, 2), m, slow, 6.35, 1);
        CutData byTool = Feeds.For(Mill(6.35, 2) with { MaxRpm = 5000 }, m, slow, 6.35, 1);

        Assert.Equal(6000, bySpindle.Rpm);
        Assert.StartsWith("speed by the spindle's 6000 rpm", bySpindle.LimitedBy, StringComparison.Ordinal);
        Assert.Equal(5000, byTool.Rpm);
        Assert.StartsWith("speed by the tool's 5000 rpm", byTool.LimitedBy, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(null, null)]
    [InlineData(10_000.0, null)]
    [InlineData(null, 500.0)]
    [InlineData(10_000.0, 500.0)]
    public void A_trims_speed_and_feed_are_the_jobs_where_it_states_them(double? rpm, double? feed)
    {
        Tool tool = Job.TrimTool;
        CutData free = TrimFeeds.For(Job with { TrimRpm = null, TrimFeedMmPerMin = null }, tool);

        Job stated = Job with { TrimRpm = rpm, TrimFeedMmPerMin = feed, Open = Job.Open & ~OpenKeys.Feed };
        CutData told = TrimFeeds.For(stated, tool);

        Assert.Equal(rpm ?? free.Rpm, told.Rpm);
        double inProportion = free.ChipLoad * tool.Flutes * told.Rpm;
        Assert.InRange((feed ?? inProportion) - told.Feed, -1e-9, feed is null ? 10 : 1e-9);
        Assert.Equal(told.Feed / (told.Rpm * tool.Flutes), told.ChipLoad, 1e-12);
        Assert.Equal(Math.Min(free.Plunge, Feeds.PlungeFor(told.Feed)), told.Plunge);
        Assert.Equal(rpm is null && feed is null, told.LimitedBy == free.LimitedBy);
        Assert.Equal(feed is not null, told.LimitedBy.Contains("feed as the job says", StringComparison.Ordinal));
    }

    // 0.86 of the gentler of tool and material, never under half a degree.
    [Theory]
    [InlineData(0, 8, 6.88)]
    [InlineData(10, 8, 6.88)]
    [InlineData(5, 8, 4.3)]
    [InlineData(0.1, 8, 0.5)]
    public void A_ramp_stays_under_the_limits_of_tool_and_material(double tool, double material, double deg)
    {
        Material m = Of(400, 0.05, 6.35) with { MaxRampDeg = material };

        Assert.Equal(deg, Feeds.For(Mill(6.35, 2) with { MaxRampDeg = tool }, m, Strong, 6.35, 1).MaxRampDeg, 1e-12);
    }
}
