using System.Collections.Immutable;
using FixtureGen.Design.Block;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Forms;

/// <summary>
/// Plugs under forms that rise, raised from the block: the skim goes down to the highest plug's top, all round the plugs is cleared
/// to the face, and grooves over a plug's top let the air out, so that the shell seats. Plate frame, mm.
/// </summary>
internal static class Plugs
{
    /// <summary>How far a vent runs out over a plug's edge besides the cutter's radius.</summary>
    private const double PastEdge = 0.5;

    /// <summary>A block lower than this is not advised: nothing could be cut into it.</summary>
    private const double LeastFace = 12;

    /// <summary>Top is what the skim goes down to: the face without a plug.</summary>
    public sealed record Laid(ImmutableArray<Feature> Features, double Top);

    /// <summary>The part with a plug under each form that asks for one, or that needs one and leaves it open.</summary>
    public static Part Choose(Part placed, ImmutableArray<FormBearing> bearings) =>
        placed with
        {
            Forms =
            [
                .. placed.Forms.Select(
                    (f, i) =>
                        f with
                        {
                            Plugged =
                                bearings.FirstOrDefault(b => b.Form == i) is { } bearing
                                && (f.Plug == PlugWish.Always || (f.Plug == PlugWish.Auto && !bearing.StandsAlone)),
                        }
                ),
            ],
        };

    /// <summary>plug-too-tall where the blank does not reach up to a plug, nest-too-tight where it is no looser than the shell is.</summary>
    public static IEnumerable<Finding> Check(Part placed, Levels levels, Job job)
    {
        for (int i = 0; i < placed.Forms.Length; i++)
        {
            FormRegion form = placed.Forms[i];
            if (!form.Plugged)
            {
                continue;
            }
            Point2 at = Measure.Bounds(form.Edge).Middle;
            double needed = Shape(form, levels, job).Top + job.Rules.LeastSkim;
            if (needed > levels.Raw + 1e-9)
            {
                Blank? other = job
                    .OtherBlanks.Where(b => b.Thickness >= needed && b.Width >= job.Blank.Width)
                    .MinBy(b => b.Thickness);
                double face = levels.Face - (needed - levels.Raw);
                string lower =
                    face < LeastFace
                        ? ""
                        : $"lower rules.fixture_height to {FindingWords.Mm(face)} where that leaves the floors, or ";
                string which = other is null
                    ? $"{lower}add a blank of {FindingWords.Mm(needed)} or more to the shop's"
                    : $"{lower}take the blank {other.Name} and state rules.fixture_height = \"{FindingWords.Mm(levels.Face)}\"";
                yield return FormFindings.TooTall(i + 1, at, needed, levels.Raw, which);
            }
            if (job.Rules.RunningClearance < job.Shell.SlackMin)
            {
                yield return FormFindings.TooTight(i + 1, at, job.Rules.RunningClearance, job.Shell.SlackMin);
            }
        }
    }

    /// <summary>What stands on the face, by its foot: of all plugs, or of those within a zone's boundary.</summary>
    public static ImmutableArray<Region> Feet(Part placed, Region? boundary, Levels levels, Job job, Kernel kernel) =>
        [
            .. placed
                .Forms.Where(f => f.Plugged)
                .Where(f => boundary is null || Inside.Contains(boundary, f.Edge.Segments[0].Start))
                .SelectMany(f =>
                    kernel.Offset([Region.From(Contours.Ccw(f.Edge))], -Shape(f, levels, job).Terraces()[0].Inset)
                ),
        ];

