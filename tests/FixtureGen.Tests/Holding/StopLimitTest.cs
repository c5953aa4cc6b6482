using CsCheck;
using FixtureGen.Geometry;
using FixtureGen.Holding.Sliding;
using FixtureGen.Holding.Stopping;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

/// <summary>
/// The load at which a part leaning on stops gives way. Worked cases by hand from the mean distance to a centre of turning
/// (planar friction: Goyal, Ruina, Papadopoulos, Wear 143, 1991); the same programme solved another way, by sections; and the
/// static theorem: tractions and stop forces of the answer are in equilibrium with the load.
/// </summary>
public sealed class StopLimitTest
{
    private const double Strong = 1e6;

    private static HeldPart Disc()
    {
        Region area = Region.From(Contours.Circle(default, 1000));
        return new HeldPart(
            new PressureMeasure(ContactQuadrature.OverArea([area], 900)),
            1,
            1,
            default,
            [],
            ConvexHull.Around([area.Outer])
        );
    }

    private static HeldPart Rectangle(int pieces = 900)
    {
        Region area = Region.From(Contours.Rectangle(new Box2(0, 0, 100, 60)));
        return new HeldPart(
            new PressureMeasure(ContactQuadrature.OverArea([area], pieces)),
            1,
            60,
            default,
            [],
            ConvexHull.Around([area.Outer])
        );
    }

    private static ShellStop Wall(double x, double y, double nx, double ny, double strength = Strong) =>
        new(StopKind.Wall, "stop", new Point2(x, y), new Point2(nx, ny), 0, strength);

    private static LimitAnswer Solve(HeldPart held, CutLoad load, params ShellStop[] stops) =>
        StopLimit.Solve(held, new StopGrips(stops, held.Nodes), load, 0);

    // The pin keeps the middle from moving to +x, so the disc turns about itself: F R = (2/3) mu N R.
    [Fact]
    public void A_disc_pushed_at_its_rim_against_one_pin_holds_two_thirds_of_its_friction()
    {
        CutLoad load = new(new Point2(0, 1000), new Point2(1, 0), 0, 0);
        Assert.Equal(0.52579, Solve(Disc(), load).Factor, 3e-3);
        LimitAnswer pinned = Solve(Disc(), load, Wall(1000, 0, -1, 0));
        Assert.Equal(2.0 / 3, pinned.Factor, 3e-3);
        Assert.Equal(HoldMode.Slide, pinned.Mode);
    }

    // By hand: about the pin at 80 the mean distance of the rectangle is 39.64883 mm, the load's arm 20 mm.
    [Theory]
    [InlineData(0, -1, 29.650, 118.946)]
    [InlineData(1, 0, 42.185, 48.205)]
    public void A_rectangle_against_two_pins_holds_what_turning_about_them_takes(
        double fx,
        double fy,
        double free,
        double pinned
    )
    {
        CutLoad load = new(new Point2(100, 60), new Point2(fx, fy), 0, 0);
        Assert.Equal(free, Solve(Rectangle(), load).Factor, 5e-3 * free);
        LimitAnswer two = Solve(Rectangle(), load, Wall(20, 0, 0, 1), Wall(80, 0, 0, 1));
        Assert.Equal(pinned, two.Factor, 5e-3 * pinned);
        double last = Solve(Rectangle(), load, Wall(80, 0, 0, 1)).Factor;
        Assert.Equal(two.Factor, last, 5e-3 * pinned);
        double third = Solve(Rectangle(), load, Wall(20, 0, 0, 1), Wall(80, 0, 0, 1), Wall(0, 30, 1, 0)).Factor;
        Assert.Equal(two.Factor, third, 5e-3 * pinned);
    }

    [Fact]
    public void A_load_straight_on_a_stop_is_borne_up_to_the_stops_strength_and_all_friction()
    {
        CutLoad load = new(new Point2(50, 0), new Point2(0, -1), 0, 0);
        LimitAnswer answer = Solve(Rectangle(), load, Wall(50, 0, 0, 1, 400));
        Assert.Equal(460, answer.Factor, 3);
    }

    // A round hole holds every way, a slot only across it: along the slot friction alone is left.
    [Fact]
    public void A_hole_and_a_slot_hold_what_their_edges_bear()
    {
        ShellStop hole = new(StopKind.Pin, "hole", new Point2(0, 30), default, 0.1, 200);
        ShellStop slot = new(StopKind.Slot, "slot", new Point2(100, 30), new Point2(0, 1), 0.1, 200);
        CutLoad along = new(new Point2(50, 30), new Point2(1, 0), 0, 0);
        CutLoad across = new(new Point2(50, 30), new Point2(0, 1), 0, 0);
        Assert.Equal(260, Solve(Rectangle(), along, hole, slot).Factor, 2);
        Assert.Equal(60, Solve(Rectangle(), along, slot).Factor, 0.5);
        Assert.Equal(460, Solve(Rectangle(), across, hole, slot).Factor, 3);
        // the far end against the hole alone: the part turns about it
        CutLoad end = new(new Point2(100, 30), new Point2(0, 1), 0, 0);
        double about = 60 * MeanDistance(new Point2(0, 30)) / 100;
        Assert.Equal(about, Solve(Rectangle(), end, hole).Factor, 5e-3 * about);
    }

