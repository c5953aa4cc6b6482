using System.Collections.Immutable;
using CsCheck;
using FixtureGen.Geometry;
using FixtureGen.Holding;
using FixtureGen.Holding.Sliding;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

/// <summary>Laws that any honest answer keeps, on random rounded rectangles with random magnets.</summary>
public sealed class HoldingLawsTest
{
    private static readonly Job Shop = HeldDesigns.Job();

    private sealed record Case(double Width, double Height, ImmutableArray<Point2> Magnets)
    {
        public Part Part => HeldDesigns.Part(Contours.RoundedRectangle(new Box2(30, 30, 30 + Width, 30 + Height), 14));
    }

    private static Gen<Case> Cases { get; } =
        Gen.Select(
            Gen.Double[90, 170],
            Gen.Double[70, 150],
            Gen.Double[0.3, 0.7].Array[6],
            (w, h, at) =>
                new Case(
                    w,
                    h,
                    [
                        .. Enumerable
                            .Range(0, 3)
                            .Select(i => new Point2(30 + (w * at[2 * i]), 30 + (h * at[(2 * i) + 1]))),
                    ]
                )
        );

    private static HoldingResult Of(Case c, Job job) =>
        HeldDesigns.Hold(HeldDesigns.Of(c.Part, job, true, [.. c.Magnets]), job);

    [Fact]
    [Trait("Speed", "Slow")]
    public void Doubling_pressure_doubles_the_gross_force() =>
        Cases.Sample(
            c =>
            {
                HoldingResult one = Of(c, WithAlarm(25));
                HoldingResult two = Of(c, WithAlarm(50));
                return Close(two.SealedForceN, 2 * one.SealedForceN, 1e-12) && one.GasketForceN == two.GasketForceN;
            },
            iter: 8
        );

    [Fact]
    [Trait("Speed", "Slow")]
    public void More_pressure_or_friction_and_less_feed_never_hold_worse() =>
        Cases.Sample(
            c =>
            {
                HoldingResult plain = Of(c, Shop);
                double vacuum = plain.VacuumOnly.Factor;
                Job slower = Shop with { TrimFeedMmPerMin = 400, TrimRpm = 18000 };
                Job slowest = slower with { TrimFeedMmPerMin = 300 };
                return Of(c, WithAlarm(Shop.Vacuum.AlarmKPa + 5)).VacuumOnly.Factor >= vacuum
                    && Of(c, Shop with { ShellFriction = 0.3 }).VacuumOnly.Factor >= vacuum
                    && Of(c, slowest).VacuumOnly.Factor >= Of(c, slower).VacuumOnly.Factor;
            },
            iter: 5
        );

    // Load and feed are in proportion, so three quarters of the feed is four thirds of the factor, lift and all.
    [Fact]
    [Trait("Speed", "Slow")]
    public void Factor_is_inversely_proportional_to_the_load() =>
        Cases.Sample(
            c =>
            {
                Job slower = Shop with { TrimFeedMmPerMin = 800, TrimRpm = 18000 };
                double four = Of(c, slower).VacuumOnly.Factor;
                double three = Of(c, slower with { TrimFeedMmPerMin = 600 }).VacuumOnly.Factor;
                return Close(three, four * 4 / 3, 1e-3);
            },
            iter: 5
        );

    [Fact]
    public void A_magnet_more_well_inside_never_holds_worse() =>
        Cases.Sample(
            c =>
            {
                FixtureDesign design = HeldDesigns.Of(c.Part, Shop);
                HoldingContext context = HoldingAnalysis.Context(design, Shop, Tolerances.House).Value!;
                Point2 middle = new(30 + (c.Width / 2), 30 + (c.Height / 2));
                ImmutableArray<MagnetPlace> few = Places(
                    middle + new Point2(c.Width / 5, 0),
                    middle - new Point2(c.Width / 5, 0)
                );
                ImmutableArray<MagnetPlace> more = few.Add(new MagnetPlace(middle, false, false));
                HoldingResult a = context.Evaluate(few);
                HoldingResult b = context.Evaluate(more);
                return b.MagnetsStopping.Factor >= a.MagnetsStopping.Factor * (1 - 1e-3)
                    && b.Both.Factor >= a.Both.Factor * (1 - 1e-3);
            },
            iter: 10
        );

    [Fact]
    [Trait("Speed", "Slow")]
    public void Together_is_never_below_either() =>
        Cases.Sample(
            c =>
            {
                HoldingResult r = Of(c, Shop);
                return r.Both.Factor >= r.VacuumOnly.Factor && r.Both.Factor >= r.MagnetsOnly.Factor;
            },
            iter: 10
        );

    [Fact]
    [Trait("Speed", "Slow")]
    public void Turned_twin_holds_as_well() =>
        Gen.Select(Cases, Gen.Double[5, 85])
            .Sample(
                (c, degrees) =>
                    Same(
                        Of(c, Shop),
                        Twin(c, p => Turn(p, degrees), contour => Transform.Apply(new Pose(0, 0, degrees), contour))
                    ),
                iter: 6
            );

    [Fact]
    [Trait("Speed", "Slow")]
    public void Shifted_twin_holds_exactly_as_well() =>
        Cases.Sample(
            c =>
            {
                Pose shift = new(12.3, -4.5, 0);
                return Same(Of(c, Shop), Twin(c, p => Transform.Apply(shift, p), o => Transform.Apply(shift, o)), 1e-3);
            },
            iter: 5
        );

