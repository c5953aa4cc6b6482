using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Shape;

namespace FixtureGen.Verify.Facts;

/// <summary>A form that hangs down has its pocket: its edge as drawn and the running clearance round and below it.</summary>
internal static class FormFacts
{
    public static void Check(FactRun facts)
    {
        List<Removal> left = [.. facts.Cuts(FeatureKind.FormPocket)];
        foreach ((int i, FormRegion form) in facts.Drawing.Drawing.Forms.Index())
        {
            if (form.Direction != FormDirection.Down)
            {
                continue;
            }
            ImmutableArray<Piece> edge = facts.Drawing.Forms[i];
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
