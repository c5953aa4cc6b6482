using CsCheck;
using FixtureGen.Holding.Sliding;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

/// <summary>
/// The upper bound theorem of limit analysis (Drucker, Prager and Greenberg, Q. Appl. Math. 9 (1952) 381), with the pressure
/// that the load leaves: no mechanism tells less than the multiplier of <see cref="LimitState"/>, and its own tells just that.
/// </summary>
public sealed class MechanismTest
{
    private static readonly Contour Outline = Outlines.Polygon([
        new(-60, -40),
        new(60, -40),
        new(60, 0),
        new(10, 0),
        new(10, 40),
        new(-60, 40),
    ]);

    private static readonly PressureMeasure Area = new(ContactQuadrature.OverArea([Region.From(Outline)], 150));

    private static HeldPart Held(double push, double tilt, double atX, double grip) =>
        new(
            Area,
            0.2,
            push,
            new Point2(tilt * push, -tilt * push / 2),
            [new PressPoint(new Point2(atX, -15), 30, grip, 0.25)],
            ConvexHull.Around([Outline])
        );

    private static Gen<CutLoad> Load { get; } =
        Gen.Select(
            Gen.Double[-60, 60],
            Gen.Double[-40, 40],
            Gen.Double[-Math.PI, Math.PI],
            Gen.Double[-3, 6],
            (x, y, direction, lift) =>
                new CutLoad(new Point2(x, y), new Point2(Math.Cos(direction), Math.Sin(direction)) * 9, lift, 1.5)
        );

    private static Gen<HeldPart> Part { get; } =
        Gen.Select(Gen.Double[20, 400], Gen.Double[-25, 25], Gen.Double[-50, 50], Gen.Double[0, 20], Held);

    [Fact]
    public void A_part_holds_no_more_than_any_mechanism_tells() =>
        Gen.Select(Part, Load, Gen.Double[-1, 1], Gen.Double[-1, 1], Gen.Double[-1, 1], Gen.Double[0.1, 12])
            .Sample(
                (held, load, x, y, turn, factor) =>
                {
                    Mechanism way = new(held.Nodes, new Twist(x, y, turn));
                    return !way.Breaks(held, load, factor)
                        || LimitState.Solve(held, load, default).Factor <= factor * (1 + 2e-3);
                },
                iter: 3000
            );

    [Fact]
    public void The_mechanism_found_tells_the_multiplier_whatever_the_points_were()
    {
        int slid = 0;
        Gen.Select(Part, Load)
            .Sample(
                (held, load) =>
                {
                    LimitAnswer answer = LimitState.Solve(held, load, default);
                    if (answer.Mode != HoldMode.Slide || answer.Factor >= LimitState.Most)
                    {
                        return true;
                    }
                    slid++;
                    Mechanism way = new(new HeldPart(held, 50, default, []).Nodes, answer.Twist);
                    return way.Breaks(held, load, answer.Factor * 1.005)
                        && !way.Breaks(held, load, answer.Factor * 0.995);
                },
                iter: 1000,
                threads: 1
            );
        Assert.True(slid > 200, $"only {slid.ToString(System.Globalization.CultureInfo.InvariantCulture)} slid");
    }

    // Without lift the force stays and only its place changes; high up the pressure is gone from a part of the contact.
    [Fact]
    public void An_overturning_alone_moves_the_pressure_and_the_mechanism_still_tells_the_multiplier() =>
        Gen.Select(Part, Load, Gen.Double[1, 25])
            .Sample(
                (held, load, height) =>
                {
                    CutLoad level = load with { Lift = 0, Height = height };
                    LimitAnswer answer = LimitState.Solve(held, level, default);
                    if (answer.Mode != HoldMode.Slide || answer.Factor >= LimitState.Most)
                    {
                        return true;
                    }
                    Mechanism way = new(held.Nodes, answer.Twist);
                    return way.Breaks(held, level, answer.Factor * 1.005)
                        && !way.Breaks(held, level, answer.Factor * 0.995);
                },
                iter: 1000
            );
}
