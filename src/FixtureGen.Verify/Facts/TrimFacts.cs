using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Shape;

namespace FixtureGen.Verify.Facts;

/// <summary>
/// The planned trim against drawing and job: every drawn edge has one cut or, where the job lets it be drilled, one drill, on its scrap side, by the job's cutter and as deep as the job
/// says, cutouts before the outline, climbing, with the bridges that the job asks for. How the program really runs is judged apart
/// (<see cref="EdgeFit"/>); bridges and floors are compared with these.
/// </summary>
internal static class TrimFacts
{
    public static void Check(FactRun facts)
    {
        List<TrimCut> left = [.. facts.Design.TrimCuts];
        List<DrilledHole> holes = [.. facts.Design.DrilledHoles];
        foreach ((int i, ImmutableArray<Piece> edge) in facts.Drawing.Cutouts.Append(facts.Drawing.Outer).Index())
        {
            TrimKind kind = i < facts.Drawing.Cutouts.Length ? TrimKind.Cutout : TrimKind.Outline;
            PieceBins drawn = new(edge, 4);
            TrimCut? cut = left.Find(c => c.Kind == kind && Along(c.Edge, drawn));
            if (cut is null && kind == TrimKind.Cutout && holes.Find(h => Along(h.Edge, drawn)) is { } hole)
            {
                holes.Remove(hole);
                DrilledHoleFacts.Check(facts, hole, edge);
                continue;
            }
            if (cut is null)
            {
                string what = kind == TrimKind.Cutout ? FormattableString.Invariant($"cutout {i + 1}") : "the outline";
                FactFindings.Missing(facts, $"a trim of {what} along its drawn edge", edge[0].A, Setup.Trim);
                continue;
            }
            left.Remove(cut);
            Way(facts, cut, edge, drawn);
            Depth(facts, cut);
            Tabs(facts, cut);
        }
        foreach (TrimCut corner in left.Where(c => c.Kind == TrimKind.Corner).ToArray())
        {
            left.Remove(corner);
            CornerFacts.Check(facts, corner);
            Depth(facts, corner);
        }
        foreach (TrimCut cut in left)
        {
            FactFindings.Unasked(facts, cut.Name, cut.Path.Segments[0].Start, Setup.Trim);
        }
        foreach (DrilledHole hole in holes)
        {
            FactFindings.Unasked(facts, hole.Name, hole.At, Setup.Trim);
        }
        ImmutableArray<TrimCut> cuts = facts.Design.TrimCuts;
        if (cuts.Length > 0 && cuts[^1].Kind != TrimKind.Outline)
        {
            FactFindings.Trim(
                facts,
                cuts[^1].Name,
                "it comes after the outline, when nothing holds the part",
                cuts[^1].Path.Segments[0].Start
            );
        }
    }

    private static bool Along(Contour finished, PieceBins drawn)
    {
        ImmutableArray<Piece> edge = Spread.PiecesOf(finished.Segments);
        return !edge.IsEmpty && Spread.Find(edge, drawn, 0, Fits.Drawing).Greatest <= Fits.Drawing;
    }

    private static void Way(FactRun facts, TrimCut cut, ImmutableArray<Piece> edge, PieceBins drawn)
    {
        Tool tool = Cutter(facts.Job, cut);
        ImmutableArray<Piece> path = Spread.PiecesOf(cut.Path.Segments);
        bool inside = new Area(edge).Contains(path[0].PointAt(0.5));
        if (inside != (cut.Kind == TrimKind.Cutout))
        {
            FactFindings.Trim(facts, cut.Name, "it runs on the part's side of the edge", path[0].A);
        }
        Spread off = Spread.Find(path, drawn, tool.Radius - Fits.Place, tool.Radius + Fits.Place);
        if (off.Least < tool.Radius - Fits.Place || off.Greatest > tool.Radius + Fits.Place)
        {
            bool near = off.Least < tool.Radius - Fits.Place;
            double by = near ? off.Least - tool.Radius : off.Greatest - tool.Radius;
            FactFindings.Wall(facts, cut.Name, near ? off.LeastAt : off.GreatestAt, by, Fits.Place, Setup.Trim);
        }
        bool left = Turn(path) > 0;
        if (left != (cut.Kind == TrimKind.Cutout))
        {
            FactFindings.Trim(facts, cut.Name, "it runs against climb milling", path[0].A);
        }
        if (cut.Tool != tool)
        {
            FactFindings.Named(facts, $"the cutter of {cut.Name}", cut.Tool.Name, tool.Name);
        }
    }