    // An inch drawing comes in multiplied by 25.4 with its last bits another.
    [Fact]
    [Trait("Speed", "Slow")]
    public void Inch_twin_holds_exactly_as_well() =>
        Cases.Sample(
            c =>
            {
                static Point2 There(Point2 p) => new(p.X / 25.4 * 25.4, p.Y / 25.4 * 25.4);
                return Same(
                    Of(c, Shop),
                    Twin(
                        c,
                        There,
                        o => new Contour([
                            .. o.Segments.Select(s =>
                                s.IsArc
                                    ? Segment.Arc(There(s.Start), There(s.End), There(s.Centre), s.IsCcw)
                                    : Segment.Line(There(s.Start), There(s.End))
                            ),
                        ])
                    ),
                    1e-3
                );
            },
            iter: 3
        );

    // The mirrored part with the mirrored load; a mirrored part on the machine is cut with the same spindle, so its load is not.
    [Fact]
    public void Mirrored_load_on_the_mirrored_contact_holds_as_well() =>
        Gen.Select(Gen.Double[-60, 60], Gen.Double[-40, 40], Gen.Double[-Math.PI, Math.PI], Gen.Double[-2, 4])
            .Sample(
                (x, y, direction, lift) =>
                {
                    CutLoad load = new(
                        new Point2(x, y),
                        new Point2(Math.Cos(direction), Math.Sin(direction)) * 9,
                        lift,
                        1
                    );
                    CutLoad mirrored = load with { At = new(-x, y), Shear = new(-load.Shear.X, load.Shear.Y) };
                    double one = LimitState.Solve(Ell(1), load, default).Factor;
                    double two = LimitState.Solve(Ell(-1), mirrored, default).Factor;
                    return Close(one, two, 1e-4);
                },
                iter: 100
            );

    private static HeldPart Ell(double side)
    {
        Point2[] corners = [new(-60, -40), new(60, -40), new(60, 0), new(10, 0), new(10, 40), new(-60, 40)];
        Contour outline =
            side > 0
                ? Outlines.Polygon(corners)
                : Outlines.Polygon([.. corners.Reverse().Select(p => new Point2(-p.X, p.Y))]);
        PressPoint magnet = new(new Point2(20 * side, -15), 30, 6, 0.25);
        PressureMeasure area = new(ContactQuadrature.OverArea([Region.From(outline)], 150));
        return new HeldPart(area, 0.2, 300, default, [magnet], ConvexHull.Around([outline]));
    }

    /// <summary>A larger moment arm at a fixed direction of the load never raises the multiplier.</summary>
    [Fact]
    public void A_larger_arm_never_holds_better() =>
        Gen.Select(Gen.Double[-Math.PI, Math.PI], Gen.Double[0, 80], Gen.Double[0, 40])
            .Sample(
                (direction, arm, more) =>
                {
                    Point2 force = new(10 * Math.Cos(direction), 10 * Math.Sin(direction));
                    Point2 across = force.Left * (1 / force.Length);
                    HeldPart held = Rectangle;
                    double near = LimitState.Solve(held, new CutLoad(across * arm, force, 0, 0), default).Factor;
                    double far = LimitState
                        .Solve(held, new CutLoad(across * (arm + more), force, 0, 0), default)
                        .Factor;
                    return far <= near * (1 + 1e-5);
                },
                iter: 300
            );

    [Fact]
    public void Lift_takes_friction_away_before_anything_lifts() =>
        Gen.Select(Gen.Double[-60, 60], Gen.Double[-40, 40], Gen.Double[0, 6])
            .Sample(
                (x, y, lift) =>
                {
                    HeldPart held = Rectangle;
                    CutLoad level = new(new Point2(x, y), new Point2(8, 3), 0, 0);
                    double without = LimitState.Solve(held, level, default).Factor;
                    LimitAnswer with = LimitState.Solve(held, level with { Lift = lift }, default);
                    double lifts = lift > 0 ? held.Total / lift : LimitState.Most;
                    return with.Factor <= without * (1 + 1e-5) && with.Factor <= lifts * (1 + 1e-9);
                },
                iter: 300
            );

    private static HeldPart Rectangle { get; } =
        new(
            new PressureMeasure(ContactQuadrature.OverArea([Region.From(Outlines.Rectangle(-60, -40, 120, 80))], 120)),
            0.2,
            500,
            default,
            [],
            [new(-60, -40), new(60, -40), new(60, 40), new(-60, 40)]
        );

    private static HoldingResult Twin(Case c, Func<Point2, Point2> move, Func<Contour, Contour> moved)
    {
        Part part = HeldDesigns.Part(moved(c.Part.Outer));
        return HeldDesigns.Hold(HeldDesigns.Of(part, Shop, true, [.. c.Magnets.Select(move)]), Shop);
    }

    private static Point2 Turn(Point2 p, double degrees) => Transform.Apply(new Pose(0, 0, degrees), p);

    private static bool Same(HoldingResult a, HoldingResult b, double within = 1e-3) =>
        Close(a.VacuumOnly.Factor, b.VacuumOnly.Factor, within)
        && Close(a.MagnetsStopping.Factor, b.MagnetsStopping.Factor, within)
        && Close(a.Both.Factor, b.Both.Factor, within);

    private static bool Close(double a, double b, double within) =>
        Math.Abs(a - b) <= within * Math.Max(1, Math.Abs(b));

    private static ImmutableArray<MagnetPlace> Places(params Point2[] at) =>
        [.. at.Select(p => new MagnetPlace(p, false, false))];

    private static Job WithAlarm(double kPa) =>
        Shop with
        {
            Vacuum = Shop.Vacuum with { AlarmKPa = kPa, PumpRatedKPa = 100 },
        };
}
