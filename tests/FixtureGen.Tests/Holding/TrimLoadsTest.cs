using CsCheck;
using FixtureGen.Cutting;
using FixtureGen.Holding.Sliding;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

/// <summary>Steps along a trim, and the edge position that is worst for a part that begins to slide.</summary>
public sealed class TrimLoadsTest
{
    private static readonly PressureMeasure Contact = new(
        ContactQuadrature.OverArea([Region.From(Outlines.Rectangle(-60, -40, 120, 80))], 60)
    );

    // The load's power at an edge position, and the friction that its lift takes away there, tried at every thousandth.
    [Fact]
    public void The_worst_edge_position_is_the_best_of_all_that_are_tried() =>
        Gen.Select(
                Gen.Double[-60, 60],
                Gen.Double[-40, 40],
                Gen.Double[-Math.PI, Math.PI],
                Gen.Double[-Math.PI, Math.PI],
                Gen.Double[-1, 1],
                Gen.Double[-0.5, 0],
                Gen.Double[-0.5, 0.5]
            )
            .Sample(
                (x, y, travels, slides, turn, perLoad, solvedAt) =>
                {
                    Point2 travel = new(Math.Cos(travels), Math.Sin(travels));
                    TrimWork work = new("outline", new CutForce(10, 5, 2, 0.1), 1, 0);
                    TrimLoads loads = new([work], [new TrimStep(0, 0, new Point2(x, y), travel)], 3);
                    FrictionNodes nodes = new(Contact, 0.2, []);
                    Twist twist = new Twist(Math.Cos(slides), Math.Sin(slides), turn) * 0.1;
                    LimitAnswer answer = new(1, HoldMode.Slide, twist, perLoad);

                    double worst = loads.WorstAngle(0, nodes, answer, solvedAt);

                    double best = Enumerable.Range(-1200, 2401).Max(i => Power(i * 1e-3));
                    return Power(worst) >= best - (1e-3 * (1 + Math.Abs(best)));

                    double Power(double angle)
                    {
                        CutLoad load = loads.Load(0, angle);
                        Point2 arm = (load.At - nodes.Middle) * (1 / nodes.Scale);
                        Point2 v = new Point2(twist.X, twist.Y) + (arm.Left * twist.Turn);
                        return v.Dot(load.Shear) - (perLoad / Math.Cos(solvedAt) * Math.Cos(angle));
                    }
                },
                iter: 300
            );

    [Fact]
    public void A_step_stands_in_the_middle_of_its_piece_of_the_cut()
    {
        double along = 2;
        List<TrimStep> steps = [];
        Segment arc = Segment.Arc(new(10, 0), new(0, 10), default, ccw: true);

        TrimLoads.Walk([Segment.Line(default, new(10, 0)), arc], 4, 7, ref along, steps);

        Assert.Equal(12 + (5 * Math.PI), along, 1e-12);
        Assert.Equal(3 + 4, steps.Count);
        Assert.All(steps, s => Assert.Equal(7, s.Work));
        Assert.Equal(2 + (10.0 / 6), steps[0].Along, 1e-12);
        Assert.Equal(0, steps[2].At.DistanceTo(new(50.0 / 6, 0)), 1e-12);
        double eighth = Math.PI / 16;
        Assert.Equal(12 + (10 * eighth), steps[3].Along, 1e-9);
        Assert.Equal(0, steps[3].At.DistanceTo(new Point2(Math.Cos(eighth), Math.Sin(eighth)) * 10), 1e-9);
        Assert.Equal(0, steps[3].Travel.DistanceTo(new Point2(-Math.Sin(eighth), Math.Cos(eighth))), 1e-9);
    }

    [Fact]
    public void The_load_turns_with_the_edge_and_gets_lighter_with_the_chip()
    {
        TrimWork work = new("outline", new CutForce(10, 5, 2, 0.1), 1, 0);
        TrimLoads loads = new([work], [new TrimStep(0, 0, new Point2(3, 4), new Point2(0, 1))], 3);

        CutLoad front = loads.Load(0, 0);
        CutLoad aside = loads.Load(0, Math.PI / 3);

        // Travel is +y, so the edge moves right, +x, at the front and pushes outwards, +y.
        Assert.Equal(new CutLoad(new(3, 4), new(10, 5), 2, 3), front);
        Assert.Equal(0.5 * front.Shear.Length, aside.Shear.Length, 1e-12);
        Assert.Equal(1, aside.Lift, 1e-12);
    }
}
