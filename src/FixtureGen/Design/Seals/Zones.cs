using System.Collections.Immutable;
using FixtureGen.Design.Block;
using FixtureGen.Design.Forms;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Seals;

/// <summary>
/// Where the seal runs. The room for a groove's centre line is the outline less everything the block gives way to,
/// each kept clear by a land and half a groove; the cord's bend then rounds it, loop by loop. What falls apart at a neck
/// becomes zones of its own, and what is too small for a port is dropped; each has a finding.
/// </summary>
internal static class Zones
{
    /// <summary>What is wanted of a search for zones.</summary>
    private enum Asked
    {
        /// <summary>The zones, and what would mend what they lack.</summary>
        All,

        /// <summary>The zones alone.</summary>
        Area,

        /// <summary>Whether there is room at all: the first loops that fit will do.</summary>
        Room,
    }

    /// <summary>
    /// The least radius of a groove's centre line, mm: the inside wall's bend and half the groove, and never so little
    /// that two neighbouring grooves have less than a land between them.
    /// </summary>
    public static double CentreRadius(Job job) =>
        Math.Max(job.Gasket.InsideBendRadius, job.Rules.Land / 2) + (job.Gasket.GrooveWidth / 2);

    /// <summary>From a centre line to whatever a land must stand beside, mm.</summary>
    public static double Keep(Job job) => job.Rules.Land + (job.Gasket.GrooveWidth / 2);

    private static OwnLoops.Measures Spacing(Job job) =>
        new(
            Keep(job),
            CentreRadius(job),
            job.Gasket.GrooveWidth + Math.Max(job.Rules.Land, job.Rules.Wall),
            Keep(job) + NetWidth.HalfPassage(job),
            job.Rules.NetReach + (NetWidth.Choose(job)?.Radius ?? 0),
            job.Gasket.GrooveWidth / 2,
            Keep(job) + (PortSize.LeastDiameter / 2)
        );

    /// <summary>
    /// The zones, with the forms that rise from the flange inside where the flange has room for a loop round them; those that it
    /// has none for are named, and the seal keeps clear of them.
    /// </summary>
    /// <param name="placed">The part in the plate frame.</param>
    /// <param name="given">Reliefs and pockets of the block, plate frame.</param>
    /// <returns>None where the job is held by magnets alone.</returns>
    public static Stage<ImmutableArray<Region>> Find(Part placed, IReadOnlyList<Region> given, Job job, Kernel kernel)
    {
        if (job.HoldBy == HoldBy.Magnets)
        {
            return Stage.Answer(ImmutableArray<Region>.Empty);
        }
        List<Finding> narrow = [];
        ImmutableArray<int> inside = FormStrength.Closed(placed, kernel);
        while (true)
        {
            Stage<ImmutableArray<Region>> zones = Find(placed, given, inside, job, Asked.All, kernel);
            SealedForms.Crossed[] crossed = zones.Ok
                ? [.. SealedForms.OutOf(zones.Value, placed, inside, job, kernel)]
                : [];
            if (crossed.Length == 0)
            {
                Severity said = zones.Ok ? Severity.Warning : Severity.Error;
                return zones with { Findings = [.. narrow.Select(f => f with { Severity = said }), .. zones.Findings] };
            }
            narrow.AddRange(
                crossed.Select(c =>
                {
                    double by = Math.Ceiling(c.By * 100) / 100;
                    return ZoneFindings.FlangeNarrow(c.Form + 1, c.At, by, WouldGoRound(c.Form, by));
                })
            );
            inside = [.. inside.Except(crossed.Select(c => c.Form))];
        }

        string WouldGoRound(int form, double by)
        {
            ImmutableArray<int> tried = inside;
            return LoopRemedy.Find(
                job,
                other =>
                    Find(placed, given, tried, other, Asked.Room, kernel) is { Ok: true } zones
                    && SealedForms.OutOf(zones.Value, placed, tried, other, kernel).All(c => c.Form != form),
                $"form a flange {FindingWords.Mm(by)} wider"
            );
        }
    }

