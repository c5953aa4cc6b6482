using FixtureGen.Geometry;
using FixtureGen.Holding.Seal;
using FixtureGen.Holding.Stopping;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Published;

/// <summary>
/// Thin plates and strips under pressure. Strip with free ends 5 p b^4 / 384 D and 0.75 p (b/t)^2 (beam tables, from memory); circle
/// simply supported (5 + v)/(1 + v) p a^4 / 64 D and 3 (3 + v)/8 p (a/t)^2 (The Civil Engineering Handbook, 2nd ed., 47-50).
/// Pin bearing: sheet yield times diameter times thickness for plastics without data of their own, shear-out 2 x 0.577 yield t (e - d/2).
/// </summary>
public sealed class BendingTables
{
    private const double InHg20 = 67.7278;

    /// <summary>PVC/acrylic sheet: 320 ksi flexural modulus, the least that a transit specification allows; Poisson from memory.</summary>
    private static readonly SheetStrength Sheet = new(38, new Interval(2206, 2206, 2206), 0.38, 0.003);

    private static Job Job(double thickness) =>
        HeldDesigns.Job() is var job
            ? job with
            {
                Shell = job.Shell with { Thickness = thickness, ThicknessMax = thickness, ThicknessMin = thickness },
                ShellMaterial = job.ShellMaterial with { Sheet = Sheet },
            }
            : throw new InvalidOperationException();

    private static Dimple Over(Feature feature, double thickness)
    {
        Job job = Job(thickness);
        FixtureDesign design = HeldDesigns.Of(HeldDesigns.Plain, job) with { Features = [feature] };
        return Assert.Single(Deflection.Over(design, job, InHg20));
    }

    private static GrooveFeature Groove(double width) =>
        new()
        {
            Name = "net 1",
            Kind = FeatureKind.Net,
            Setup = Setup.Top,
            Loops = [],
            Runs = [],
            Width = width,
            TopZ = 18,
            FloorZ = 16,
            Removals = [],
        };

    // w in mm and stress in MPa of a 1.5 mm strip at 20 inHg, both ends free to turn.
    [Theory]
    [InlineData(6, 0.0016, 0.813)]
    [InlineData(8, 0.0050, 1.445)]
    [InlineData(10, 0.0122, 2.258)]
    [InlineData(12, 0.0252, 3.251)]
    [InlineData(16, 0.0797, 5.779)]
    [InlineData(20, 0.1946, 9.030)]
    public void Strip_over_a_groove(double width, double sag, double stress)
    {
        Dimple d = Over(Groove(width), 1.5);
        Assert.Equal(sag, d.SagMm, 6e-5);
        Assert.Equal(stress, d.StressMPa, 6e-4);
        Assert.Equal(2, d.RoomMm, 12);
    }

    // Clamped w of the table times (5 + v)/(1 + v), and 3(3 + v)/8 p (a/t)^2.
    [Theory]
    [InlineData(1.5, 15, 0.0739)]
    [InlineData(2.0, 25, 0.2405)]
    [InlineData(2.4, 40, 0.9121)]
    public void Circle_over_a_port_sags_as_simply_supported(double thickness, double radius, double clamped)
    {
        HoleFeature port = new()
        {
            Name = "port 1",
            Kind = FeatureKind.Port,
            Setup = Setup.Top,
            At = default,
            Diameter = 2 * radius,
            TopZ = 18,
            FloorZ = 0,
            SlotLength = 0,
            SlotAngleDeg = 0,
            BreaksThrough = true,
            Opening = null,
            Removals = [],
        };
        Dimple d = Over(port, thickness);
        Assert.Equal(clamped * 5.38 / 1.38, d.SagMm, 2e-3 * d.SagMm);
        double p = InHg20 / 1000;
        Assert.Equal(3 * 3.38 / 8 * p * Math.Pow(radius / thickness, 2), d.StressMPa, 1e-6);
    }

