using FixtureGen.Model;
using FixtureGen.Verify.Holding;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Tests.Support;
using Xunit;

namespace FixtureGen.Verify.Tests.Holding;

/// <summary>
/// The judge's own sliding against the closed forms of planar friction (Goyal, Ruina and Papadopoulos, Wear 143 (1991) 307-330):
/// disc, ring, rod, two points, pure torques, and a rectangle worked by cells. A stress field in equilibrium bounds each answer
/// from below.
/// </summary>
public sealed class SlidingTest
{
    private const double R = 50;

    private static Held Disc { get; } = Area(TestShop.Circle(0, 0, R));

    private static Held Ring { get; } = Line(TestShop.Circle(0, 0, R));

    private static Held Plate { get; } =
        new(
            new Bed(Patches.OverArea([Region.From(TestShop.Rectangle(-76.2, -50.8, 76.2, 50.8))], 300)),
            0.2,
            1048.7,
            default,
            [],
            []
        );

    [Theory]
    [InlineData(0.10, 0.98088, 0.99022)]
    [InlineData(0.25, 0.90186, 0.94497)]
    [InlineData(0.5, 0.74830, 0.83377)]
    [InlineData(1, 0.52579, 0.63662)]
    [InlineData(1.5, 0.39256, 0.50661)]
    [InlineData(2, 0.30927, 0.41689)]
    [InlineData(3, 0.21453, 0.30336)]
    public void A_force_beside_the_middle(double aside, double disc, double ring)
    {
        Load load = new(new Point2(aside * R, 0), new Point2(0, 1), 0, 0);
        Assert.Equal(disc, Factor(Disc, load), 1e-3);
        Assert.Equal(ring, Factor(Ring, load), 1e-3);
    }

    // at an instantaneous centre d/R the force f and the moment m of the limit curve
    [Theory]
    [InlineData(0.25, 0.12600, 0.98419, 0.24803, 0.63579)]
    [InlineData(0.5, 0.25866, 0.93422, 0.48384, 0.54775)]
    [InlineData(0.653, 0.34753, 0.88287, 0.61603, 0.47169)]
    [InlineData(1, 0.63662, 0.63662, 0.84883, 0.28294)]
    [InlineData(2, 0.93422, 0.25866, 0.96769, 0.12781)]
    [InlineData(5, 0.98992, 0.10051, 0.99497, 0.05017)]
    public void The_limit_curve_with_its_centre(double centre, double ringF, double ringM, double discF, double discM)
    {
        foreach ((Held held, double f, double m) in new[] { (Ring, ringF, ringM), (Disc, discF, discM) })
        {
            Load load = new(new Point2(m / f * R, 0), new Point2(0, f), 0, 0);
            SlideAnswer answer = Sliding.Solve(held, load, default);
            Assert.Equal(1, answer.Factor, 1e-3);
            Assert.Equal(-centre * R, -answer.Motion.Y / answer.Motion.Turn, 0.03 * R * Math.Max(1, centre));
        }
    }

    [Fact]
    public void Pure_torques()
    {
        Assert.Equal(2.0 / 3 * R, Torque(Disc), 0.02);
        Assert.Equal(R, Torque(Ring), 0.02);
        Assert.Equal(0.382598 * R, Torque(Area(TestShop.Rectangle(0, 0, R, R))), 0.02);
        Assert.Equal(0.593233 * R, Torque(Area(TestShop.Rectangle(0, 0, 2 * R, R))), 0.02);
        Assert.Equal(0.573897 * R, Torque(Line(TestShop.Rectangle(0, 0, R, R))), 0.02);
        Assert.Equal(R / 4, Torque(Rod), 0.02);
    }

    [Theory]
    [InlineData(0.25, 0.234375)]
    [InlineData(0.5, 0.1875)]
    [InlineData(0.75, 0.109375)]
    public void A_rod(double force, double moment)
    {
        Load load = new(new Point2(moment / force * R, 0), new Point2(0, force), 0, 0);
        Assert.Equal(1, Factor(Rod, load), 2e-3);
    }

    [Theory]
    [InlineData(0, 1)]
    [InlineData(0.5, 0.66667)]
    [InlineData(1, 0.5)]
    [InlineData(2, 0.33333)]
    [InlineData(3, 0.25)]
    public void Two_points(double aside, double factor)
    {
        Held pair = Pressed([new Patch(new(-R, 0), 1, 0), new Patch(new(R, 0), 1, 0)]);
        Assert.Equal(factor, Factor(pair, new Load(new Point2(aside * R, 0), new Point2(0, 1), 0, 0)), 1e-3);
        Assert.Equal(1, Factor(pair, new Load(new Point2(aside * R, 0), new Point2(1, 0), 0, 0)), 1e-3);
    }

    // 6 x 4 in at 20 inHg, friction 0.2, 36 N at the corner (3, 2) in; 60 x 40 cells
    [Theory]
    [InlineData(0, 3.920)]
    [InlineData(30, 5.766)]
    [InlineData(60, 4.149)]
    [InlineData(90, 2.955)]
    [InlineData(120, 2.629)]
    [InlineData(150, 2.884)]
    public void A_plate_pushed_at_its_corner(double direction, double factor) =>
        Assert.Equal(factor, Factor(Plate, Corner(direction * Math.PI / 180)), 0.003);

