using System.Collections.Immutable;
using FixtureGen.Cutting;
using FixtureGen.Geometry;
using FixtureGen.Holding.Block;
using FixtureGen.Holding.Seal;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

public sealed class BlockHoldingTest
{
    private static readonly Job Shop = HeldDesigns.Job();
    private static readonly FixtureDesign Plain = HeldDesigns.Of(HeldDesigns.Plain, Shop);

    private static FixtureDesign Bolted =>
        Plain with
        {
            Features = [.. Shop.Plate.Bolts.Select((b, i) => Hole(FormattableString.Invariant($"bolt {i}"), b.At))],
        };

    private static HoleFeature Hole(string name, Point2 at) =>
        new()
        {
            Name = name,
            Kind = FeatureKind.BoltHole,
            Setup = Setup.Top,
            At = at,
            Diameter = 7,
            TopZ = 19,
            FloorZ = 0,
            SlotLength = 0,
            SlotAngleDeg = 0,
            BreaksThrough = true,
            Opening = null,
            Removals = [],
        };

    private static Operation Clearing(double z = 17, double feed = 2400, double stepDown = 2)
    {
        Tool tool = Shop.Tools.First(t => t.Kind == ToolKind.EndMill && t.Diameter > 6);
        ImmutableArray<Move> moves =
        [
            new RapidMove(new Point3(60, 60, 40)),
            new LineMove(new Point3(60, 60, z), 400),
            new LineMove(new Point3(160, 60, z), feed),
            new LineMove(new Point3(160, 150, z), feed),
            new LineMove(new Point3(60, 60, z), feed),
            new RapidMove(new Point3(60, 60, 40)),
        ];
        return new()
        {
            Name = "clear",
            Kind = OperationKind.Clear,
            Tool = tool,
            SpindleRpm = 12000,
            FeedMmPerMin = feed,
            StepDown = stepDown,
            StepOver = 2.5,
            LimitedBy = "test",
            Features = [],
            BreaksPlateSeal = false,
            Moves = moves,
        };
    }

    private static BlockHold Of(
        Operation op,
        bool bolted,
        bool broken,
        Job? job = null,
        FixtureDesign? design = null
    ) => new BlockHolding(design ?? Plain, job ?? Shop).Evaluate([(op, bolted, broken)]).Value.Single();

    [Fact]
    public void Plate_vacuum_holds_below_plain_sliding_and_in_proportion()
    {
        BlockHold hold = Of(Clearing(), false, false);
        double area = Measure.Area(Contours.Ccw(Shop.Plate.SealLoop));
        double most =
            Shop.Vacuum.AlarmKPa * area / 1000 * Shop.Plate.FrictionBlockOnPlate / (hold.LoadN / Math.Sqrt(2));
        Assert.InRange(hold.Factor, 0.1, most);
        BlockHold half = Of(Clearing(feed: 1200), false, false);
        Assert.Equal(2 * hold.Factor, half.Factor, 0.01 * hold.Factor);
        Assert.False(hold.Bolted);
    }

    [Fact]
    public void A_higher_cut_tips_sooner_or_as_soon() =>
        Assert.True(Of(Clearing(z: 60), false, false).Factor <= Of(Clearing(z: 17), false, false).Factor);

    [Fact]
    public void Nothing_holds_once_the_seal_is_broken_until_the_bolts_are_in()
    {
        Stage<ImmutableArray<BlockHold>> loose = new BlockHolding(Bolted, Shop).Evaluate([(Clearing(), false, true)]);
        Assert.Equal(0, loose.Value.Single().Factor);
        Finding finding = loose.Findings.Single();
        Assert.Equal("block-hold-low", finding.Code);
        Assert.Equal(Severity.Error, finding.Severity);
        Assert.Contains("Bolt", finding.Remedy, StringComparison.Ordinal);
        Assert.True(Of(Clearing(), true, true, null, Bolted).Factor > 2);
    }

