using System.Collections.Immutable;
using FixtureGen.Design.Trim;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Tests.Support;

namespace FixtureGen.Tests.Toolpaths;

/// <summary>
/// A block with one of every feature, drawn by hand over the demo plate: enough to try the cutters on without the designer.
/// </summary>
internal static class SampleBlock
{
    public static Job Job { get; } = DemoShop.Job(DemoShop.PlainJob());

    public static Kernel NewKernel() => new(Tolerances.House);

    public static FixtureDesign Design(Job job)
    {
        Kernel kernel = NewKernel();
        double face = job.Rules.FixtureHeight;
        Part part = new(
            Contours.RoundedRectangle(new Box2(50, 70, 165, 150), 14),
            [Contours.Cw(Contours.Circle(new Point2(85, 90), 8))],
            [],
            [],
            [],
            []
        );
        ImmutableArray<TrimCut> cuts = TrimPlanner.Plan(part, job, kernel).Value;
        Box2 block = new(0, 0, job.Blank.Width, job.Blank.Height);
        double floor = face - job.Rules.TipBelowShell - job.Rules.ReliefFloorBelowTip;
        ImmutableArray<Region> relief = kernel.UnionAll([
            .. kernel.Offset(cuts[^1].Sweep, job.Rules.SideClearance),
            Region.From(Contours.Rectangle(new Box2(100, 145, 114, block.MaxY))),
        ]);
        relief = [relief.MaxBy(r => Measure.Area(r))! with { Holes = [relief.MaxBy(r => Measure.Area(r))!.Holes[0]] }];
        Contour groove = Contours.RoundedRectangle(new Box2(58, 78, 157, 142), 11);
        ImmutableArray<Feature> features =
        [
            Pocket("skim", FeatureKind.Skim, [Region.From(Contours.Rectangle(block))], job.BlankThickness, face),
            Pocket("relief", FeatureKind.Relief, relief, face, floor),
            Pocket("cutout relief", FeatureKind.CutoutRelief, kernel.Offset(cuts[0].Sweep, 0.8), face, floor),
            Grooves("net", FeatureKind.Net, [], Net(), 3.175, face, face - 1.2, kernel),
            Grooves(
                "gasket 1",
                FeatureKind.GasketGroove,
                [groove],
                [],
                job.Gasket.GrooveWidth,
                face,
                face - 2.2,
                kernel
            ),
            .. Magnets(job, face),
            .. Bolts(job, face),
            Hole("port", FeatureKind.Port, new Point2(107.95, 107.95), 9, face, 0, job, OpeningKind.Port),
        ];
        return new FixtureDesign
        {
            Part = part,
            Placement = new Placement(default, job.Blank, block),
            FixtureHeight = face,
            RawThickness = job.BlankThickness,
            Flip = null,
            Zones = [],
            Cords = [],
            Magnets = [],
            TrimCuts = cuts,
            Features = features,
            VacuumPath = [],
            Contact = [],
            Label = "F-100 REV 1",
        };
    }

    public static PocketFeature Pocket(
        string name,
        FeatureKind kind,
        ImmutableArray<Region> area,
        double top,
        double floor
    ) =>
        new()
        {
            Name = name,
            Kind = kind,
            Setup = Setup.Top,
            Area = area,
            TopZ = top,
            FloorZ = floor,
            Removals = [new Removal(Setup.Top, kind, name, area, top, floor)],
        };

    public static GrooveFeature Grooves(
        string name,
        FeatureKind kind,
        ImmutableArray<Contour> loops,
        ImmutableArray<OpenPath> runs,
        double width,
        double top,
        double floor,
        Kernel kernel
    )
    {
        ImmutableArray<Region> area = kernel.UnionAll([
            .. loops.SelectMany(l => kernel.Stroke(l, width)),
            .. runs.SelectMany(r => kernel.Stroke(r, width)),
        ]);
        return new()
        {
            Name = name,
            Kind = kind,
            Setup = Setup.Top,
            Loops = loops,
            Runs = runs,
            Width = width,
            TopZ = top,
            FloorZ = floor,
            Removals = [new Removal(Setup.Top, kind, name, area, top, floor)],
        };
    }

    public static HoleFeature Hole(
        string name,
        FeatureKind kind,
        Point2 at,
        double diameter,
        double top,
        double floor,
        Job job,
        OpeningKind? opening
    )
    {
        ImmutableArray<Region> area = [Region.From(Contours.Circle(at, diameter / 2))];
        PlateOpening? over = opening is null
            ? null
            : job.Plate.Openings.Where(o => o.Kind == opening).MinBy(o => o.At.DistanceTo(at));
        return new()
        {
            Name = name,
            Kind = kind,
            Setup = Setup.Top,
            At = at,
            Diameter = diameter,
            TopZ = top,
            FloorZ = floor,
            SlotLength = 0,
            SlotAngleDeg = 0,
            BreaksThrough = over is not null && floor <= 0,
            Opening = over,
            Removals = [new Removal(Setup.Top, kind, name, area, top, floor)],
        };
    }

    private static ImmutableArray<OpenPath> Net() =>
        [
            new([Segment.Line(new(70, 107.95), new(145, 107.95))]),
            new([Segment.Line(new(70, 125), new(145, 125))]),
            new([Segment.Line(new(107.95, 90), new(107.95, 130))]),
        ];

    private static IEnumerable<Feature> Magnets(Job job, double face) =>
        new[] { new Point2(75, 116), new Point2(140, 116), new Point2(140, 95) }.Select(
            (p, i) =>
                Pocket(
                    FormattableString.Invariant($"magnet {i + 1}"),
                    FeatureKind.MagnetPocket,
                    [Region.From(Contours.Circle(p, (job.Magnet.Diameter + 0.1) / 2))],
                    face,
                    face - 6.5
                )
        );

    private static IEnumerable<Feature> Bolts(Job job, double face) =>
        job.Plate.Bolts.SelectMany(b =>
            new Feature[]
            {
                Hole("seat " + b.Name, FeatureKind.Counterbore, b.At, 16, face, face - 8, job, null),
                Hole("bolt " + b.Name, FeatureKind.BoltHole, b.At, 7.14375, face - 8, 0, job, OpeningKind.Bolt),
            }
        );
}
