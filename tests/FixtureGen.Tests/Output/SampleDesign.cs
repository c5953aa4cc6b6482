using System.Collections.Immutable;
using FixtureGen.Design.Labels;
using FixtureGen.Model;

namespace FixtureGen.Tests.Output;

/// <summary>A made-up fixture that has one of every feature: a rounded box with one round cutout, sealed between the two.</summary>
internal static class SampleDesign
{
    private const double Face = 18.5;
    private const double R = 22;
    private static readonly Box2 Body = new(38, 52, 178, 164);
    private static readonly Point2 Hole = new(140, 108);

    public static FixtureDesign Create(Job job)
    {
        Contour outer = Shapes.Rounded(Body, R);
        Contour cutout = Shapes.Reversed(Shapes.Circle(Hole, 14));
        ImmutableArray<MagnetPlace> magnets =
        [
            .. new Point2[] { new(66, 80), new(66, 136), new(104, 84), new(104, 132) }.Select(p => new MagnetPlace(
                p,
                false,
                false
            )),
        ];
        Region sealedArea = new(Shapes.Grown(Body, R, -8), [Shapes.Reversed(Shapes.Circle(Hole, 22))]);
        const string label = "PRUNER SHEATH F-017-2 O1172 4 MAGNETS N UP";
        return new FixtureDesign
        {
            Part = new Part(outer, [cutout], [], [], [], []),
            Placement = new Placement(new Pose(38, 52, 0), job.Blank, new Box2(0, 0, 215.9, 215.9)),
            FixtureHeight = Face,
            RawThickness = job.BlankThickness,
            Flip = new Flip(107.95),
            Zones =
            [
                new SealedZone(0, Region.From(Shapes.Grown(Body, R, -6)), [sealedArea], new Point2(108, 108), "V1"),
            ],
            Cords =
            [
                new CordLoop(Shapes.Grown(Body, R, -6), 430.12, 436.6, new Point2(108, 58), 0, true),
                new CordLoop(Shapes.Circle(Hole, 20), 125.66, 127.5, new Point2(120, 108), 0, false),
            ],
            Magnets = magnets,
            TrimCuts = [Outline(job), Cutout(job)],
            Features = [.. Features(magnets, label)],
            VacuumPath = [new VacuumLink("V1", "port", 50, 0), new VacuumLink("port", "zone 0", 12, 60)],
            Contact = [],
            Label = label,
        };
    }

    private static IEnumerable<Feature> Features(ImmutableArray<MagnetPlace> magnets, string label)
    {
        Region[] relief =
        [
            Shapes.Ring(Shapes.Grown(Body, R, 5), Shapes.Grown(Body, R, -0.6)),
            Shapes.Bar(183, 100, 215.9, 116),
        ];
        yield return Pocket("relief", FeatureKind.Relief, Face - 2, relief);
        yield return Pocket("cutout relief", FeatureKind.CutoutRelief, Face - 2, Shapes.Disc(Hole, 14.6));
        yield return Groove(
            "gasket outer",
            FeatureKind.GasketGroove,
            2.2,
            Shapes.Ring(Shapes.Grown(Body, R, -4.2), Shapes.Grown(Body, R, -7.8))
        );
        yield return Groove(
            "gasket cutout",
            FeatureKind.GasketGroove,
            2.2,
            Shapes.Ring(Shapes.Circle(Hole, 21.8), Shapes.Circle(Hole, 18.2))
        );
        yield return Groove(
            "net",
            FeatureKind.Net,
            2,
            Shapes.Bar(54, 106.5, 115, 109.5),
            Shapes.Bar(84, 66, 87, 106.5),
            Shapes.Bar(84, 109.5, 87, 150)
        );
        Region channel = Shapes.Bar(20, 30, 26, 180);
        Removal below = new(Setup.Underside, FeatureKind.Channel, "channel", [channel], 4, 0);
        yield return Groove("channel", FeatureKind.Channel, 4, channel) with
        {
            Setup = Setup.Underside,
            Removals = [below],
        };
        foreach (MagnetPlace m in magnets)
        {
            yield return Pocket(
                "notch",
                FeatureKind.MagnetNotch,
                Face - 5.3,
                Shapes.Bar(m.At.X + 3, m.At.Y - 0.8, m.At.X + 6.6, m.At.Y + 0.8)
            );
            yield return Pocket("magnet", FeatureKind.MagnetPocket, Face - 5.3, Shapes.Disc(m.At, 5.1));
        }
        foreach (PlateOpening bolt in SampleJob.Plate.Bolts)
        {
            yield return Bore("counterbore " + bolt.Name, FeatureKind.Counterbore, bolt.At, 17, Face - 9, bolt);
            yield return Bore("bolt " + bolt.Name, FeatureKind.BoltHole, bolt.At, 6.8, 0, bolt);
        }
        yield return Bore("pin P1", FeatureKind.PinHole, SampleJob.Plate.PinRound.At, 8, 0, SampleJob.Plate.PinRound);
        yield return Bore("pin P2", FeatureKind.PinSlot, SampleJob.Plate.PinSlot.At, 8, 0, SampleJob.Plate.PinSlot) with
        {
            SlotLength = 1,
            SlotAngleDeg = 0,
        };
        yield return Bore("port V1", FeatureKind.Port, new Point2(108, 108), 6, 0, SampleJob.Plate.Ports.First());
        ImmutableArray<OpenPath> strokes = Lettering.Strokes(label, 3.5).Strokes;
        ImmutableArray<OpenPath> placed =
        [
            .. strokes.Select(p => new OpenPath([.. p.Segments.Select(s => Moved(s, new Point2(30, 20)))])),
        ];
        yield return new EngravingFeature
        {
            Name = "label",
            Kind = FeatureKind.Label,
            Setup = Setup.Top,
            Text = label,
            Strokes = placed,
            Width = 0.35,
            TopZ = Face,
            Depth = 0.3,
            Removals = [],
        };
    }

