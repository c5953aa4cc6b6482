using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using FixtureGen.Design;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Design;

/// <summary>Parts and jobs of the demo shop for design tests, and the way from one to the other.</summary>
internal static class DesignBench
{
    public static Job Job { get; } = DemoShop.Job(DemoShop.PlainJob(more: "[locator]\nby = \"hand\""), "bench");

    /// <summary>How far a relief reaches beyond the part, mm: 3/16 in wide, which that end mill cuts in one pass, from the clearance inside the edge.</summary>
    public const double Relief = 4.7625 - 0.5;

    public static Part Of(Contour outer, params Contour[] cutouts) =>
        new(Contours.Ccw(outer), [.. cutouts.Select(Contours.Cw)], [], [], [], []);

    public static Part Rectangle(double width, double height, double corner, params Contour[] cutouts) =>
        Of(Contours.RoundedRectangle(new Box2(0, 0, width, height), corner), cutouts);

    /// <summary>A polygon whose corners are rounded: outward ones by <paramref name="convex"/>, inward ones by <paramref name="concave"/>.</summary>
    public static Part Rounded(double convex, double concave, params double[] xy)
    {
        Kernel kernel = new(Tolerances.House);
        Contour sharp = Contours.FromPoints([
            .. Enumerable.Range(0, xy.Length / 2).Select(i => new Point2(xy[2 * i], xy[(2 * i) + 1])),
        ]);
        return Of(kernel.Close(kernel.Open([Region.From(sharp)], convex), concave)[0].Outer);
    }

    public static Part Ell() => Rounded(6, 2, 0, 0, 150, 0, 150, 55, 60, 55, 60, 140, 0, 140);

    /// <summary>Two wide ends joined by a neck that one loop cannot pass.</summary>
    public static Part Dumbbell() =>
        Rounded(8, 5, 0, 0, 60, 0, 60, 22, 110, 22, 110, 0, 170, 0, 170, 70, 110, 70, 110, 48, 60, 48, 60, 70, 0, 70);

    public static Part Notched() => Rounded(3, 1.7, 0, 0, 150, 0, 150, 100, 78, 100, 75, 40, 72, 100, 0, 100);

    public static Part Slotted() =>
        Rectangle(
            150,
            100,
            12,
            Contours.Slot(new(30, 12), new(70, 12), 4),
            Contours.Slot(new(60, 50), new(110, 50), 5),
            Contours.Circle(new(30, 60), 4),
            Contours.Circle(new(44, 60), 4)
        );

    public static Part WithHole() => Rectangle(150, 110, 12, Contours.Circle(new(75, 55), 8));

    public static TheoryData<string> Names =>
        ["plain", "ell", "dumbbell", "notched", "slotted", "hole", "tiny", "long"];

    public static Part Named(string name) =>
        name switch
        {
            "plain" => Rectangle(140, 90, 12),
            "ell" => Ell(),
            "dumbbell" => Dumbbell(),
            "notched" => Notched(),
            "slotted" => Slotted(),
            "hole" => WithHole(),
            "tiny" => Rectangle(50, 42, 8),
            "long" => Rectangle(225, 46, 12),
            _ => throw new ArgumentOutOfRangeException(nameof(name)),
        };

    public static FixtureDesign Begun(Part part, Job? job = null) => Value(Begin(part, job ?? Job));

    public static Stage<FixtureDesign> Begin(Part part, Job job)
    {
        Placement placement = Value(Placing.Place(part, job, Tolerances.House));
        return Designer.Begin(part, placement, job, Tolerances.House);
    }

    /// <summary>The finished design with magnets at the given shares of the first zone's box.</summary>
    public static FixtureDesign Finished(Part part, Job? job = null, params Point2[] magnets) =>
        Value(Finish(Begun(part, job), job ?? Job, magnets));

    public static Stage<FixtureDesign> Finish(FixtureDesign begun, Job job, params Point2[] magnets)
    {
        Box2 box = Measure.Bounds(begun.Zones[0].Boundary.Outer);
        ImmutableArray<MagnetPlace> places =
        [
            .. magnets.Select(m => new MagnetPlace(
                new(box.MinX + (m.X * box.Width), box.MinY + (m.Y * box.Height)),
                Locked: false,
                FromDrawing: false
            )),
        ];
        return Designer.Finish(begun, places, job, Tolerances.House);
    }

    /// <summary>One magnet a wall from the first zone's groove and as far from its port as it goes; none where there is no room.</summary>
    public static ImmutableArray<MagnetPlace> AMagnet(FixtureDesign begun)
    {
        double pocket = (Job.Magnet.Diameter + Job.Magnet.DiameterTolerance + Job.Rules.MagnetPocketClearance) / 2;
        double keep = pocket + Job.Rules.Wall + (Job.Gasket.GrooveWidth / 2) + 0.05;
        SealedZone zone = begun.Zones[0];
        Point2[] places =
        [
            .. new Kernel(Tolerances.House)
                .Offset(zone.Boundary, -keep)
                .SelectMany(r => r.Outer.Segments)
                .Select(s => s.Start)
                .Where(p => p.DistanceTo(zone.PortAt) > (2 * pocket) + 6),
        ];
        return places.Length == 0 ? [] : [new(places.MaxBy(p => p.DistanceTo(zone.PortAt)), false, false)];
    }

    public static T Value<T>(Stage<T> stage)
    {
        Assert.True(stage.Ok, string.Join('\n', stage.Findings));
        return stage.Value!;
    }

    /// <summary>The one finding of this code; its remedy says something.</summary>
    public static Finding Finding<T>(Stage<T> stage, string code)
    {
        Finding? found = stage.Findings.FirstOrDefault(f => f.Code == code);
        Assert.True(found is not null, $"no {code} among: {string.Join('\n', stage.Findings)}");
        Assert.NotEmpty(found.Remedy);
        return found;
    }

    /// <summary>The lengths in mm that a finding's message tells, in order.</summary>
    public static double[] Amounts(Finding finding) =>
        [
            .. Regex
                .Matches(finding.Message, @"(\d+(?:\.\d+)?) mm", RegexOptions.None, TimeSpan.FromSeconds(1))
                .Select(m => double.Parse(m.Groups[1].Value, CultureInfo.InvariantCulture)),
        ];

    public static IEnumerable<T> All<T>(FixtureDesign design, FeatureKind kind)
        where T : Feature => design.Features.OfType<T>().Where(f => f.Kind == kind);

    public static double Keep(Job job) => job.Rules.Land + (job.Gasket.GrooveWidth / 2);

    public static double BendRadius(Job job) => job.Gasket.InsideBendRadius + (job.Gasket.GrooveWidth / 2);
}