    /// <summary>The clearing round the plugs, terrace by terrace, and the vents over their tops.</summary>
    /// <param name="vent">Width of a vent.</param>
    public static Laid Raise(Part placed, Box2 block, double vent, Levels levels, Job job, Kernel kernel)
    {
        FormRegion[] forms = [.. placed.Forms.Where(f => f.Plugged)];
        if (forms.Length == 0)
        {
            return new Laid([], levels.Face);
        }
        PlugShape[] shapes = [.. forms.Select(f => Shape(f, levels, job))];
        double top = shapes.Max(s => s.Top);
        Region all = Skim.Over(block, levels, job.Plate.PlacingTolerance).Area[0];
        double[] floors = [.. shapes.SelectMany(s => s.Terraces()).Select(t => t.FloorZ).Distinct().Order()];
        double[] ends = [.. shapes.Select(s => s.Top).Where(z => z < top - 1e-9).Distinct().Order()];
        ImmutableArray<Removal> removals =
        [
            .. floors
                .Concat(ends)
                .Order()
                .Select(z => new Removal(
                    Setup.Top,
                    FeatureKind.Plug,
                    "plug",
                    kernel.Difference(
                        [all],
                        [.. forms.Zip(shapes).SelectMany(p => Standing(p.First, p.Second, z, kernel))]
                    ),
                    top,
                    z
                )),
        ];
        PocketFeature clearing = new()
        {
            Name = "plug",
            Kind = FeatureKind.Plug,
            Setup = Setup.Top,
            Area = removals[0].Area,
            TopZ = top,
            FloorZ = levels.Face,
            Removals = removals,
        };
        return new Laid(
            [clearing, .. forms.Zip(shapes).Select((p, i) => Vents(i, p.First, p.Second, vent, job, kernel))],
            top
        );
    }

    /// <summary>What of a plug stands above a height.</summary>
    private static ImmutableArray<Region> Standing(FormRegion form, PlugShape shape, double z, Kernel kernel)
    {
        (double FloorZ, double Inset)[] here = [.. shape.Terraces().Where(t => t.FloorZ <= z + 1e-9)];
        return z >= shape.Top - 1e-9 ? [] : kernel.Offset([Region.From(Contours.Ccw(form.Edge))], -here[^1].Inset);
    }

    /// <summary>Grooves along a plug's top, no point of it farther from one than the net's reach, and one across that joins them.</summary>
    private static GrooveFeature Vents(
        int number,
        FormRegion form,
        PlugShape shape,
        double width,
        Job job,
        Kernel kernel
    )
    {
        ImmutableArray<Region> foot = kernel.Offset([Region.From(Contours.Ccw(form.Edge))], -shape.Terraces()[0].Inset);
        Box2 box = Measure.Bounds(foot);
        bool wide = box.Width >= box.Height;
        double across = wide ? box.Height : box.Width;
        int count = (int)Math.Max(1, Math.Ceiling(across / ((2 * job.Rules.NetReach) + width)));
        ImmutableArray<OpenPath> runs =
        [
            .. Enumerable.Range(0, count).SelectMany(i => Run(box, wide, (i + 0.5) / count, width, foot)),
            .. Run(box, !wide, 0.5, width, foot),
        ];
        string name = Names.Numbered("plug vents", number + 1);
        double floor = shape.Top - job.Rules.NetDepth;
        ImmutableArray<Region> area = kernel.Intersect(
            kernel.UnionAll([.. runs.SelectMany(r => kernel.Stroke(r, width))]),
            foot
        );
        return new GrooveFeature
        {
            Name = name,
            Kind = FeatureKind.PlugVent,
            Setup = Setup.Top,
            Loops = [],
            Runs = runs,
            Width = width,
            TopZ = shape.Top,
            FloorZ = floor,
            Removals = [new(Setup.Top, FeatureKind.PlugVent, name, area, shape.Top, floor)],
        };
    }

    private static IEnumerable<OpenPath> Run(
        Box2 box,
        bool alongX,
        double share,
        double width,
        ImmutableArray<Region> foot
    )
    {
        double past = (width / 2) + PastEdge;
        (double x, double y) = (box.MinX + (share * box.Width), box.MinY + (share * box.Height));
        (Point2 from, Point2 to) = alongX
            ? (new Point2(box.MinX - 1, y), new Point2(box.MaxX + 1, y))
            : (new Point2(x, box.MinY - 1), new Point2(x, box.MaxY + 1));
        Point2 way = alongX ? new(past, 0) : new(0, past);
        return Clip.Line(from, to, foot).Select(c => new OpenPath([Segment.Line(c.Start - way, c.End + way)]));
    }

    private static PlugShape Shape(FormRegion form, Levels levels, Job job) =>
        new(form, levels.Face, job.Rules.RunningClearance);
}