    [Fact]
    public void A_plate_pushed_across_its_diagonal_turns_about_a_known_centre()
    {
        SlideAnswer answer = Sliding.Solve(Plate, Corner(Math.Atan2(3, -2)), default);
        Assert.Equal(2.629, answer.Factor, 0.002);
        Assert.Equal(-1.230, -answer.Motion.Y / answer.Motion.Turn / 25.4, 0.03);
        Assert.Equal(-0.661, answer.Motion.X / answer.Motion.Turn / 25.4, 0.03);
    }

    /// <summary>The lower bound theorem: the last pass made small enough to be allowed is safe, and it is close.</summary>
    [Fact]
    public void Statics_bounds_every_answer_closely_from_below()
    {
        for (int degrees = 0; degrees < 360; degrees += 7)
        {
            Load load = Corner(degrees * Math.PI / 180);
            SlideAnswer answer = Sliding.Solve(Plate, load, default);
            double lower = Sliding.Lower(Plate, load, answer.Motion);
            Assert.InRange(lower, 0.97 * answer.Factor, answer.Factor * (1 + 1e-6));
        }
    }

    // a frictionless pin that is as strong as may be makes the disc turn about itself: 2/3 in place of 0.52579
    [Fact]
    public void A_disc_against_a_strong_pin()
    {
        Held held = new(Disc.Bed, 1, 1, default, [new Grip(new Point2(R, 0), 0, 20, new Point2(1, 0))], []);
        Load load = new(new Point2(0, R), new Point2(1, 0), 0, 0);
        Assert.Equal(2.0 / 3, Factor(held, load), 2e-3);
    }

    // 100 x 60 mm, friction times force 60 N, pins at (20, 0) and (80, 0) that push +y: tips about the one at 80
    [Theory]
    [InlineData(0, -1, 118.946)]
    [InlineData(1, 0, 48.205)]
    public void A_plate_against_two_pins(double x, double y, double force)
    {
        Bed bed = new(Patches.OverArea([Region.From(TestShop.Rectangle(0, 0, 100, 60))], 400));
        Grip pin = new(new Point2(80, 0), 0, 1000, new Point2(0, 1));
        Held held = new(bed, 1, 60, default, [pin], []);
        Assert.Equal(force, Factor(held, new Load(new Point2(100, 60), new Point2(x, y), 0, 0)), 0.005 * force);
    }

    [Fact]
    public void Weak_stops_add_at_most_their_strength()
    {
        Held held = new(Disc.Bed, 1, 1, default, [new Grip(default, 0, 0.5, default)], []);
        Assert.Equal(1.5, Factor(held, new Load(default, new Point2(0, 1), 0, 0)), 2e-3);
    }

    // 10 N on a plate of 100 x 100: a lift at the middle takes 10 N; at the edge the plate tips about the other one at 5 N
    [Fact]
    public void Lifting_and_tipping()
    {
        Contour edge = TestShop.Rectangle(0, 0, 100, 100);
        Held held = new(new Bed(Patches.OverArea([Region.From(edge)], 100)), 1, 10, default, [], Hull.Around([edge]));
        (double lift, HoldMode lifts) = Sliding.TipOrLift(held, new Load(new Point2(50, 50), default, 1, 0));
        Assert.Equal((10, HoldMode.Lift), (Math.Round(lift, 6), lifts));
        (double tip, HoldMode tips) = Sliding.TipOrLift(held, new Load(new Point2(100, 50), default, 1, 0));
        Assert.Equal((5, HoldMode.Tip), (Math.Round(tip, 6), tips));
        (double over, _) = Sliding.TipOrLift(held, new Load(new Point2(50, 50), new Point2(1, 0), 0, 20));
        Assert.Equal(25, over, 1e-6);
    }

    /// <summary>A lift at the middle takes its friction away: F mu / (1 + mu l) of a shear of 1 N with a lift of l.</summary>
    [Fact]
    public void Lift_takes_friction_away()
    {
        Held held = new(Disc.Bed, 0.5, 100, default, [], []);
        Assert.Equal(50 / 1.3, Factor(held, new Load(default, new Point2(1, 0), 0.6, 0)), 0.02);
    }

    private static Load Corner(double angle) =>
        new(new Point2(76.2, 50.8), new Point2(36 * Math.Cos(angle), 36 * Math.Sin(angle)), 0, 0);

    private static Held Rod { get; } =
        Pressed([
            .. Enumerable
                .Range(0, 400)
                .Select(i => new Patch(new((-0.5 + ((i + 0.5) / 400)) * R, 0), 1, R * R / 160_000 / 12)),
        ]);

    private static double Torque(Held held)
    {
        const double Arm = 1e6;
        return Factor(held, new Load(held.Bed.Middle + new Point2(Arm, 0), new Point2(0, 1 / Arm), 0, 0));
    }

    private static Held Area(Contour edge) => Pressed(Patches.OverArea([Region.From(edge)], 300));

    private static Held Line(Contour line) => Pressed(Patches.AlongLines([line], 2));

    private static Held Pressed(Patch[] patches) => new(new Bed(patches), 1, 1, default, [], []);

    private static double Factor(Held held, Load load) => Sliding.Solve(held, load, default).Factor;
}