    /// <param name="inside">Numbers of the forms that the seal may go round.</param>
    /// <param name="asked">How much is wanted of the search.</param>
    private static Stage<ImmutableArray<Region>> Find(
        Part placed,
        IReadOnlyList<Region> given,
        ImmutableArray<int> inside,
        Job job,
        Asked asked,
        Kernel kernel
    )
    {
        string WouldDo() =>
            asked == Asked.All
                ? LoopRemedy.Find(job, other => Find(placed, given, inside, other, Asked.Room, kernel).Ok)
                : "";

        string WouldSeal(IReadOnlyList<Region> left) =>
            asked == Asked.All
                ? LoopRemedy.ForArea(
                    job,
                    left.Sum(Measure.Area),
                    other =>
                        Find(placed, given, inside, other, Asked.Area, kernel) is { Ok: true } zones
                            ? kernel.Intersect([.. left], zones.Value).Sum(Measure.Area)
                            : 0
                )
                : "";

        ImmutableArray<Region> cores = Cores(placed, given, inside, kernel);
        double radius = CentreRadius(job);
        ImmutableArray<Region> room = kernel.Difference([Region.From(placed.Outer)], kernel.Offset(cores, Keep(job)));
        OwnLoops.Measures m = Spacing(job);
        OwnLoops loops = new(room, cores, SealedForms.Lands(placed, inside, job, kernel), m, kernel);
        LoopChoice choice = new(loops, m);
        OwnLoops.Layout layout = asked == Asked.Room ? choice.First() : choice.Best();
        BendRadius.Rounded rounded = layout.Rounded;
        if (rounded.Sharp.Length > 0)
        {
            Point2 at = Measure.Bounds(rounded.Sharp[0].Outer).Middle;
            return Stage.Failed<ImmutableArray<Region>>(ZoneFindings.BendTooTight(at, radius, WouldDo()));
        }
        List<Finding> findings = [];
        ImmutableArray<Region> kept = WithRoomForAPort(rounded.Zone, job, WouldSeal, kernel, findings);
        if (kept.Length == 0)
        {
            double widest = Widest.Radius(room, 10 * radius, kernel);
            Point2 middle = Measure.Bounds(placed.Outer).Middle;
            findings.Add(ZoneFindings.NoZone(middle, 2 * widest, 2 * radius, Keep(job), WouldDo()));
            return Stage.Failed<ImmutableArray<Region>>(findings);
        }
        findings.AddRange(Necks.Between(room, kept, radius, kernel));
        findings.AddRange(LostRoom.Find(room, kept, radius, WouldSeal, kernel));
        findings.AddRange(new JoinedCutouts(placed, loops, choice, layout, m).Notes(kept));
        return Stage.Answer(kept, findings);
    }

    /// <summary>What a groove keeps clear of; it is one area so that it can be outset together.</summary>
    private static ImmutableArray<Region> Cores(
        Part placed,
        IReadOnlyList<Region> given,
        ImmutableArray<int> inside,
        Kernel kernel
    ) =>
        kernel.UnionAll([
            .. given,
            .. placed.Cutouts.Select(c => Region.From(Contours.Ccw(c))),
            .. placed.Forms.Where((_, i) => !inside.Contains(i)).Select(f => Region.From(Contours.Ccw(f.Edge))),
            .. placed.KeepOuts.Select(k => Region.From(Contours.Ccw(k))),
        ]);

    private static ImmutableArray<Region> WithRoomForAPort(
        ImmutableArray<Region> zones,
        Job job,
        Func<IReadOnlyList<Region>, string> wouldSeal,
        Kernel kernel,
        List<Finding> findings
    )
    {
        List<Region> kept = [];
        List<Region> dropped = [];
        double needed = Keep(job) + (PortSize.LeastDiameter / 2);
        foreach (Region zone in zones.OrderByDescending(z => Math.Round(Measure.Area(z), 3)))
        {
            if (kernel.Offset([zone], -needed).Length > 0)
            {
                kept.Add(zone);
                continue;
            }
            dropped.Add(zone);
        }
        if (dropped.Count > 0)
        {
            double widest = Widest.Radius([dropped[0]], needed, kernel);
            findings.Add(
                ZoneFindings.ZoneDropped(
                    [.. dropped.Select(z => (Measure.Bounds(z.Outer).Middle, Measure.Area(z)))],
                    2 * widest,
                    2 * needed,
                    wouldSeal(dropped)
                )
            );
        }
        return [.. kept];
    }
}
