using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Shape;

namespace FixtureGen.Verify.Facts;

/// <summary>
/// Every zone's hole leads to the plate's vacuum: straight through over a port or a groove of the plate, or into a channel from below
/// that begins over a port. Ports that the job fixes have their hole just there.
/// </summary>
internal static class PortFacts
{
    public static void Check(FactRun facts)
    {
        Removal[] holes = [.. facts.Cuts(FeatureKind.Port)];
        Removal[] channels = [.. facts.Cuts(FeatureKind.Channel)];
        HashSet<Removal> used = [];
        foreach (Removal hole in holes)
        {
            Hole(facts, hole, channels, used);
        }
        foreach (Removal idle in channels.Where(c => !used.Contains(c)))
        {
            FactFindings.Unasked(facts, idle.Feature, HoleFacts.Middle(idle), Setup.Underside);
        }
        SealedZone[] zones = [.. facts.Design.Zones, .. facts.Design.SkirtZones];
        foreach (SealedZone zone in zones)
        {
            double off = Off(holes, zone.PortAt);
            if (off > Fits.Place)
            {
                FactFindings.Missing(
                    facts,
                    FormattableString.Invariant($"the port of zone {zone.Index + 1}"),
                    zone.PortAt,
                    Setup.Top
                );
            }
        }
        foreach (Point2 at in facts.Job.Ports.Select(facts.Drawing.Place).Where(p => Off(holes, p) > Fits.Place))
        {
            FactFindings.Missing(facts, "the port that the job fixes", at, Setup.Top);
        }
        foreach (Removal hole in holes)
        {
            Point2 at = HoleFacts.Middle(hole);
            if (!zones.Any(z => z.Sealed.Any(r => new Area(r).Contains(at))))
            {
                FactFindings.Unasked(facts, hole.Feature, at, Setup.Top);
            }
        }
    }

    private static double Off(Removal[] holes, Point2 at) =>
        holes.Select(h => HoleFacts.Middle(h).DistanceTo(at)).DefaultIfEmpty(double.MaxValue).Min();

    private static void Hole(FactRun facts, Removal hole, Removal[] channels, HashSet<Removal> used)
    {
        Point2 at = HoleFacts.Middle(hole);
        PieceBins middle = new([Piece.Line(at, at)], 4);
        Spread walls = Spread.Find(FactRun.Boundary(hole), middle, double.MaxValue / 4, 0);
        double diameter = walls.Least + walls.Greatest;
        bool round = walls.Greatest - walls.Least <= Fits.Place;
        if (!round || diameter < Fits.LeastPort - Fits.FreeWall || diameter > Fits.UsualPort + Fits.FreeWall)
        {
            double nearest = Math.Clamp(diameter, Fits.LeastPort, Fits.UsualPort);
            ExpectedHole wanted = new(
                hole.Feature,
                FeatureKind.Port,
                at,
                nearest,
                default,
                Fits.FreeWall,
                Fits.FreeWall,
                Fits.Place
            );
            FactFindings.Fit(facts, wanted, diameter, facts.Line(at, Setup.Top));
        }
        if (facts.Face - hole.TopZ > Fits.Rounding)
        {
            FactFindings.Floor(
                facts,
                "the top of " + hole.Feature,
                at,
                hole.TopZ - facts.Face,
                Fits.Rounding,
                Setup.Top
            );
        }
        double off =
            hole.FloorZ <= Fits.Rounding
                ? OverPlate(facts.Job.Plate, at, walls.Greatest)
                : OverChannel(facts, hole, at, walls.Greatest, channels, used);
        if (off > Fits.Place)
        {
            FactFindings.Port(facts, hole.Feature, at, off);
        }
    }

    /// <summary>How far the hole reaches beyond the port or groove under it, mm; 0 where it opens wholly into one.</summary>
    private static double OverPlate(Plate plate, Point2 at, double radius)
    {
        IEnumerable<double> ports = plate.Ports.Select(p =>
            p.At.DistanceTo(at) + radius - (Math.Max(p.Diameter, p.ReliefDiameter) / 2)
        );
        IEnumerable<double> grooves = plate.Grooves.SelectMany(g =>
            g.Run.Segments.Select(s => Distance.To(Piece.From(s), at) + radius - (g.Width / 2))
        );
        return Math.Max(0, ports.Concat(grooves).DefaultIfEmpty(double.MaxValue).Min());
    }

    private static double OverChannel(
        FactRun facts,
        Removal hole,
        Point2 at,
        double radius,
        Removal[] channels,
        HashSet<Removal> used
    )
    {
        double best = double.MaxValue;
        foreach (Removal channel in channels)
        {
            ImmutableArray<Piece> walls = FactRun.Boundary(channel);
            Area area = new(walls);
            double inside = area.Contains(at) ? Spread.To(new PieceBins(walls, 4), at) : -1;
            bool open = hole.FloorZ < channel.TopZ;
            bool fed = facts.Job.Plate.Ports.Any(p => area.Contains(p.At));
            double wide = channel.Area.Length == 1 ? 2 * inside : 0;
            if (inside >= 0 && open && fed && Sealed(facts.Job.Plate, walls))
            {
                used.Add(channel);
                best = Math.Min(best, Math.Max(0, radius - inside));
            }
            if (inside >= 0 && (wide < Fits.LeastPort - Fits.FreeWall || wide > Fits.UsualPort + Fits.FreeWall))
            {
                FactFindings.Wall(facts, channel.Feature, at, wide - Fits.UsualPort, Fits.FreeWall, Setup.Underside);
            }
            double ceiling = channel.TopZ - Fits.LeastPort;
            if (inside >= 0 && ceiling < -Fits.FreeFloor)
            {
                FactFindings.Floor(facts, channel.Feature, at, ceiling, Fits.FreeFloor, Setup.Underside);
            }
        }
        return best;
    }

    /// <summary>A channel lies inside the plate's seal, or it draws from the room.</summary>
    private static bool Sealed(Plate plate, ImmutableArray<Piece> channel)
    {
        ImmutableArray<Piece> seal = Spread.PiecesOf(plate.SealLoop.Segments);
        double needed = plate.SealGrooveWidth / 2;
        return new Area(seal).Contains(channel[0].A)
            && Spread.Find(channel, new PieceBins(seal, 4), needed, double.MaxValue / 4).Least >= needed;
    }
}
