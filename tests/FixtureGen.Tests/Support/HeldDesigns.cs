using System.Collections.Immutable;
using FixtureGen.Design.Trim;
using FixtureGen.Geometry;
using FixtureGen.Holding;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Support;

/// <summary>Small designs straight from an outline, enough for holding: zone, cord, contact and trim cuts.</summary>
internal static class HeldDesigns
{
    public static Job Job(string more = "") => DemoShop.Job(DemoShop.PlainJob(more: more));

    /// <summary>The factors alone: what would mend a low hold is not tried, which takes most of the time.</summary>
    public static HoldingResult Hold(FixtureDesign design, Job job) =>
        HoldingAnalysis.Context(design, job, Tolerances.House).Value!.Evaluate(design.Magnets);

    public static Part Part(Contour outer, params Contour[] cutouts) =>
        new(outer, [.. cutouts.Select(Contours.Cw)], [], [], [], []);

    /// <summary>A rounded rectangle of about 600 mm round the trim.</summary>
    public static Part Plain => Part(Contours.RoundedRectangle(new Box2(40, 40, 210, 175), 15));

    /// <param name="part">In the plate frame.</param>
    /// <param name="job">The job.</param>
    /// <param name="looped">False leaves the cutouts inside the sealed zone, without loops of their own.</param>
    /// <param name="magnets">Places, plate frame.</param>
    public static FixtureDesign Of(Part part, Job job, bool looped = true, params Point2[] magnets)
    {
        Kernel kernel = new(Tolerances.House);
        double side = job.Rules.SideClearance;
        double keep = side + job.Rules.Land + (job.Gasket.GrooveWidth / 2);
        Region[] holes = [.. part.Cutouts.Select(c => Region.From(Contours.Ccw(c)))];
        ImmutableArray<Region> within = kernel.Offset(Region.From(part.Outer), -keep);
        if (looped)
        {
            within = kernel.Difference(within, kernel.Offset(holes, keep));
        }
        ImmutableArray<SealedZone> zones =
        [
            .. within.Select(
                (z, i) => new SealedZone(i, z, kernel.Offset(z, -job.Gasket.GrooveWidth / 2), Roomiest(z), "port")
            ),
        ];
        ImmutableArray<CordLoop> cords =
        [
            .. zones.SelectMany(z =>
                z.Boundary.Contours.Select(c => new CordLoop(
                    c,
                    Measure.Length(c),
                    Measure.Length(c) * 1.015,
                    default,
                    z.Index,
                    c == z.Boundary.Outer
                ))
            ),
        ];
        ImmutableArray<Region> rests = kernel.Difference(
            kernel.Offset(Region.From(part.Outer), -side),
            kernel.Offset(holes, side)
        );
        Region[] grooves = [.. cords.SelectMany(c => kernel.Stroke(c.Centre, job.Gasket.GrooveWidth))];
        Stage<ImmutableArray<TrimCut>> trims = TrimPlanner.Plan(part, job, kernel);
        Assert.True(trims.Ok, string.Join('\n', trims.Findings));
        return new FixtureDesign
        {
            Part = part,
            Placement = new Placement(new Pose(0, 0, 0), job.Blank, new Box2(0, 0, job.Blank.Width, job.Blank.Height)),
            FixtureHeight = job.Rules.FixtureHeight,
            RawThickness = job.BlankThickness,
            Flip = null,
            Zones = zones,
            Cords = cords,
            Magnets = [.. magnets.Select(m => new MagnetPlace(m, false, false))],
            TrimCuts = trims.Value,
            Features = [],
            VacuumPath = [],
            Contact = kernel.Difference(rests, grooves),
            Label = "",
        };
    }

    private static Point2 Roomiest(Region zone)
    {
        Box2 box = Measure.Bounds(zone);
        return Enumerable
            .Range(0, 400)
            .Select(i => new Point2(
                box.MinX + (box.Width * ((i % 20) + 0.5) / 20),
                box.MinY + (box.Height * ((i / 20) + 0.5) / 20)
            ))
            .Where(p => Inside.Contains(zone, p))
            .MaxBy(p => Math.Round(Measure.Distance(p, zone), 6));
    }
}
