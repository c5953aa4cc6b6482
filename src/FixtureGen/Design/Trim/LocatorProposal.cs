using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Shop.Jobs;

namespace FixtureGen.Design.Trim;

/// <summary>
/// Places for the two pins that locate a shell by holes in its scrap: opposite each other on a line through the part's middle, the
/// longest way first, for the farther apart they stand the less a shell turns in its play. Each stands clear of the outline's relief
/// and so far from the cut that the sheet beside its hole bears what the pin can.
/// </summary>
internal static class LocatorProposal
{
    /// <summary>From the cutter's sweep to a pin's middle, in pin diameters: beyond two the sheet bears no more (common practice, no source).</summary>
    private const double FromSweep = 2.2;

    /// <summary>Nearer in where the blank has no room for that, in pin diameters.</summary>
    private const double Nearer = 1.5;

    private const double Step = 0.5;

    private const double Farthest = 60;

    /// <summary>Turns of the line against the part's longer side, degrees.</summary>
    private static readonly ImmutableArray<double> Turns = [0, 90, 30, -30, 60, -60, 15, -15, 45, -45, 75, -75];

    /// <summary>Pairs in the part frame, mm, as a job would state them; the best first. None where the part has no trim.</summary>
    /// <param name="trims">The trim in the part frame.</param>
    public static IEnumerable<ImmutableArray<Point2>> Pairs(
        Part part,
        ImmutableArray<TrimCut> trims,
        Job job,
        Kernel kernel
    )
    {
        if (trims.FirstOrDefault(c => c.Kind == TrimKind.Outline) is not { } outline)
        {
            yield break;
        }
        ImmutableArray<Region> around = Relief.Around(outline, trims, job, kernel);
        Box2 box = Measure.Bounds(part.Outer);
        double along = box.Width >= box.Height ? 0 : 90;
        double reach = new Point2(box.Width, box.Height).Length;
        foreach (double apart in (double[])[FromSweep, Nearer])
        {
            foreach (double turn in Turns)
            {
                double angle = (along + turn) * Math.PI / 180;
                Point2 way = new(Math.Cos(angle), Math.Sin(angle));
                if (
                    Outwards(box.Middle, way * -1, reach, apart, outline, around, job) is { } first
                    && Outwards(box.Middle, way, reach, apart, outline, around, job) is { } second
                )
                {
                    yield return [Written(first, job), Written(second, job)];
                }
            }
        }
    }

    /// <summary>The first place on a ray from the middle, beyond the outline, that is clear; null where there is none near the part.</summary>
    private static Point2? Outwards(
        Point2 middle,
        Point2 way,
        double reach,
        double apart,
        TrimCut outline,
        ImmutableArray<Region> around,
        Job job
    )
    {
        double radius = job.Rules.LocatorPinDiameter / 2;
        double toRelief = radius + job.Rules.Wall + (Step / 2);
        double toSweep = apart * job.Rules.LocatorPinDiameter;
        double from = Math.Ceiling(Beyond(middle, way, reach, outline.Path) / Step) * Step;
        for (double away = from; away <= from + Farthest; away += Step)
        {
            Point2 at = middle + (way * away);
            if (
                !Inside.Contains(around, at)
                && around.SelectMany(r => r.Contours).All(c => Measure.Distance(at, c) >= toRelief)
                && outline.Sweep.SelectMany(r => r.Contours).All(c => Measure.Distance(at, c) >= toSweep)
            )
            {
                return at;
            }
        }
        return null;
    }

    /// <summary>How far out the path lies on a ray, mm: walked in from beyond it.</summary>
    private static double Beyond(Point2 middle, Point2 way, double reach, Contour path)
    {
        double at = reach;
        while (at > 0 && !Inside.Contains(path, middle + (way * at)))
        {
            at -= Step;
        }
        return Math.Max(at, 0);
    }

    private static Point2 Written(Point2 p, Job job) => WrittenPlace.InPart(p, new Pose(0, 0, 0), job);
}