    /// <summary>The trim cutter; for a cutout, where the job asks for a second one, an end mill of the rack that is thinner.</summary>
    private static Tool Cutter(Job job, TrimCut cut)
    {
        bool second =
            job.SmallHoles == SmallHoles.SecondCutter
            && cut.Kind == TrimKind.Cutout
            && cut.Tool.Kind == ToolKind.EndMill
            && cut.Tool.Diameter < job.TrimTool.Diameter
            && job.Tools.Contains(cut.Tool);
        return second ? cut.Tool : job.TrimTool;
    }

    /// <summary>Above 0 for a closed path that runs counter-clockwise: twice its area, the bows of arcs counted.</summary>
    private static double Turn(ImmutableArray<Piece> path) =>
        path.Sum(p => p.A.Cross(p.B) + (p.IsArc ? p.R * p.R * (p.Sweep - Math.Sin(p.Sweep)) : 0));

    private static void Depth(FactRun facts, TrimCut cut)
    {
        double off = cut.FloorZ - (facts.Face - facts.Job.Rules.TipBelowShell);
        if (Math.Abs(off) > Fits.SetFloor)
        {
            FactFindings.Floor(facts, cut.Name, cut.Path.Segments[0].Start, off, Fits.SetFloor, Setup.Trim);
        }
    }

    private static void Tabs(FactRun facts, TrimCut cut)
    {
        Point2 at = cut.Path.Segments[0].Start;
        bool held = cut.Kind == TrimKind.Outline ? facts.Job.Skirt == SkirtHold.Tabs : cut.Hold == SlugHold.Tabbed;
        if (held && cut.Tabs.Length < 2)
        {
            FactFindings.Trim(
                facts,
                cut.Name,
                FormattableString.Invariant($"{cut.Tabs.Length} bridges hold what it cuts off, 2 are the least"),
                at
            );
        }
        double length = cut.Path.Segments.Sum(s => s.Length);
        foreach (Tab tab in cut.Tabs)
        {
            double off = Math.Abs(tab.Length - facts.Job.Rules.TabLength);
            if (off > Fits.FreeFloor)
            {
                FactFindings.Trim(
                    facts,
                    cut.Name,
                    FormattableString.Invariant($"a bridge is {off:0.##} mm off the length that the job says"),
                    at
                );
            }
        }
        double[] ends = [.. cut.Tabs.Select(t => t.At).Order()];
        double lifted = facts.Job.Rules.TabLength + cut.Tool.Diameter;
        for (int i = 0; i < ends.Length && ends.Length > 1; i++)
        {
            double next = i + 1 < ends.Length ? ends[i + 1] : ends[0] + length;
            if (next - ends[i] < lifted)
            {
                FactFindings.Trim(facts, cut.Name, "two of its bridges run into each other", at);
            }
        }
        bool rings = cut.Clearing.Length > 0;
        if (cut.Kind == TrimKind.Cutout && cut.Hold == SlugHold.MilledAway && !rings && !Small(facts, cut))
        {
            FactFindings.Trim(facts, cut.Name, "its slug is to be milled away and no ring does it", at);
        }
    }

    /// <summary>A slug that the cut along its edge takes whole: nothing of it is farther from the edge than the cutter is wide.</summary>
    private static bool Small(FactRun facts, TrimCut cut)
    {
        ImmutableArray<Piece> path = Spread.PiecesOf(cut.Path.Segments);
        Area inner = new(path);
        return Math.Min(inner.Bounds.Width, inner.Bounds.Height) <= cut.Tool.Diameter;
    }
}