    [Fact]
    public void Bolts_are_asked_for_only_where_the_seal_is_broken_and_none_are_in()
    {
        BlockHold weak = new("slot", 1.2, HoldMode.Slide, false, 340);
        const string cutLess = "Use a smaller cutter, a shallower step or a slower feed, or bolt the block.";

        Finding loose = BlockHoldFindings.BlockLow(weak, sealBroken: true, 1.5);

        Assert.Equal(
            "Factor 1.20 of the block on the plate, 0.30 below 1.50, under 340 N; it would slide.",
            loose.Message
        );
        Assert.Equal("Bolt the block down before the plate's seal is broken.", loose.Remedy);
        Assert.Equal(cutLess, BlockHoldFindings.BlockLow(weak, sealBroken: false, 1.5).Remedy);
        Assert.Equal(cutLess, BlockHoldFindings.BlockLow(weak with { Bolted = true }, sealBroken: true, 1.5).Remedy);
    }

    [Fact]
    public void Bolts_add_to_the_vacuum() =>
        Assert.True(
            Of(Clearing(), true, false, null, Bolted).Factor > Of(Clearing(), false, false, null, Bolted).Factor
        );

    // 75 lbf in on a 1/4-20 screw at nut factor 0.20 is 1500 lbf (T = K D F); 70 % of it is relied on, four times.
    [Fact]
    public void Bolt_preload_is_torque_over_nut_factor_and_diameter()
    {
        Screw screw = Shop.Bolt with { TorqueNm = 75 * 0.112984829, NutFactor = 0.2, Body = 6.35 };
        Operation drill = Clearing() with { Kind = OperationKind.Profile };
        Job job = Shop with { Bolt = screw, Plate = Shop.Plate with { SealReactionNPerMm = 0 } };
        BlockHold hold = Of(drill, true, true, job, Bolted);
        double preload = 4 * 0.7 * 1500 * 4.4482216;
        double most = preload * Shop.Plate.FrictionBlockOnPlate / (hold.LoadN / 1.3);
        Assert.InRange(hold.Factor, 0.2 * most, most);
    }

    /// <summary>A square block on a square seal about one middle, so that a quarter turn changes nothing.</summary>
    private static (FixtureDesign Design, Job Job) Square
    {
        get
        {
            Box2 box = new(0, 0, 200, 200);
            Plate plate = Shop.Plate with { SealLoop = Contours.RoundedRectangle(new Box2(20, 20, 180, 180), 10) };
            return (Plain with { Placement = Plain.Placement with { BlankBox = box } }, Shop with { Plate = plate });
        }
    }

    private static Operation At(Point2 place)
    {
        Operation op = Clearing();
        return op with { Moves = [new LineMove(new Point3(place.X, place.Y, 2), op.FeedMmPerMin)] };
    }

    // Vacuum on the seal's area to the middle of its groove, less the gasket's push, and Coulomb's law at the middle, where
    // nothing turns: friction (pressed - factor lift) = factor shear.
    [Fact]
    public void At_the_middle_the_factor_is_friction_times_what_presses()
    {
        (FixtureDesign design, Job job) = Square;
        double length = (4 * 140) + (20 * Math.PI);
        double area = (160 * 160) - ((4 - Math.PI) * 100);
        double pressed =
            (VacuumLevel.From(job.Vacuum).Used / 1000 * (area - (length * job.Plate.SealGrooveWidth / 2)))
            - (job.Plate.SealReactionNPerMm * length);
        HeldByFriction(pressed, bolted: false, job, design);
    }

    // A cut at the middle turns nothing: friction of what presses, against the shear and what the cut lifts off.
    private static void HeldByFriction(double pressed, bool bolted, Job job, FixtureDesign design)
    {
        Operation op = At(new Point2(100, 100));
        CutForce force = BlockCut.Load(op, job, design.FixtureHeight).Force;
        double friction = job.Plate.FrictionBlockOnPlate;

        double factor = Of(op, bolted, bolted, job, design).Factor;

        Assert.Equal(friction * pressed / (force.Shear + (friction * force.Axial)), factor, 1e-4 * factor);
    }

