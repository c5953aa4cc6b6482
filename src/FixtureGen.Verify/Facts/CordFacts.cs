using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Shape;

namespace FixtureGen.Verify.Facts;

/// <summary>
/// Grooves against the cord: one round every zone, as wide and deep as the cord's file says, nowhere bent tighter than the cord bears,
/// with the length of cord that goes in. Where zones lie the design says: that they keep their land is asked for apart.
/// </summary>
internal static class CordFacts
{
    private const double Bin = 4;

    /// <summary>Two segments meet smoothly within so many radians.</summary>
    private const double Smooth = 0.02;

    public static void Check(FactRun facts)
    {
        List<Removal> left = [.. facts.Cuts(FeatureKind.GasketGroove)];
        ImmutableArray<CordLoop> cords = facts.Design.AllCords;
        int seals = facts.Design.Zones.Length + facts.Design.SkirtZones.Length + cords.Length;
        if (facts.Job.HoldBy == HoldBy.Magnets && seals > 0)
        {
            FactFindings.Job(facts, "the number of sealed zones and cords", seals, 0, "in all");
            return;
        }
        int number = 0;
        foreach (SealedZone zone in facts.Design.Zones.Concat(facts.Design.SkirtZones))
        {
            foreach (Contour loop in zone.Boundary.Contours)
            {
                number++;
                ImmutableArray<Piece> centre = Spread.PiecesOf(loop.Segments);
                Removal? groove = left.Find(g => new Area(FactRun.Boundary(g)).Contains(centre[0].PointAt(0.5)));
                Bends(facts, centre);
                Cord(facts, number, centre, cords);
                if (groove is null)
                {
                    FactFindings.Missing(
                        facts,
                        FormattableString.Invariant($"the groove of zone {zone.Index + 1}"),
                        centre[0].A,
                        Setup.Top
                    );
                    continue;
                }
                left.Remove(groove);
                Groove(facts, groove, centre);
            }
            Sealed(facts, zone);
        }
        foreach (Removal groove in left)
        {
            FactFindings.Unasked(facts, groove.Feature, HoleFacts.Middle(groove), Setup.Top);
        }
        if (cords.Length != number)
        {
            FactFindings.DrawingCount(facts, "cords for its grooves", cords.Length, number);
        }
    }

    private static void Groove(FactRun facts, Removal groove, ImmutableArray<Piece> centre)
    {
        Gasket gasket = facts.Job.Gasket;
        double half = gasket.GrooveWidth / 2;
        double allowed = Fits.GrooveWidth / 2;
        ImmutableArray<Piece> walls = FactRun.Boundary(groove);
        Spread off = Spread.Find(walls, new PieceBins(centre, Bin), half - allowed, half + allowed);
        if (off.Least < half - allowed)
        {
            FactFindings.Wall(facts, groove.Feature, off.LeastAt, off.Least - half, allowed, Setup.Top);
        }
        if (off.Greatest > half + allowed)
        {
            FactFindings.Wall(facts, groove.Feature, off.GreatestAt, off.Greatest - half, allowed, Setup.Top);
        }
        Spread back = Spread.Find(centre, new PieceBins(walls, Bin), 0, half + allowed);
        if (back.Greatest > half + allowed)
        {
            FactFindings.Wall(facts, groove.Feature, back.GreatestAt, back.Greatest - half, allowed, Setup.Top);
        }
        double floor = groove.FloorZ - (facts.Face - gasket.GrooveDepth);
        if (Math.Abs(floor) > Fits.GrooveDepth(gasket) + 1e-9)
        {
            FactFindings.Floor(facts, groove.Feature, centre[0].A, floor, Fits.GrooveDepth(gasket), Setup.Top);
        }
        if (Math.Abs(groove.TopZ - facts.Face) > Fits.Rounding)
        {
            FactFindings.Floor(
                facts,
                "the top of " + groove.Feature,
                centre[0].A,
                groove.TopZ - facts.Face,
                0,
                Setup.Top
            );
        }
    }

    /// <summary>Both ways: a loop bends inwards and outwards, and either way the inner wall is half a groove tighter than the centre line.</summary>
    private static void Bends(FactRun facts, ImmutableArray<Piece> centre)
    {
        double least = facts.Job.Gasket.InsideBendRadius;
        double half = facts.Job.Gasket.GrooveWidth / 2;
        (double tightest, Point2 at) = (least - Fits.Bend, default);
        for (int i = 0; i < centre.Length; i++)
        {
            Piece next = centre[(i + 1) % centre.Length];
            Point2 along = centre[i].Tangent(1);
            double turn = Math.Atan2(along.Cross(next.Tangent(0)), along.Dot(next.Tangent(0)));
            double inner = Math.Abs(turn) > Smooth ? 0 : double.MaxValue;
            inner = Math.Min(inner, centre[i].IsArc ? centre[i].R - half : double.MaxValue);
            (tightest, at) = inner < tightest ? (inner, centre[i].B) : (tightest, at);
        }
        if (tightest < least - Fits.Bend)
        {
            FactFindings.Bend(facts, tightest, least, at);
        }
    }

    private static void Cord(FactRun facts, int number, ImmutableArray<Piece> centre, ImmutableArray<CordLoop> cords)
    {
        double length = centre.Sum(p => p.Length);
        double wanted = length * (1 + facts.Job.Gasket.CutAllowanceRatio);
        Area loop = new(centre);
        CordLoop? cord = cords.MinBy(c => c.Centre.Segments[0].Start.DistanceTo(centre[0].A));
        if (
            cord is null
            || Math.Abs(cord.CutLength - wanted) > Fits.CordLength
            || Math.Abs(cord.Length - length) > Fits.CordLength
        )
        {
            FactFindings.Cord(facts, number, cord?.CutLength ?? 0, wanted, loop.Bounds.Middle);
        }
    }

    /// <summary>What the vacuum is said to act on ends at the groove's inner wall.</summary>
    private static void Sealed(FactRun facts, SealedZone zone)
    {
        double half = facts.Job.Gasket.GrooveWidth / 2;
        PieceBins boundary = new(Spread.PiecesOf(zone.Boundary.Contours.SelectMany(c => c.Segments)), Bin);
        ImmutableArray<Piece> edge = Spread.PiecesOf(
            zone.Sealed.SelectMany(r => r.Contours).SelectMany(c => c.Segments)
        );
        Area within = new(boundary.Pieces);
        Spread off = Spread.Find(edge, boundary, half - Fits.FreeWall, half + Fits.FreeWall);
        bool outside = edge.Any(p => !within.Contains(p.PointAt(0.5)));
        if (outside || off.Least < half - Fits.FreeWall || off.Greatest > half + Fits.FreeWall)
        {
            double worst = Math.Max(half - off.Least, off.Greatest - half);
            FactFindings.Unfed(facts, zone.Index + 1, off.GreatestAt, worst);
        }
    }
}