    private static Segment Moved(Segment s, Point2 by) =>
        s with
        {
            Start = s.Start + by,
            End = s.End + by,
            Centre = s.IsArc ? s.Centre + by : default,
        };

    private static PocketFeature Pocket(string name, FeatureKind kind, double floor, params Region[] area) =>
        new()
        {
            Name = name,
            Kind = kind,
            Setup = Setup.Top,
            Area = [.. area],
            TopZ = Face,
            FloorZ = floor,
            Removals = [new Removal(Setup.Top, kind, name, [.. area], Face, floor)],
        };

    private static GrooveFeature Groove(string name, FeatureKind kind, double depth, params Region[] area) =>
        new()
        {
            Name = name,
            Kind = kind,
            Setup = Setup.Top,
            Loops = [],
            Runs = [],
            Width = 3.6,
            TopZ = Face,
            FloorZ = Face - depth,
            Removals = [new Removal(Setup.Top, kind, name, [.. area], Face, Face - depth)],
        };

    private static HoleFeature Bore(
        string name,
        FeatureKind kind,
        Point2 at,
        double diameter,
        double floor,
        PlateOpening opening
    )
    {
        Removal removal = new(Setup.Top, kind, name, [Shapes.Disc(at, diameter / 2)], Face, floor);
        return new HoleFeature
        {
            Name = name,
            Kind = kind,
            Setup = Setup.Top,
            At = at,
            Diameter = diameter,
            TopZ = Face,
            FloorZ = floor,
            SlotLength = 0,
            SlotAngleDeg = 0,
            BreaksThrough = floor == 0,
            Opening = opening,
            Removals = [removal],
        };
    }

    private static TrimCut Outline(Job job)
    {
        Contour path = Shapes.Reversed(Shapes.Grown(Body, R, job.TrimTool.Radius));
        Point2 s = path.Segments[0].Start;
        return new TrimCut
        {
            Name = "outline",
            Kind = TrimKind.Outline,
            Edge = Shapes.Rounded(Body, R),
            Path = path,
            LeadIn = Lead(s, new Point2(-3, 0), into: true),
            LeadOut = Lead(s, new Point2(-3, 0), into: false),
            Clearing = [],
            Tabs = [new Tab(100, 4), new Tab(350, 4)],
            Hold = SlugHold.Skirt,
            Tool = job.TrimTool,
            FloorZ = Face - 0.5,
            Sweep = [],
        };
    }

    private static TrimCut Cutout(Job job)
    {
        Contour path = Shapes.Circle(Hole, 14 - job.TrimTool.Radius);
        Point2 s = path.Segments[0].Start;
        return new TrimCut
        {
            Name = "cutout 1",
            Kind = TrimKind.Cutout,
            Edge = Shapes.Circle(Hole, 14),
            Path = path,
            LeadIn = Lead(s, new Point2(-2, 0), into: true),
            LeadOut = Lead(s, new Point2(-2, 0), into: false),
            Clearing = [],
            Tabs = [],
            Hold = SlugHold.MilledAway,
            Tool = job.TrimTool,
            FloorZ = Face - 0.5,
            Sweep = [],
        };
    }

    private static OpenPath Lead(Point2 start, Point2 off, bool into) =>
        new([into ? Segment.Line(start + off, start) : Segment.Line(start, start + off)]);
}
