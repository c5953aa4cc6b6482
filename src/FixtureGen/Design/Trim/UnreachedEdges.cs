using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Shop.Jobs;

namespace FixtureGen.Design.Trim;

/// <summary>What of a part's edges the shop's rack does not cut as drawn, before anything is designed: for the questions of a fresh job.</summary>
public static class UnreachedEdges
{
    /// <summary>More than this, mm, is no corner but a bay narrower than the cutter: its refusal says so.</summary>
    private const double MostLeft = 5;

    /// <param name="part">In the drawing's frame.</param>
    /// <param name="job">With the shop's rack and the shell; what it says of small holes and corners does not matter.</param>
    public static EdgeFacts Find(Part part, Job job, Tolerances tolerances)
    {
        Kernel kernel = new(tolerances);
        double deep = job.Shell.ThicknessMax + job.Rules.TipBelowShell;
        Tool[] mills =
        [
            .. job
                .Tools.Where(t => t.Kind == ToolKind.EndMill && t.FluteLength >= deep)
                .OrderByDescending(t => t.Diameter),
        ];
        Tool[] trimmers = [.. mills.Where(t => t.Flutes == 1)];
        if (trimmers.Length == 0)
        {
            return EdgeFacts.None;
        }
        Contour[] small = [.. part.Cutouts.Where(c => !trimmers.Any(t => SecondCutter.Fits(c, t, kernel)))];
        EdgeFacts facts = Corners(part.Outer, [.. part.Cutouts.Except(small)], mills, job.Rules.CornerLeft, kernel);
        Job thinnest = job with { SmallHoles = SmallHoles.Drill, TrimTool = trimmers[^1] };
        return DrillChoice.ForCutouts([.. small], thinnest, kernel).All(d => d is not null)
            ? facts
            : facts with
            {
                SmallHoles = small.Length,
                Narrowest = small.Min(Width),
                SecondCutterDoes = small.All(c => mills.Any(t => SecondCutter.Fits(c, t, kernel))),
                AllRound = small.All(DrillChoice.IsRound),
            };
    }

    private static double Width(Contour cutout)
    {
        Box2 box = Measure.Bounds(cutout);
        return Math.Min(box.Width, box.Height);
    }

    /// <summary>The corners that the end mill that reaches farthest into them leaves.</summary>
    private static EdgeFacts Corners(Contour outer, Contour[] cutouts, Tool[] mills, double allowed, Kernel kernel)
    {
        (Tool Tool, double Left, int Count) best = mills
            .Select(t => Left(outer, cutouts, t, allowed, kernel))
            .MinBy(l => Math.Round(l.Left, 4));
        return best.Left <= allowed || best.Left > MostLeft
            ? EdgeFacts.None
            : new EdgeFacts
            {
                Corners = best.Count,
                CornerLeft = best.Left,
                Cutter = best.Tool.Name,
            };
    }

    private static (Tool Tool, double Left, int Count) Left(
        Contour outer,
        Contour[] cutouts,
        Tool tool,
        double allowed,
        Kernel kernel
    )
    {
        var left = new List<double>();
        Region around = kernel.Offset(Region.From(outer), tool.Radius).MaxBy(Measure.Area)!;
        left.AddRange(TrimReach.Left(outer, around.Outer, tool));
        foreach (Contour cutout in cutouts)
        {
            ImmutableArray<Region> inner = kernel.Offset(Region.From(Contours.Ccw(cutout)), -tool.Radius);
            if (inner.Length != 1)
            {
                return (tool, double.MaxValue, 0);
            }
            left.AddRange(TrimReach.Left(cutout, inner[0].Outer, tool));
        }
        return (tool, left.DefaultIfEmpty(0).Max(), left.Count(l => l > allowed));
    }
}
