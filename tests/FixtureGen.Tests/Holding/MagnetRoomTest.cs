using FixtureGen.Design.Seals;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Solve;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

/// <summary>What takes a magnet's room, one thing at a time, each a known way from the place that is asked for.</summary>
public sealed class MagnetRoomTest
{
    private static readonly Job Shop = HeldDesigns.Job();

    /// <summary>The middle of the plain part: its zone's edge is 60 mm off.</summary>
    private static readonly Point2 Middle = new(125, 107.5);

    private static readonly double Pocket =
        (Shop.Magnet.Diameter + Shop.Magnet.DiameterTolerance + Shop.Rules.MagnetPocketClearance) / 2;
    private static readonly double Jacket = (Shop.Magnet.JacketDiameter / 2) + Shop.Rules.JacketClearance;
    private static readonly double Wall = Shop.Rules.Wall;

    private static readonly FixtureDesign Plain = HeldDesigns.Of(HeldDesigns.Plain, Shop);

    private static void Expect(FixtureDesign design, double slack, string against, Point2 nearest)
    {
        MagnetRoom room = new(design, Shop);
        (double found, string by) = room.RoomAt(Middle);
        Assert.Equal(against, by);
        Assert.Equal(slack, found, 1e-9);
        Assert.Equal(0, room.Nearest(Middle).DistanceTo(nearest), 1e-9);
        Assert.True(room.Leaves(Middle, slack - 1e-9));
        Assert.False(room.Leaves(Middle, slack + 1e-9));
    }

    private static FixtureDesign With(Feature feature) => Plain with { Features = [feature] };

    private static HoleFeature Hole(FeatureKind kind, double x, double slot = 0) =>
        new()
        {
            Name = "a hole",
            Kind = kind,
            Setup = Setup.Top,
            At = Middle + new Point2(x, 0),
            Diameter = 6,
            TopZ = 19,
            FloorZ = 0,
            SlotLength = slot,
            SlotAngleDeg = 0,
            BreaksThrough = true,
            Opening = null,
            Removals = [],
        };

    // The zone's groove runs a clearance, a land and half a groove inside the part: its middle line is the zone's boundary.
    [Fact]
    public void A_pocket_keeps_a_wall_from_the_gaskets_groove()
    {
        double half = Shop.Gasket.GrooveWidth / 2;
        double keep = Shop.Rules.SideClearance + Shop.Rules.Land + half;
        Point2 place = new(40 + keep + 20, 107.5);
        MagnetRoom room = new(Plain, Shop);
        double inZone = 20 - half - Wall - Pocket;
        TrimCut cut = Plain.TrimCuts.Single();
        double toWay = Measure.Distance(place, cut.Path);
        (double slack, string against) = room.RoomAt(place);
        Assert.Equal("the edge of the sealed zone", against);
        Assert.Equal(inZone, slack, 1e-6);
        Assert.True(toWay - Jacket - cut.Tool.Radius > slack);
        Assert.Equal(0, room.Nearest(place).DistanceTo(new(40 + keep, 107.5)), 1e-6);
        double outside = room.RoomAt(new Point2(40 + keep - 5, 107.5)).Slack;
        Assert.True(outside <= -5 - half - Wall - Pocket + 1e-6);
    }

    [Theory]
    [InlineData(FeatureKind.BoltHole)]
    [InlineData(FeatureKind.Counterbore)]
    [InlineData(FeatureKind.PinHole)]
    [InlineData(FeatureKind.PinSlot)]
    [InlineData(FeatureKind.LocatorHole)]
    public void Steel_keeps_a_magnets_diameter_and_a_half(FeatureKind kind) =>
        Expect(
            With(Hole(kind, 25, slot: 2)),
            25 - 4 - Math.Max(Pocket + Wall, 1.5 * Shop.Magnet.Diameter),
            "a hole",
            Middle + new Point2(25, 0)
        );

    [Fact]
    public void A_port_keeps_the_room_that_its_net_needs() =>
        Expect(
            With(Hole(FeatureKind.Port, -18)),
            18 - 3 - Pocket - NetWidth.PocketFromPort(Shop, 6),
            "a hole",
            Middle - new Point2(18, 0)
        );

    [Fact]
    public void Any_other_hole_keeps_a_wall() =>
        Expect(With(Hole(FeatureKind.MagnetNotch, 15)), 15 - 3 - Pocket - Wall, "a hole", Middle + new Point2(15, 0));

    private static PocketFeature PocketAt(FeatureKind kind, Region area) =>
        new()
        {
            Name = "a pocket",
            Kind = kind,
            Setup = Setup.Top,
            Area = [area],
            TopZ = 19,
            FloorZ = 15,
            Removals = [],
        };

    [Fact]
    public void A_pocket_keeps_a_wall_from_a_pocket_beside_it_and_cannot_stand_in_it()
    {
        Region beside = Region.From(Outlines.Circle(Middle + new Point2(0, 20), 6));
        Expect(
            With(PocketAt(FeatureKind.FormPocket, beside)),
            14 - Pocket - Wall,
            "a pocket",
            Middle + new Point2(0, 14)
        );
        Region around = Region.From(Outlines.Circle(Middle + new Point2(0, 2), 6));
        Expect(
            With(PocketAt(FeatureKind.FormPocket, around)),
            -4 - Pocket - Wall,
            "a pocket",
            Middle - new Point2(0, 4)
        );
        Assert.NotEqual(
            "a pocket",
            new MagnetRoom(With(PocketAt(FeatureKind.Skim, around)), Shop).RoomAt(Middle).Against
        );
    }

