using System.Collections.Immutable;
using FixtureGen.Design.Block;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Forms;

/// <summary>
/// What finds the shell's place before the vacuum does: a form that nests, pins in the scrap, or a hand. Nothing stated
/// is refused, because a shell that lies wrong is trimmed wrong.
/// </summary>
internal static class Locators
{
    /// <summary>A locator pin is pressed in to this depth, mm (common practice, no source).</summary>
    internal const double PressDepth = 8;

    public static Stage<ImmutableArray<Feature>> Place(
        Pose pose,
        Part placed,
        IReadOnlyList<Region> relief,
        IReadOnlyList<Obstacle> obstacles,
        Box2 block,
        Levels levels,
        Job job
    )
    {
        switch (job.Locator)
        {
            case LocatorKind.Form when placed.Forms.Any(f => f.Direction == FormDirection.Down || f.Plugged):
                return Stage.Answer(ImmutableArray<Feature>.Empty);
            case LocatorKind.Form:
                return Stage.Failed<ImmutableArray<Feature>>(LocatorFindings.NoFormToNest());
            case LocatorKind.Hand:
                return Stage.Answer(ImmutableArray<Feature>.Empty, [LocatorFindings.LocatedByHand(job.Shell.SlackMax)]);
            case LocatorKind.Pins:
                return PinHoles(pose, relief, obstacles, block, levels, job);
            default:
                return Stage.Failed<ImmutableArray<Feature>>(LocatorFindings.NoLocator());
        }
    }

    private static Stage<ImmutableArray<Feature>> PinHoles(
        Pose pose,
        IReadOnlyList<Region> relief,
        IReadOnlyList<Obstacle> obstacles,
        Box2 block,
        Levels levels,
        Job job
    )
    {
        if (job.LocatorPins.Length < 2)
        {
            return Stage.Failed<ImmutableArray<Feature>>(LocatorFindings.TooFewLocatorPins(job.LocatorPins.Length));
        }
        List<Finding> findings = [];
        List<Feature> holes = [];
        double radius = job.Rules.LocatorPinDiameter / 2;
        double keep = radius + job.Rules.Wall;
        foreach (Point2 pin in job.LocatorPins)
        {
            Point2 at = Transform.Apply(pose, pin);
            string name = Names.Numbered("locator pin", holes.Count + 1);
            double toRelief = relief.SelectMany(r => r.Contours).Min(c => Measure.Distance(at, c));
            bool over = Inside.Contains(relief, at) || Inside.Contains(Contours.Ccw(relief[0].Outer), at);
            double shortBy = over ? keep + toRelief : keep - toRelief;
            if (shortBy > 0)
            {
                findings.Add(LocatorFindings.LocatorInTheWay(name, at, "relief", shortBy));
            }
            if (!block.Outset(-(keep + job.Plate.PlacingTolerance)).Contains(at))
            {
                findings.Add(BlockFindings.HoleOverEdge(name, at, keep + job.Plate.PlacingTolerance));
            }
            findings.AddRange(
                obstacles
                    .Where(o => o.At.DistanceTo(at) < o.Radius + keep)
                    .Select(o =>
                        LocatorFindings.LocatorInTheWay(name, at, o.Name, o.Radius + keep - o.At.DistanceTo(at))
                    )
            );
            holes.Add(
                RoundHole.Make(
                    name,
                    FeatureKind.LocatorHole,
                    Setup.Top,
                    at,
                    job.Rules.LocatorPinDiameter,
                    levels.Face,
                    Math.Max(levels.Face - PressDepth, job.Rules.LeastFloor)
                )
            );
        }
        if (job.Rules.LocatorHoleClearance < 2 * job.Shell.SlackMin)
        {
            findings.Add(LocatorFindings.LocatorHoleTight(job.Rules.LocatorHoleClearance, job.Shell.SlackMin));
        }
        findings.AddRange(OverConstrained(job));
        return Stage.Answer(holes.ToImmutableArray(), findings);
    }

    /// <summary>Two round holes bind a shell that shrank more or less than the block was made for by more than their clearance.</summary>
    private static IEnumerable<Finding> OverConstrained(Job job)
    {
        if (job.LocatorHoles != LocatorHoles.Round)
        {
            yield break;
        }
        (int first, int second) = Enumerable
            .Range(0, job.LocatorPins.Length)
            .SelectMany(i => Enumerable.Range(i + 1, job.LocatorPins.Length - i - 1).Select(k => (i, k)))
            .MaxBy(p => job.LocatorPins[p.i].DistanceTo(job.LocatorPins[p.k]));
        double distance = job.LocatorPins[first].DistanceTo(job.LocatorPins[second]);
        double? spread = job.ShellMaterial.Sheet is { } sheet
            ? (sheet.Shrinkage.Greatest - sheet.Shrinkage.Least) * distance
            : null;
        if (spread is null || spread > job.Rules.LocatorHoleClearance)
        {
            yield return LocatorFindings.LocatorOverConstrained(
                Names.Numbered("locator pin", first + 1),
                Names.Numbered("locator pin", second + 1),
                distance,
                spread,
                job.Rules.LocatorHoleClearance
            );
        }
    }
}