    private static Gen<(CutLoad Load, ShellStop[] Stops)> Cases { get; } =
        Gen.Select(
            Gen.Double[0, 100],
            Gen.Double[0, 60],
            Gen.Double[0, 2 * Math.PI],
            Gen.Double[0, 0.3],
            Gen.Select(
                Gen.Int[0, 2],
                Gen.Double[-10, 110],
                Gen.Double[-10, 70],
                Gen.Double[0, 6.28],
                Gen.Double[5, 300]
            ).Array[1, 5],
            (x, y, angle, lift, stops) =>
                (
                    new CutLoad(new Point2(x, y), new Point2(Math.Cos(angle), Math.Sin(angle)), lift, 1),
                    stops
                        .Select(s => new ShellStop(
                            s.Item1 == 0 ? StopKind.Pin
                                : s.Item1 == 1 ? StopKind.Slot
                                : StopKind.Wall,
                            "stop",
                            new Point2(s.Item2, s.Item3),
                            s.Item1 == 0 ? default : new Point2(Math.Cos(s.Item4), Math.Sin(s.Item4)),
                            0,
                            s.Item5
                        ))
                        .ToArray()
                )
        );

    // The same convex programme by golden sections within golden sections, which shares nothing but the power itself.
    [Fact]
    public void The_answer_is_the_least_power_that_sections_find_and_never_above_it()
    {
        HeldPart held = Rectangle(100);
        Cases.Sample(
            c =>
            {
                LimitAnswer answer = Solve(held, c.Load, c.Stops);
                double power = BySections(held, c.Load, c.Stops, answer.Factor);
                bool right =
                    answer.Mode is HoldMode.Lift or HoldMode.Tip
                    || (answer.Factor <= power * (1 + 1e-6) && answer.Factor >= power * (1 - 1e-2) - 1e-6);
                Assert.True(right, FormattableString.Invariant($"{answer.Factor} for {power}"));
                return right;
            },
            iter: LongRun.Cases(25)
        );
    }

    [Fact]
    public void A_stop_more_or_a_stronger_one_never_holds_worse()
    {
        HeldPart held = Rectangle(100);
        Cases.Sample(
            c =>
            {
                double all = Solve(held, c.Load, c.Stops).Factor;
                double fewer = Solve(held, c.Load, c.Stops[1..]).Factor;
                double stronger = Solve(
                    held,
                    c.Load,
                    [.. c.Stops.Select(s => s with { StrengthN = 1.5 * s.StrengthN })]
                ).Factor;
                return all >= fewer * (1 - 6e-3) && stronger >= all * (1 - 6e-3);
            },
            iter: 200
        );
    }

    private static double MeanDistance(Point2 from) =>
        Enumerable
            .Range(0, 200)
            .SelectMany(i => Enumerable.Range(0, 120).Select(j => new Point2((i + 0.5) / 2, (j + 0.5) / 2)))
            .Average(p => p.DistanceTo(from));

    private static double BySections(HeldPart held, CutLoad load, ShellStop[] stops, double at)
    {
        Twist work = held.Nodes.Work(load);
        double size = work.Length;
        Twist unit = work * (1 / size);
        Twist other = Math.Abs(unit.Turn) < 0.7 ? new Twist(0, 0, 1) : new Twist(1, 0, 0);
        Twist b1 = unit.Cross(other) * (1 / unit.Cross(other).Length);
        Twist b2 = unit.Cross(b1);
        LoadedPressure loaded = new(held, load);
        Pressure p = loaded.PressureAt(at);
        StopGrips grips = new(stops, held.Nodes);
        double Power(double x, double y)
        {
            Twist w = (unit + (b1 * x) + (b2 * y)) * (1 / size);
            return held.Nodes.PowerAt(w, p.Force, p.Slope, p.Rescale, p.PointScale, 0, default).Value
                + grips.Power(w).Value;
        }
        return Golden(x => Golden(y => Power(x, y)));
    }

    /// <summary>The least value of a convex function between -200 and 200, on a scale that is fine about 0.</summary>
    private static double Golden(Func<double, double> f)
    {
        double ratio = (Math.Sqrt(5) - 1) / 2;
        double Wide(double u) => Math.Sinh(u);
        double a = -6;
        double b = 6;
        double c = b - (ratio * (b - a));
        double d = a + (ratio * (b - a));
        (double fc, double fd) = (f(Wide(c)), f(Wide(d)));
        for (int i = 0; i < 44; i++)
        {
            if (fc < fd)
            {
                (b, d, fd) = (d, c, fc);
                c = b - (ratio * (b - a));
                fc = f(Wide(c));
            }
            else
            {
                (a, c, fc) = (c, d, fd);
                d = a + (ratio * (b - a));
                fd = f(Wide(d));
            }
        }
        return Math.Min(fc, fd);
    }
}
