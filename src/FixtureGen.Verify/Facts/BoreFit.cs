using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Facts;

/// <summary>
/// The holes as the program really bores them, against plate and fasteners: from the motions alone, in closed form, the design is not
/// asked. A hole is looked at half way down.
/// </summary>
internal static class BoreFit
{
    public static void Check(FactRun facts)
    {
        ImmutableArray<(Motion Motion, Cutter Cutter, Piece Piece)> motions =
        [
            .. facts
                .Run.Motions()
                .Where(m => Run.IsFeed(m.Motion) && Run.Low(m.Motion) < facts.Run.StockTop)
                .Select(m => (m.Motion, Cutter: facts.Run.CutterOf(m.Motion)))
                .Where(m => m.Cutter is not null)
                .Select(m => (m.Motion, m.Cutter!, Piece.From(m.Motion))),
        ];
        foreach (ExpectedHole hole in HoleFacts.Expected(facts).Concat(MagnetFacts.Expected(facts)))
        {
            Removal? cut = facts
                .Cuts(hole.Kind)
                .Where(c => c.Setup == facts.Run.Setup)
                .MinBy(c => HoleFacts.Middle(c).DistanceTo(hole.At));
            if (cut is not null)
            {
                Measure(facts, InFrame(facts, hole), Slice(facts, cut), motions);
            }
        }
    }

    private static void Measure(
        FactRun facts,
        ExpectedHole hole,
        double z,
        ImmutableArray<(Motion Motion, Cutter Cutter, Piece Piece)> motions
    )
    {
        (Motion Motion, double Radius, Piece Piece)[] cuts = [.. Below(hole, z, motions)];
        if (cuts.Length == 0)
        {
            FactFindings.Missing(facts, hole.Name, hole.At, facts.Run.Setup);
            return;
        }
        double standing = -hole.Diameter;
        foreach (Piece wall in hole.Walls())
        {
            double Standing(Point2 p) => cuts.Min(c => Distance.To(c.Piece, p) - c.Radius);
            double Bound(Piece part) => cuts.Min(c => Spread.Most(part, c.Piece) - c.Radius);
            standing = Spread.GreatestAlong(wall, Standing, Bound, standing);
        }
        double least = (hole.Diameter / 2) - standing;
        PieceBins axis = new([hole.Axis], 4);
        double greatest = hole.Kind == FeatureKind.MagnetPocket ? least : cuts.Max(c => Reach(c.Piece, c.Radius, axis));
        HoleFacts.Judge(facts, hole, least, Math.Max(greatest, least), cuts[^1].Motion.Line, facts.Run.Setup);
    }

    private static double Reach(Piece path, double radius, PieceBins axis) =>
        radius + Spread.Find([path], axis, 0, 0).Greatest;

    /// <summary>What cuts inside the hole at that height, and how wide it is there; of a way down only what is below it.</summary>
    private static IEnumerable<(Motion Motion, double Radius, Piece Piece)> Below(
        ExpectedHole hole,
        double z,
        ImmutableArray<(Motion Motion, Cutter Cutter, Piece Piece)> motions
    )
    {
        double reach = (hole.Diameter / 2) + hole.Half.Length;
        foreach ((Motion motion, Cutter cutter, Piece piece) in motions)
        {
            double low = Run.Low(motion);
            double radius = cutter.RadiusAt(z - low);
            Box2 b = piece.Bounds();
            if (
                low >= z
                || b.MinX - hole.At.X > reach + radius
                || hole.At.X - b.MaxX > reach + radius
                || b.MinY - hole.At.Y > reach + radius
                || hole.At.Y - b.MaxY > reach + radius
            )
            {
                continue;
            }
            Piece below = Part(motion, piece, z);
            if (Distance.Between(below, hole.Axis).Distance < (hole.Diameter / 2) + radius - Fits.FreeWall)
            {
                yield return (motion, radius, below);
            }
        }
    }

    private static Piece Part(Motion motion, Piece piece, double z)
    {
        double dz = motion.To.Z - motion.From.Z;
        if (Math.Abs(dz) < 1e-9 || piece.Length < 1e-9)
        {
            return piece;
        }
        double at = Math.Clamp((z - motion.From.Z) / dz, 0, 1);
        return dz < 0 ? piece.Part(at, 1) : piece.Part(0, at);
    }

    /// <summary>Half way down, in the setup's frame, mm.</summary>
    private static double Slice(FactRun facts, Removal cut)
    {
        double middle = (Math.Min(cut.TopZ, facts.Face) + cut.FloorZ) / 2;
        return facts.Run.Setup == Setup.Underside ? facts.Design.RawThickness - middle : middle;
    }

    private static ExpectedHole InFrame(FactRun facts, ExpectedHole hole) =>
        facts.Run.Setup == Setup.Underside && facts.Design.Flip is { } flip
            ? hole with
            {
                At = flip.Apply(hole.At),
                Half = new Point2(-hole.Half.X, hole.Half.Y),
            }
            : hole;
}
