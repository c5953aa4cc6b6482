using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Shop.Jobs;

namespace FixtureGen.Solve;

/// <summary>Magnets that the drawing or the job asks for: kept where they may stand, moved (with a finding) where they may not, refused where they are locked.</summary>
internal static class MagnetWishes
{
    private const double FarthestMove = 15;

    public static Stage<ImmutableArray<MagnetPlace>> Honour(
        FixtureDesign design,
        Job job,
        MagnetRoom room,
        double spacing
    )
    {
        MagnetPlace[] wished =
        [
            .. job.Magnets.Select(w => new MagnetPlace(Transform.Apply(design.Placement.Pose, w.At), w.Locked, false)),
            .. design.Part.MagnetWishes.Select(w => new MagnetPlace(w, false, true)),
        ];
        List<Finding> findings = [];
        var kept = ImmutableArray.CreateBuilder<MagnetPlace>();
        foreach (MagnetPlace wish in wished.OrderByDescending(w => w.Locked))
        {
            (double slack, string against) = room.RoomAt(wish.At);
            double apart = kept.Count == 0 ? double.MaxValue : kept.Min(k => k.At.DistanceTo(wish.At));
            if (apart < spacing)
            {
                (slack, against) = (Math.Min(slack, apart - spacing), "its neighbour");
            }
            if (slack >= -1e-6)
            {
                kept.Add(wish);
            }
            else if (wish.Locked)
            {
                findings.Add(MagnetFindings.LockedBlocked(wish.At, -slack, against));
            }
            else if (
                Nearest(wish.At, room, kept, spacing, p => WrittenPlace.OnPlate(p, design.Placement.Pose, job)) is
                { } place
            )
            {
                findings.Add(MagnetFindings.WishMoved(wish.At, place, -slack, against));
                kept.Add(wish with { At = place });
            }
            else
            {
                findings.Add(MagnetFindings.WishBlocked(wish.At, -slack, against, FarthestMove));
            }
        }
        return Stage.Answer(kept.ToImmutable(), findings);
    }

    /// <summary>Nearest allowed place on rings half a millimetre apart, or none within reach.</summary>
    private static Point2? Nearest(
        Point2 from,
        MagnetRoom room,
        IReadOnlyList<MagnetPlace> kept,
        double spacing,
        Func<Point2, Point2> written
    )
    {
        for (double radius = 0.5; radius <= FarthestMove; radius += 0.5)
        {
            int count = Math.Max(16, (int)(2 * Math.PI * radius));
            for (int i = 0; i < count; i++)
            {
                double angle = 2 * Math.PI * i / count;
                Point2 p = written(from + (new Point2(Math.Cos(angle), Math.Sin(angle)) * radius));
                if (room.RoomAt(p).Slack >= 0 && kept.All(k => k.At.DistanceTo(p) >= spacing))
                {
                    return p;
                }
            }
        }
        return null;
    }
}
