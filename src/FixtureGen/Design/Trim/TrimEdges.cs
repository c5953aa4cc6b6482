using System.Collections.Immutable;
using FixtureGen.Design.Block;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Trim;

/// <summary>One finished edge made into one trim cut: centre line, start and leads, slug, tabs, sweep.</summary>
internal static class TrimEdges
{
    /// <summary>Step between the rings of a slug that is milled away, in cutter diameters; below one half no core is left.</summary>
    private const double ClearingStep = 0.4;

    /// <summary>The least radius of a lead that is worth naming, mm; leads are tried at shares of it too (common practice, no source).</summary>
    private const double LeastLead = 0.5;

    public static Stage<TrimCut> Outline(Contour outer, Job job, Kernel kernel)
    {
        Tool tool = job.TrimTool;
        Contour line = Around(tool);
        List<Finding> findings =
        [
            .. TrimReach.Standing(
                "outline",
                outer,
                line,
                tool,
                job.Rules.CornerLeft,
                () => Thinner(job, t => TrimReach.Worst(outer, Around(t), t))
            ),
        ];
        TrimStart? start = TrimLeads.Choose(line, outer, tool.Radius, job.Rules.LeadRadius);
        if (start is null)
        {
            return Stage.Failed<TrimCut>([.. findings, TrimFindings.NoLead("outline", line, SmallerLead(line))]);
        }
        ImmutableArray<Tab> tabs = [];
        if (job.Skirt == SkirtHold.Tabs)
        {
            tabs = TrimTabs.Place(start.Path, TrimTabs.OutlineCount(start.Path), job.Rules.TabLength, tool.Diameter);
            if (tabs.IsEmpty)
            {
                findings.Add(TrimFindings.NoTabRoom("outline", start.Path, job.Rules.TabLength, tool.Diameter));
            }
        }
        return Stage.Answer(
            new TrimCut
            {
                Name = "outline",
                Kind = TrimKind.Outline,
                Edge = outer,
                Path = start.Path,
                LeadIn = start.In,
                LeadOut = start.Out,
                Clearing = [],
                Tabs = tabs,
                Hold = SlugHold.Skirt,
                Tool = tool,
                FloorZ = Levels.From(job).TrimTip,
                Sweep = Swept(start, tool, kernel),
            },
            findings
        );

        double? SmallerLead(Contour path) =>
            TrimLeads.Choose(path, outer, tool.Radius, LeastLead) is null ? null : LeastLead;

        Contour Around(Tool t) =>
            Contours.Reverse(kernel.Offset(Region.From(outer), t.Radius).MaxBy(r => Measure.Area(r))!.Outer);
    }

    // The thickest end mill thinner than the trim cutter that leaves no more than is allowed.
    private static string Thinner(Job job, Func<Tool, double?> left)
    {
        foreach (Tool other in SecondCutter.Candidates(job))
        {
            if (left(other) is { } rest && rest <= job.Rules.CornerLeft)
            {
                return $"name trim_tool = \"{other.Name}\", which was tried and reaches";
            }
        }
        return "";
    }

    /// <summary>A cutout cut by the trim cutter or by a thinner one.</summary>
    public static Stage<TrimCut> Cutout(string name, Contour cutout, Tool tool, Job job, Kernel kernel)
    {
        Region hole = Region.From(Contours.Reverse(cutout));
        ImmutableArray<Region> inner = kernel.Offset(hole, -tool.Radius);
        if (inner.IsEmpty)
        {
            return Stage.Failed<TrimCut>(
                TrimFindings.CutoutTooSmall(
                    name,
                    hole,
                    tool,
                    kernel,
                    Thinner(job, Left),
                    DrillChoice.WouldDrill(cutout, job)
                )
            );
        }
        if (inner.Length > 1)
        {
            return Stage.Failed<TrimCut>(TrimFindings.CutoutNeck(name, inner, tool, Thinner(job, Left)));
        }
        Contour line = inner[0].Outer;
        List<Finding> findings =
        [
            .. TrimReach.Standing(name, cutout, line, tool, job.Rules.CornerLeft, () => Thinner(job, Left)),
        ];
        TrimStart start =
            TrimLeads.Choose(line, cutout, tool.Radius, job.Rules.LeadRadius) ?? TrimLeads.AlongItself(line);
        ImmutableArray<Tab> tabs = IsMilledAway(hole, tool, job, kernel)
            ? []
            : TrimTabs.Place(start.Path, TrimTabs.SlugCount(start.Path), job.Rules.TabLength, tool.Diameter);
        bool milled = tabs.IsEmpty;
        return Stage.Answer(
            new TrimCut
            {
                Name = name,
                Kind = TrimKind.Cutout,
                Edge = cutout,
                Path = start.Path,
                LeadIn = start.In,
                LeadOut = start.Out,
                Clearing = milled ? ClearingRings(hole, tool, kernel) : [],
                Tabs = tabs,
                Hold = milled ? SlugHold.MilledAway : SlugHold.Tabbed,
                Tool = tool,
                FloorZ = Levels.From(job).TrimTip,
                Sweep = milled ? kernel.Offset(inner, tool.Radius) : Swept(start, tool, kernel),
            },
            findings
        );

        double? Left(Tool other) =>
            kernel.Offset(hole, -other.Radius) is [Region one] ? TrimReach.Worst(cutout, one.Outer, other) : null;
    }

    /// <summary>
    /// True when the slug is under three cutter diameters in its narrowest sense (no disc of that size fits in the cutout)
    /// or under the stated length in its longest.
    /// </summary>
    private static bool IsMilledAway(Region hole, Tool tool, Job job, Kernel kernel)
    {
        Box2 box = Measure.Bounds(hole.Outer);
        return Math.Max(box.Width, box.Height) < job.Rules.SlugMilledBelow
            || kernel.Offset(hole, -1.5 * tool.Diameter).IsEmpty;
    }

    /// <summary>From the middle outward: what a slug or room is milled away by, but for the cut along its edge.</summary>
    public static ImmutableArray<Contour> ClearingRings(Region hole, Tool tool, Kernel kernel)
    {
        double step = ClearingStep * tool.Diameter;
        return
        [
            .. kernel
                .Rings([hole], tool.Radius + step, step)
                .Reverse()
                .SelectMany(level => level)
                .SelectMany(region => region.Contours),
        ];
    }

    private static ImmutableArray<Region> Swept(TrimStart start, Tool tool, Kernel kernel) =>
        kernel.UnionAll([
            .. kernel.Stroke(start.Path, tool.Diameter),
            .. kernel.Stroke(start.In, tool.Diameter),
            .. kernel.Stroke(start.Out, tool.Diameter),
        ]);
}
