using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Shape;

namespace FixtureGen.Verify.Facts;

/// <summary>
/// A form that hangs down has its pocket: its edge as drawn and the running clearance round and below it. One that rises leaves
/// a flange round it: no cord's groove comes nearer to its edge than a land, where the shell is no longer flat.
/// </summary>
internal static class FormFacts
{
    public static void Check(FactRun facts)
    {
        List<Removal> left = [.. facts.Cuts(FeatureKind.FormPocket)];
        foreach ((int i, FormRegion form) in facts.Drawing.Drawing.Forms.Index())
        {
            ImmutableArray<Piece> edge = facts.Drawing.Forms[i];
            if (form.Direction == FormDirection.Up)
            {
                Flange(facts, edge);
                Carried(facts, form, edge);
                continue;
            }
            Point2 middle = new Area(edge).Bounds.Middle;
            Removal? pocket = left.MinBy(p => HoleFacts.Middle(p).DistanceTo(middle));
            if (pocket is null)
            {
                FactFindings.Missing(facts, "the pocket of a form", middle, Setup.Top);
                continue;
            }
            left.Remove(pocket);
            Compare(facts, pocket, edge, form);
        }
        foreach (Removal pocket in left)
        {
            FactFindings.Unasked(facts, pocket.Feature, HoleFacts.Middle(pocket), Setup.Top);
        }
    }

    /// <summary>By a plug where the block has one in the form, else by itself. A form that the trim opens is under no vacuum.</summary>
    private static void Carried(FactRun facts, FormRegion form, ImmutableArray<Piece> edge)
    {
        Area inside = new(edge);
        bool plug = facts
            .Cuts(FeatureKind.Plug)
            .SelectMany(r => r.Area)
            .SelectMany(a => a.Holes)
            .Any(h => inside.Contains(h.Segments[0].Start));
        if (plug)
        {
            PlugFacts.Check(facts, form, edge);
        }
        else if (facts.Job.HoldBy == HoldBy.Vacuum)
        {
            BearingFacts.Check(facts, form, edge);
        }
    }

    private static void Flange(FactRun facts, ImmutableArray<Piece> edge)
    {
        double land = facts.Job.Rules.Land;
        Area form = new(edge);
        PieceBins bins = new(edge, 4);
        foreach (Removal groove in facts.Cuts(FeatureKind.GasketGroove))
        {
            ImmutableArray<Piece> walls = FactRun.Boundary(groove);
            Spread off = Spread.Find(walls, bins, land, double.MaxValue);
            bool crosses = walls.Any(w => form.Contains(w.A));
            if (crosses || off.Least < land - Fits.Place)
            {
                FactFindings.Thin(
                    facts,
                    groove.Feature,
                    "a form's edge",
                    crosses ? 0 : off.Least,
                    land,
                    crosses ? walls.First(w => form.Contains(w.A)).A : off.LeastAt
                );
            }
        }
    }

    private static void Compare(FactRun facts, Removal pocket, ImmutableArray<Piece> edge, FormRegion form)
    {
        double room = facts.Job.Rules.RunningClearance;
        ImmutableArray<Piece> walls = FactRun.Boundary(pocket);
        Area area = new(walls);
        Spread off = Spread.Find(walls, new PieceBins(edge, 4), room - Fits.Place, room + Fits.Place);
        Spread back = Spread.Find(edge, new PieceBins(walls, 4), 0, room + Fits.Place);
        bool inside = edge.All(p => area.Contains(p.PointAt(0.5)));
        if (!inside || off.Least < room - Fits.Place)
        {
            FactFindings.Wall(facts, pocket.Feature, off.LeastAt, off.Least - room, Fits.Place, Setup.Top);
        }
        if (Math.Max(off.Greatest, back.Greatest) > room + Fits.Place)
        {
            Spread worse = off.Greatest >= back.Greatest ? off : back;
            FactFindings.Wall(facts, pocket.Feature, worse.GreatestAt, worse.Greatest - room, Fits.Place, Setup.Top);
        }
        double floor = pocket.FloorZ - (facts.Face - form.Height - room);
        if (Math.Abs(floor) > Fits.SetFloor)
        {
            FactFindings.Floor(facts, pocket.Feature, edge[0].A, floor, Fits.SetFloor, Setup.Top);
        }
    }
}