    // A channel from below matters where it comes nearer to the pocket's floor than the least floor.
    [Theory]
    [InlineData(0.01, true)]
    [InlineData(-0.01, false)]
    public void A_channel_from_below_keeps_a_wall_where_it_is_high(double above, bool matters)
    {
        double floor = Plain.FixtureHeight - Shop.Rules.MagnetRecess - Shop.Magnet.Thickness - Shop.Rules.MagnetGlue;
        double top = floor - Shop.Rules.LeastFloor + above;
        OpenPath run = new([Segment.Line(Middle + new Point2(16, -20), Middle + new Point2(16, 20))]);
        GrooveFeature channel = new()
        {
            Name = "net",
            Kind = FeatureKind.Channel,
            Setup = Setup.Underside,
            Loops = [],
            Runs = [run],
            Width = 4,
            TopZ = top,
            FloorZ = top - 5,
            Removals = [],
        };
        if (matters)
        {
            Expect(With(channel), 16 - Pocket - Wall - 2, "a channel from below", Middle + new Point2(16, 0));
        }
        else
        {
            Assert.NotEqual("a channel from below", new MagnetRoom(With(channel), Shop).RoomAt(Middle).Against);
        }
        Assert.NotEqual(
            "a channel from below",
            new MagnetRoom(With(channel with { Setup = Setup.Top }), Shop).RoomAt(Middle).Against
        );
    }

    [Fact]
    public void A_jacket_lies_clear_of_forms_and_keep_outs()
    {
        Contour disc = Outlines.Circle(Middle - new Point2(22, 0), 7);
        FormRegion form = new(disc, FormDirection.Up, 3, 0);
        Expect(
            Plain with
            {
                Part = Plain.Part with { Forms = [form] },
            },
            15 - Jacket,
            "a form of the shell",
            Middle - new Point2(15, 0)
        );
        Expect(
            Plain with
            {
                Part = Plain.Part with { KeepOuts = [disc] },
            },
            15 - Math.Max(Pocket, Jacket),
            "a keep-out",
            Middle - new Point2(15, 0)
        );
    }

    // An engraver's strokes are ways of a tool too.
    [Fact]
    public void A_jacket_stays_off_the_engravers_way()
    {
        Tool engraver = Shop.Tools.First(t => t.Kind == ToolKind.Engraver);
        OpenPath stroke = new([Segment.Line(Middle + new Point2(-30, 17), Middle + new Point2(30, 17))]);
        EngraveMark mark = new([stroke], "", default, 5, 0);
        FixtureDesign design = Plain with { Part = Plain.Part with { Engravings = [mark] } };
        double widest = Math.Max(engraver.Radius, Math.Max(engraver.ShankDiameter / 2, engraver.HolderDiameter / 2));
        (double slack, string against) = new MagnetRoom(design, Shop).RoomAt(Middle);
        Assert.Equal("the trim cutter's way", against);
        Assert.InRange(slack, 17 - Jacket - widest, 17 - Jacket - engraver.Radius);
    }

    // Cutter, shank or holder: whatever is widest of what passes below the jacket's top.
    [Theory]
    [InlineData(40, 60, 0)]
    [InlineData(4, 60, 1)]
    [InlineData(4, 8, 2)]
    public void What_passes_at_a_jackets_height_keeps_it_off(double flute, double stickOut, int widest)
    {
        Tool tool = Shop.TrimTool with
        {
            Diameter = 3,
            ShankDiameter = 8,
            HolderDiameter = 20,
            FluteLength = flute,
            StickOut = stickOut,
        };
        OpenPath way = new([Segment.Line(Middle + new Point2(-30, 24), Middle + new Point2(30, 24))]);
        FixtureDesign design = Plain with { TrimCuts = [Plain.TrimCuts[0] with { Tool = tool, LeadIn = way }] };
        double reach = new[] { 1.5, 4, 10 }[widest];
        (double slack, string against) = new MagnetRoom(design, Shop).RoomAt(Middle);
        Assert.Equal("the trim cutter's way", against);
        Assert.Equal(24 - Jacket - reach, slack, 1e-9);
    }

    // Rows and columns a multiple of half a millimetre apart, every place with room, and no more of them than asked for.
    [Theory]
    [InlineData(320)]
    [InlineData(40)]
    public void The_grid_is_even_and_every_place_on_it_has_room(int most)
    {
        MagnetRoom room = new(Plain, Shop);
        (Point2[] places, double pitch) = room.Grid(most);
        Assert.InRange(places.Length, most / 2, most);
        Assert.Equal(0, Math.IEEERemainder(pitch, 0.5), 1e-12);
        Assert.All(
            places,
            p =>
            {
                Assert.True(room.RoomAt(p).Slack >= 0);
                Assert.Equal(0, Math.IEEERemainder(p.X - places[0].X, pitch), 1e-9);
                Assert.Equal(0, Math.IEEERemainder(p.Y - places[0].Y, pitch), 1e-9);
            }
        );
        Assert.Equal(places.Length, places.Distinct().Count());
    }

    [Fact]
    public void Without_a_zone_there_is_no_place()
    {
        MagnetRoom room = new(Plain with { Zones = [] }, Shop);
        Assert.Empty(room.Grid(100).Places);
        Assert.False(room.Leaves(Middle, -1000));
    }
}
