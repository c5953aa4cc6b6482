using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Shape;

namespace FixtureGen.Verify.Facts;

/// <summary>
/// Reliefs against trim cutter and clearance: the cutter has its side clearance everywhere on its way and room for chips below its tip,
/// and no more than that clearance of the drawn part is left without the block under it.
/// </summary>
internal static class ReliefFacts
{
    public static void Check(FactRun facts)
    {
        List<Removal> left = [.. facts.Cuts(FeatureKind.Relief), .. facts.Cuts(FeatureKind.CutoutRelief)];
        foreach (TrimCut corner in facts.Design.TrimCuts.Where(c => c.Kind == TrimKind.Corner))
        {
            Point2 inIt = corner.Path.Segments[0].Start;
            if (left.Find(r => r.Area.Any(a => new Area(a).Contains(inIt))) is { } shared)
            {
                Room(facts, shared, corner);
            }
            else
            {
                FactFindings.Missing(facts, $"the relief of {corner.Name}", inIt, Setup.Top);
            }
        }
        foreach (TrimCut cut in facts.Design.TrimCuts.Where(c => c.Kind != TrimKind.Corner))
        {
            FeatureKind kind = cut.Kind == TrimKind.Outline ? FeatureKind.Relief : FeatureKind.CutoutRelief;
            Point2 start = cut.Path.Segments[0].Start;
            Removal? relief = left.Find(r => r.Kind == kind && r.Area.Any(a => new Area(a).Contains(start)));
            if (relief is null)
            {
                FactFindings.Missing(facts, $"the relief of the {cut.Name}", start, Setup.Top);
                continue;
            }
            left.Remove(relief);
            Room(facts, relief, cut);
            Support(facts, relief);
            Floor(facts, relief, start);
        }
        foreach (DrilledHole hole in facts.Design.DrilledHoles)
        {
            Removal? relief = left.Find(r =>
                r.Kind == FeatureKind.CutoutRelief && r.Area.Any(a => new Area(a).Contains(hole.At))
            );
            if (relief is null)
            {
                FactFindings.Missing(facts, $"the relief of the {hole.Name}", hole.At, Setup.Top);
                continue;
            }
            left.Remove(relief);
            Drilled(facts, relief, hole);
            Support(facts, relief);
        }
        foreach (Removal relief in left)
        {
            FactFindings.Unasked(facts, relief.Feature, HoleFacts.Middle(relief), Setup.Top);
        }
    }

    private static void Room(FactRun facts, Removal relief, TrimCut cut)
    {
        double wanted = cut.Tool.Radius + facts.Job.Rules.SideClearance;
        IEnumerable<Segment> way =
        [
            .. cut.Path.Segments,
            .. cut.LeadIn.Segments,
            .. cut.LeadOut.Segments,
            .. cut.Clearing.SelectMany(c => c.Segments),
        ];
        PieceBins walls = new(FactRun.Boundary(relief), 4);
        ImmutableArray<Piece> pieces = Spread.PiecesOf(way);
        Spread room = Spread.Find(pieces, walls, wanted - Fits.Place, double.MaxValue / 4);
        if (room.Least < wanted - Fits.Place)
        {
            FactFindings.Wall(facts, relief.Feature, room.LeastAt, room.Least - wanted, Fits.Place, Setup.Top);
        }
    }

    /// <summary>Round a drill the clearance is the hole's as drawn; below its point there is room for chips, as below a cutter's tip.</summary>
    private static void Drilled(FactRun facts, Removal relief, DrilledHole hole)
    {
        Rules rules = facts.Job.Rules;
        double drawn = hole.Edge.Segments[0].Radius;
        double room = new PieceBins(FactRun.Boundary(relief), 4).Pieces.Min(p => Distance.To(p, hole.At)) - drawn;
        if (room < rules.SideClearance - Fits.Place)
        {
            FactFindings.Wall(facts, relief.Feature, hole.At, room - rules.SideClearance, Fits.Place, Setup.Top);
        }
        double high = relief.FloorZ - (hole.FloorZ - rules.ReliefFloorBelowTip);
        if (high > Fits.FreeFloor)
        {
            FactFindings.Floor(facts, relief.Feature, hole.At, high, Fits.FreeFloor, Setup.Top);
        }
    }

    private static void Support(FactRun facts, Removal relief)
    {
        double allowed = facts.Job.Rules.SideClearance + Fits.FreeWall;
        PlacedDrawing drawn = facts.Drawing;
        IEnumerable<Piece> under = FactRun.Boundary(relief).SelectMany(w => Spread.Within(w, drawn.Shell, drawn.Edges));
        Spread off = Spread.Find(under, drawn.Edges, 0, allowed);
        if (off.Greatest > allowed)
        {
            FactFindings.Wall(
                facts,
                relief.Feature,
                off.GreatestAt,
                off.Greatest - facts.Job.Rules.SideClearance,
                Fits.FreeWall,
                Setup.Top
            );
        }
    }

    private static void Floor(FactRun facts, Removal relief, Point2 at)
    {
        Rules rules = facts.Job.Rules;
        double off = relief.FloorZ - (facts.Face - rules.TipBelowShell - rules.ReliefFloorBelowTip);
        if (Math.Abs(off) > Fits.FreeFloor)
        {
            FactFindings.Floor(facts, relief.Feature, at, off, Fits.FreeFloor, Setup.Top);
        }
        if (Math.Abs(relief.TopZ - facts.Face) > Fits.Rounding)
        {
            FactFindings.Floor(facts, "the top of " + relief.Feature, at, relief.TopZ - facts.Face, 0, Setup.Top);
        }
    }
}
