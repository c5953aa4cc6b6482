using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Shape;

namespace FixtureGen.Verify.Facts;

/// <summary>
/// Pockets against the disc that is glued into them: as many as job and drawing ask for, wide enough for the largest with its glue, deep
/// enough for disc, glue and recess, each with a notch by which the air leaves. Where the job leaves their places open the design says
/// them: what they hold and what they stand clear of is judged from there.
/// </summary>
internal static class MagnetFacts
{
    public static void Check(FactRun facts)
    {
        Count(facts);
        foreach (Point2 at in Fixed(facts))
        {
            double off = facts.Design.Magnets.Select(m => m.At.DistanceTo(at)).DefaultIfEmpty(double.MaxValue).Min();
            if (off > Fits.Place)
            {
                FactFindings.MagnetPlace(facts, off, at);
            }
        }
        foreach ((int i, MagnetPlace magnet) in facts.Design.Magnets.Index())
        {
            if (!facts.Drawing.Shell.Contains(magnet.At))
            {
                FactFindings.MagnetBesideShell(facts, i + 1, magnet.At);
            }
        }
        HoleFacts.Match(facts, Expected(facts), [.. facts.Cuts(FeatureKind.MagnetPocket)], Depth);
        Notches(facts);
    }

    /// <summary>The pockets of the design's magnets.</summary>
    public static ImmutableArray<ExpectedHole> Expected(FactRun facts)
    {
        MagnetSpec disc = facts.Job.Magnet;
        double wide = disc.Diameter + disc.DiameterTolerance + facts.Job.Rules.MagnetPocketClearance;
        double fit = Fits.MagnetPocket(facts.Job);
        return
        [
            .. facts.Design.Magnets.Select(
                (m, i) =>
                    new ExpectedHole(
                        FormattableString.Invariant($"the pocket of magnet {i + 1}"),
                        FeatureKind.MagnetPocket,
                        m.At,
                        wide,
                        default,
                        fit,
                        fit,
                        Fits.Place
                    )
            ),
        ];
    }

    private static double Floor(FactRun facts) =>
        facts.Face - facts.Job.Rules.MagnetRecess - facts.Job.Magnet.Thickness - facts.Job.Rules.MagnetGlue;

    private static void Count(FactRun facts)
    {
        (Job job, int there) = (facts.Job, facts.Design.Magnets.Length);
        int wishes = job.Magnets.Length + facts.Drawing.Drawing.MagnetWishes.Length;
        int wanted = Math.Max(wishes, job.MagnetCount);
        if (job.MagnetFactorTarget is null ? there != wanted : there < wishes)
        {
            FactFindings.MagnetCount(facts, there, wanted);
        }
    }

    /// <summary>Places that the job locks, plate frame.</summary>
    private static IEnumerable<Point2> Fixed(FactRun facts) =>
        facts.Job.Magnets.Where(m => m.Locked).Select(m => facts.Drawing.Place(m.At));

    private static void Depth(FactRun facts, ExpectedHole pocket, Removal cut)
    {
        double off = cut.FloorZ - Floor(facts);
        if (Math.Abs(off) > Fits.SetFloor)
        {
            FactFindings.Floor(facts, pocket.Name, pocket.At, off, Fits.SetFloor, Setup.Top);
        }
        if (Math.Abs(cut.TopZ - facts.Face) > Fits.Rounding)
        {
            FactFindings.Floor(facts, "the top of " + pocket.Name, pocket.At, cut.TopZ - facts.Face, 0, Setup.Top);
        }
    }

    /// <summary>One notch a pocket, through its rim, as deep as the pocket and narrower than the disc.</summary>
    private static void Notches(FactRun facts)
    {
        List<Removal> left = [.. facts.Cuts(FeatureKind.MagnetNotch)];
        foreach (ExpectedHole pocket in Expected(facts))
        {
            Removal? notch = left.Find(n => Passes(n, pocket));
            if (notch is null)
            {
                FactFindings.Missing(facts, "the notch of " + pocket.Name, pocket.At, Setup.Top);
                continue;
            }
            left.Remove(notch);
            double off = notch.FloorZ - Floor(facts);
            if (Math.Abs(off) > Fits.FreeFloor)
            {
                FactFindings.Floor(facts, notch.Feature, pocket.At, off, Fits.FreeFloor, Setup.Top);
            }
        }
        foreach (Removal notch in left)
        {
            FactFindings.Unasked(facts, notch.Feature, HoleFacts.Middle(notch), Setup.Top);
        }
    }

    private static bool Passes(Removal notch, ExpectedHole pocket)
    {
        ImmutableArray<Piece> walls = FactRun.Boundary(notch);
        PieceBins middle = new([Piece.Line(pocket.At, pocket.At)], 4);
        Spread from = Spread.Find(walls, middle, double.MaxValue / 4, 0);
        double rim = pocket.Diameter / 2;
        return from.Least < rim && from.Greatest > rim + Fits.FreeFloor && from.Greatest < 2 * rim;
    }
}