    // T = K D F of each screw, of which 70 % are relied on; four that stand evenly about the middle press alone where the seal is broken.
    [Fact]
    public void Four_bolts_hold_by_their_preload()
    {
        (FixtureDesign design, Job job) = Square;
        Point2[] corners = [new(20, 20), new(180, 20), new(180, 180), new(20, 180)];
        design = design with
        {
            Features = [.. corners.Select((p, i) => Hole(FormattableString.Invariant($"bolt {i}"), p))],
        };
        double pressed = 4 * 0.7 * job.Bolt.TorqueNm / (job.Bolt.NutFactor * job.Bolt.Body * 1e-3);
        HeldByFriction(pressed, bolted: true, job, design);
    }

    // A shear through the middle does not turn the block and one across does, so the worst direction is not the same one.
    [Fact]
    public void Every_direction_of_the_force_is_tried()
    {
        (FixtureDesign design, Job job) = Square;
        double[] factors =
        [
            .. new Point2[] { new(190, 100), new(100, 190), new(10, 100), new(100, 10) }.Select(p =>
                Of(At(p), false, false, job, design).Factor
            ),
        ];

        Assert.All(factors, f => Assert.Equal(factors[0], f, 1e-3 * factors[0]));
        Assert.True(factors[0] < 0.8 * Of(At(new Point2(100, 100)), false, false, job, design).Factor);
    }

    [Theory]
    [InlineData(-501)]
    [InlineData(11_001)]
    public void An_altitude_outside_of_the_atmospheres_table_is_refused(double altitude)
    {
        Job job = Shop with { Vacuum = Shop.Vacuum with { AltitudeM = altitude } };
        Stage<ImmutableArray<BlockHold>> stage = new BlockHolding(Plain, job).Evaluate([(Clearing(), false, false)]);
        Assert.Equal("vacuum-altitude", Assert.Single(stage.Findings).Code);
    }

    [Fact]
    public void One_answer_per_operation_in_order()
    {
        Operation first = Clearing() with { Name = "first" };
        Operation second = Clearing() with { Name = "second" };
        ImmutableArray<BlockHold> holds = new BlockHolding(Plain, Shop)
            .Evaluate([(first, false, false), (second, false, false)])
            .Value;
        Assert.Equal(["first", "second"], holds.Select(h => h.Operation));
    }

    /// <summary>Bolts, seal, feed, depth, height and place each change the answer; asked together and twice they stay what each is alone.</summary>
    [Fact]
    public void What_was_asked_before_changes_no_answer()
    {
        Operation plain = Clearing();
        Operation moved = plain with
        {
            Moves = [.. plain.Moves.Select(m => m with { To = m.To with { X = m.To.X + 9 } })],
        };
        Operation raised = plain with
        {
            Moves = [.. plain.Moves.Select(m => m with { To = m.To with { Z = m.To.Z + 2 } })],
        };
        (Operation, bool, bool)[] asked =
        [
            (plain, false, false),
            (plain, true, false),
            (plain, true, true),
            (plain with { FeedMmPerMin = plain.FeedMmPerMin / 2 }, false, false),
            (plain with { StepDown = plain.StepDown / 3 }, false, false),
            (moved, false, false),
            (raised, false, false),
        ];
        BlockHolding one = new(Bolted, Shop);

        double[] first = [.. one.Evaluate(asked).Value.Select(h => h.Factor)];
        double[] again = [.. one.Evaluate(asked).Value.Select(h => h.Factor)];

        double[] alone = [.. asked.Select(a => new BlockHolding(Bolted, Shop).Evaluate([a]).Value.Single().Factor)];
        Assert.Equal(alone, first);
        Assert.Equal(alone, again);
        Assert.Distinct(alone);
    }
}
