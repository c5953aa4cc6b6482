using System.Collections.Immutable;
using FixtureGen.Design.Block;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Forms;

/// <summary>
/// A form that hangs down from the shell gets a pocket: its edge (on the shell's underside) outset by the running
/// clearance, as deep as the form is high plus that clearance, so that the form locates and never bottoms. It is
/// kept out of the seal; a form that stands up needs no pocket, and lies in the seal where the flange lets a loop go round it.
/// </summary>
internal static class FormPockets
{
    public static Stage<ImmutableArray<PocketFeature>> Cut(Part placed, Levels levels, Job job, Kernel kernel)
    {
        List<Finding> findings = [];
        List<PocketFeature> pockets = [];
        double cutter = SmallestEndMill(job);
        for (int i = 0; i < placed.Forms.Length; i++)
        {
            FormRegion form = placed.Forms[i];
            string name = Names.Numbered("form pocket", i + 1);
            if (form.Direction != FormDirection.Down)
            {
                continue;
            }
            double floor = levels.Face - form.Height - job.Rules.RunningClearance;
            Point2 at = Measure.Bounds(form.Edge).Middle;
            if (floor < job.Rules.LeastFloor)
            {
                Finding thin = BlockFindings.FloorThin(name, at, floor, job.Rules.LeastFloor);
                findings.Add(Thicker(form, levels, job) is { } stock ? thin with { Remedy = stock } : thin);
            }
            if (job.Rules.RunningClearance < job.Shell.SlackMin)
            {
                findings.Add(LocatorFindings.NestTooTight(name, at, job.Rules.RunningClearance, job.Shell.SlackMin));
            }
            ImmutableArray<Region> area = kernel.Offset(
                [Region.From(Contours.Ccw(form.Edge))],
                job.Rules.RunningClearance
            );
            findings.AddRange(CheckCorners(name, area, cutter, kernel));
            pockets.Add(
                new()
                {
                    Name = name,
                    Kind = FeatureKind.FormPocket,
                    Setup = Setup.Top,
                    Area = area,
                    TopZ = levels.Face,
                    FloorZ = floor,
                    Removals = [new(Setup.Top, FeatureKind.FormPocket, name, area, levels.Face, floor)],
                }
            );
        }
        return Stage.Answer(pockets.ToImmutableArray(), findings);
    }

    /// <summary>Domes that a zone goes round on a loop of their own: they stand within the outer loop and yet outside the seal.</summary>
    public static IEnumerable<Finding> Domes(Part placed, IReadOnlyList<SealedZone> zones)
    {
        for (int i = 0; i < placed.Forms.Length; i++)
        {
            FormRegion form = placed.Forms[i];
            Point2 at = Measure.Bounds(form.Edge).Middle;
            if (
                form.Direction == FormDirection.Up
                && zones.Any(z => Inside.Contains(z.Boundary.Outer, form.Edge.Segments[0].Start))
                && !zones.Any(z => Inside.Contains(z.Boundary, form.Edge.Segments[0].Start))
            )
            {
                yield return LocatorFindings.FormUpInSeal(i + 1, at, form.Height);
            }
        }
    }

    /// <summary>The thinnest blank of the shop that the form fits into, as a remedy; null where there is none.</summary>
    private static string? Thicker(FormRegion form, Levels levels, Job job)
    {
        double needed =
            form.Height + job.Rules.RunningClearance + job.Rules.LeastFloor + Math.Max(0, levels.Raw - levels.Face);
        Blank? stock = job
            .OtherBlanks.Where(b => b.Thickness >= needed && b.Width >= job.Blank.Width && b.Height >= job.Blank.Height)
            .MinBy(b => b.Thickness);
        return stock is null
            ? null
            : $"take the blank {stock.Name}, {FindingWords.Mm(stock.Thickness)} thick, and leave rules.fixture_height out; the form needs one of {FindingWords.Mm(needed)} or more";
    }

    private static double SmallestEndMill(Job job) =>
        job.Tools.Where(t => t.Kind == ToolKind.EndMill).Select(t => t.Radius).DefaultIfEmpty(0).Min();

    /// <summary>What the smallest cutter leaves in the corners holds the shell off its seat.</summary>
    private static IEnumerable<Finding> CheckCorners(
        string name,
        ImmutableArray<Region> area,
        double cutter,
        Kernel kernel
    )
    {
        ImmutableArray<Region> cut = kernel.Open(area, cutter);
        ImmutableArray<Region> left = kernel.Difference(area, kernel.Offset(cut, 0.02));
        if (left.Length > 0)
        {
            double most = cut.IsEmpty
                ? cutter
                : left.SelectMany(r => Flatten.Points(r.Outer, 0.01)).Max(p => cut.Min(c => Measure.Distance(p, c)));
            yield return LocatorFindings.FormCornerTight(name, Measure.Bounds(left[0].Outer).Middle, most, cutter);
        }
    }
}