    // The greatest strip free to turn with w of 0.1 mm at 20 inHg.
    [Theory]
    [InlineData(1.0, 12.49)]
    [InlineData(1.5, 16.93)]
    [InlineData(2.0, 21.01)]
    [InlineData(2.4, 24.09)]
    [InlineData(3.0, 28.48)]
    public void Widest_groove_that_leaves_no_mark(double thickness, double width) =>
        Assert.Equal(width, Deflection.Widest(false, Sheet, thickness, InHg20), 6e-3);

    /// <summary>A pin of 6.35 mm in a shell of 1.5 mm: bearing 362.0 N; torn out at e = d 208.9, at 2 d 626.5 N.</summary>
    [Theory]
    [InlineData(1.0, 208.9)]
    [InlineData(2.0, 362.0)]
    [InlineData(9.0, 362.0)]
    public void Pin_in_the_scrap_bears_what_its_hole_does(double edgeInDiameters, double strength)
    {
        const double D = 6.35;
        Job job = Job(1.5);
        job = job with
        {
            Locator = LocatorKind.Pins,
            LocatorPins = [new Point2(40 - 3.2 - (edgeInDiameters * D), 107), new Point2(260, 107)],
            Rules = job.Rules with { LocatorPinDiameter = D },
            BlockMaterial = job.BlockMaterial with { IsPlastic = false },
        };
        FixtureDesign design = HeldDesigns.Of(HeldDesigns.Plain, job);
        double toCut = design
            .TrimCuts.SelectMany(c => c.Sweep)
            .SelectMany(r => r.Contours)
            .Min(c => Measure.Distance(job.LocatorPins[0], c));
        job = job with
        {
            LocatorPins = [job.LocatorPins[0] + new Point2(toCut - (edgeInDiameters * D), 0), job.LocatorPins[1]],
        };
        Assert.Equal(strength, Stops.Find(design, job).Before[0].StrengthN, 0.2);
    }

    // Half of what a plastic block bears under a pin for a moment: 10 N/mm2 over d times the press depth, a short pole pushed at its top.
    [Fact]
    public void Pin_in_a_plastic_block_bears_no_more_than_the_block()
    {
        Job job = Job(1.5);
        job = job with { Locator = LocatorKind.Pins, LocatorPins = [new Point2(20, 107), new Point2(235, 107)] };
        ShellStop pin = Stops.Find(HeldDesigns.Of(HeldDesigns.Plain, job), job).Before[0];
        Assert.Equal(10 * job.Rules.LocatorPinDiameter * 8 / 4, pin.StrengthN, 1e-9);
    }

    // Four bridges of 4 x 0.5 mm in shear, weakened so that the two pins bear all of them at once wherever they push.
    [Fact]
    public void Bridges_are_no_stronger_than_the_pins_behind_them()
    {
        Job job = Job(1.5);
        job = job with { Locator = LocatorKind.Pins, LocatorPins = [new Point2(20, 107), new Point2(235, 107)] };
        FixtureDesign design = HeldDesigns.Of(HeldDesigns.Plain, job);
        StopSet stops = Stops.Find(design, job);
        double whole = 0.577 * 38 * job.Rules.TabLength * job.Rules.TabThickness;
        Assert.NotEmpty(stops.Outline);
        Assert.All(stops.Outline, s => Assert.InRange(s.StrengthN, 0, whole));
        double all = stops.Outline.Sum(s => s.StrengthN);
        double reach = stops.Outline.Max(s => s.At.DistanceTo(job.LocatorPins[0]));
        double onSlot = all * reach / 215;
        Assert.True(onSlot <= stops.Before[1].StrengthN * (1 + 1e-9));
        Assert.True(all + onSlot <= stops.Before[0].StrengthN * (1 + 1e-9));
    }

    [Fact]
    public void Without_the_sheets_strength_no_stop_counts()
    {
        Job job = Job(1.5);
        job = job with
        {
            Locator = LocatorKind.Pins,
            LocatorPins = [new Point2(20, 107), new Point2(235, 107)],
            ShellMaterial = job.ShellMaterial with { Sheet = null },
        };
        StopSet stops = Stops.Find(HeldDesigns.Of(HeldDesigns.Plain, job), job);
        Assert.Empty(stops.Before);
        Assert.Empty(stops.Outline);
        Assert.Equal(0, stops.ShiftMm);
    }
}
