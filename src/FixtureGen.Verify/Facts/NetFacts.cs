using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Shape;

namespace FixtureGen.Verify.Facts;

/// <summary>
/// The net of every zone: as deep as the job says, as wide as an end mill and no wider than two shells, inside the zone, over the zone's
/// hole, and near enough to all that is said to be reached.
/// </summary>
internal static class NetFacts
{
    /// <summary>What is left over of a reached area, mm2, is rounding: a tenth of a newton at full vacuum.</summary>
    private const double Reach = 0.1;

    public static void Check(FactRun facts)
    {
        List<Removal> left = [.. facts.Cuts(FeatureKind.Net)];
        Removal[] holes = [.. facts.Cuts(FeatureKind.Port)];
        foreach (SealedZone zone in facts.Design.Zones.Concat(facts.Design.SkirtZones))
        {
            Area[] within = [.. zone.Sealed.Select(r => new Area(r))];
            Removal[] nets = [.. left.Where(n => within.Any(w => w.Contains(FactRun.Boundary(n)[0].A)))];
            left.RemoveAll(n => nets.Contains(n));
            Depth(facts, nets);
            foreach (Removal more in nets.Skip(1))
            {
                FactFindings.Unasked(facts, more.Feature, HoleFacts.Middle(more), Setup.Top);
            }
            Reached(facts, zone, nets, holes);
            Fed(facts, zone, nets, holes, within);
        }
        foreach (Removal net in left)
        {
            FactFindings.Unasked(facts, net.Feature, HoleFacts.Middle(net), Setup.Top);
        }
        foreach (
            GrooveFeature net in facts.Design.Features.OfType<GrooveFeature>().Where(g => g.Kind == FeatureKind.Net)
        )
        {
            Width(facts, net);
        }
    }

    private static void Depth(FactRun facts, Removal[] nets)
    {
        foreach (Removal net in nets)
        {
            double off = net.FloorZ - (facts.Face - facts.Job.Rules.NetDepth);
            if (Math.Abs(off) > Fits.FreeFloor || Math.Abs(net.TopZ - facts.Face) > Fits.Rounding)
            {
                FactFindings.Floor(facts, net.Feature, HoleFacts.Middle(net), off, Fits.FreeFloor, Setup.Top);
            }
        }
    }

    /// <summary>Of an end mill of the rack, the narrowest where none is narrow enough.</summary>
    private static void Width(FactRun facts, GrooveFeature net)
    {
        double[] mills = [.. facts.Job.Tools.Where(t => t.Kind == ToolKind.EndMill).Select(t => t.Diameter)];
        double most = Math.Max(2 * facts.Job.Shell.Thickness, mills.DefaultIfEmpty(0).Min());
        double nearest = mills.Where(m => m <= most + Fits.Rounding).MinBy(m => Math.Abs(m - net.Width));
        double half = net.Width / 2;
        PieceBins lines = new(
            Spread.PiecesOf([.. net.Loops.SelectMany(c => c.Segments), .. net.Runs.SelectMany(r => r.Segments)]),
            4
        );
        ImmutableArray<Piece> walls = [.. net.Removals.SelectMany(r => FactRun.Boundary(r))];
        Spread off = Spread.Find(walls, lines, half - Fits.FreeWall, half + Fits.FreeWall);
        double wide = Math.Abs(net.Width - nearest);
        if (wide > Fits.FreeWall || off.Least < half - Fits.FreeWall || off.Greatest > half + Fits.FreeWall)
        {
            double by = wide > Fits.FreeWall ? net.Width - nearest : Math.Max(half - off.Least, off.Greatest - half);
            FactFindings.Wall(facts, net.Name, walls[0].A, by, Fits.FreeWall, Setup.Top);
        }
    }

    /// <summary>A form that rises is as one with the net that opens into its hollow; one that nothing opens into must not be said to be reached.</summary>
    private static void Reached(FactRun facts, SealedZone zone, Removal[] nets, Removal[] holes)
    {
        ImmutableArray<Piece> reached = Spread.PiecesOf(
            zone.Reached.SelectMany(r => r.Contours).SelectMany(c => c.Segments)
        );
        if (reached.IsEmpty)
        {
            return;
        }
        if (nets.Length == 0)
        {
            FactFindings.Unfed(facts, zone.Index + 1, zone.PortAt, facts.Job.Rules.NetReach);
            return;
        }
        double reach = facts.Job.Rules.NetReach + Reach;
        List<Piece> sources = [.. nets.SelectMany(n => FactRun.Boundary(n))];
        Point2[] opening = [.. sources.Select(p => p.A), .. holes.Select(HoleFacts.Middle)];
        Area said = new(reached);
        foreach (ImmutableArray<Piece> hollow in Hollows(facts, said))
        {
            Area under = new(hollow);
            if (opening.Any(under.Contains))
            {
                sources.AddRange(hollow);
            }
            else
            {
                FactFindings.Unfed(facts, zone.Index + 1, under.Bounds.Middle, facts.Job.Rules.NetReach);
            }
        }
        PieceBins walls = new([.. sources], 4);
        Spread far = Spread.Find(reached, walls, 0, reach);
        if (far.Greatest > reach)
        {
            FactFindings.Unfed(facts, zone.Index + 1, far.GreatestAt, far.Greatest);
        }
    }

    /// <summary>Forms as drawn that rise within an area.</summary>
    private static IEnumerable<ImmutableArray<Piece>> Hollows(FactRun facts, Area within) =>
        facts.Drawing.Forms.Where(
            (f, i) => facts.Drawing.Drawing.Forms[i].Direction == FormDirection.Up && within.Contains(f[0].PointAt(0.5))
        );

    /// <summary>Every piece of the net has a hole of its zone in it.</summary>
    private static void Fed(FactRun facts, SealedZone zone, Removal[] nets, Removal[] holes, Area[] within)
    {
        Removal[] own = [.. holes.Where(h => within.Any(w => w.Contains(HoleFacts.Middle(h))))];
        foreach (Region piece in nets.SelectMany(n => n.Area))
        {
            Area area = new(piece);
            PieceBins walls = new(area.Pieces, 4);
            double off = own.Select(h => Apart(area, walls, h)).DefaultIfEmpty(facts.Job.Rules.NetReach).Min();
            if (off > 0)
            {
                FactFindings.Unfed(facts, zone.Index + 1, area.Bounds.Middle, off);
            }
        }
    }

    private static double Apart(Area net, PieceBins walls, Removal hole)
    {
        Point2 at = HoleFacts.Middle(hole);
        double radius = Distance.To(FactRun.Boundary(hole)[0], at);
        return net.Contains(at) ? 0 : Math.Max(0, Spread.To(walls, at) - radius + Fits.FreeWall);
    }
}
