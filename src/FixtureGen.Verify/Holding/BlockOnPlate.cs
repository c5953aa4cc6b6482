using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Holding;

/// <summary>
/// The block on the plate while it is cut: held by the plate's vacuum less its gasket's push, until the seal is opened or the vacuum
/// switched off, and by the bolts once they are in. Its pressure spread evenly or along the rim, the worse counts.
/// </summary>
internal static class BlockOnPlate
{
    private const int Patched = 140;

    /// <summary>Share of a bolt's nominal preload, torque / (K body), that is relied on: torque scatters by some 30 %; common practice, no source.</summary>
    private const double PreloadShare = 0.7;

    /// <summary>The number of a state, for a cut.</summary>
    public static int State(bool vacuum, bool bolted) => (vacuum ? 1 : 0) + (bolted ? 2 : 0);

    public static ProgramHold Judge(Run run, CutScan scan)
    {
        HoldFindings say = new(run);
        // where neither holds, the vacuum is not proven or the bolts are not in, which has a finding of its own
        Cut[] cuts = [.. scan.Cuts.Where(c => c.State > 0)];
        if (cuts.Length == 0)
        {
            return ProgramHold.None;
        }
        Tables tables = new(run.Blank);
        Held[]?[] ways = new Held[4][];
        GiveTable Table(Cut cut) =>
            tables.Get(
                cut.Pattern,
                cut.State,
                () => ways[cut.State] ??= Held(run, (cut.State & 1) != 0, (cut.State & 2) != 0)
            );
        var holds = ImmutableArray.CreateBuilder<BlockHoldPlace>();
        for (int from = 0; from < cuts.Length; )
        {
            int to = from;
            while (to < cuts.Length && Same(say, cuts[from], cuts[to]))
            {
                to++;
            }
            HoldSearch search = new(cuts[from..to], Table, c => c.ForceN);
            HeldCut? worst = search.Worst();
            say.Block(search.FirstBelow(run.Job.Limits.BlockFactor), worst, run.Job.Limits.BlockFactor);
            string tool = run.Cutters[say.MotionBehind(cuts[from]).Tool].Tool.Name;
            holds.Add(new BlockHoldPlace(tool, (cuts[from].State & 2) != 0, say.Place(worst)!));
            from = to;
        }
        return new ProgramHold(null, null, holds.ToImmutable());
    }

    private static bool Same(HoldFindings say, Cut a, Cut b) =>
        a.State == b.State && say.MotionBehind(a).Tool == say.MotionBehind(b).Tool;

    private static Held[] Held(Run run, bool vacuum, bool bolted)
    {
        Plate plate = run.Job.Plate;
        double friction = plate.FrictionBlockOnPlate;
        Contour outline = Outline(run.Blank);
        Region seal = Region.From(plate.SealLoop);
        double length = Patches.Length([plate.SealLoop]);
        double area = Math.Max(0, Patches.AreaOf([seal]) - (length * plate.SealGrooveWidth / 2));
        double force = vacuum
            ? (VacuumAt.Least(run.Job.Vacuum) * area / 1000) - (plate.SealReactionNPerMm * length)
            : 0;
        Point2 middle = new Bed(Patches.OverArea([seal], Patched)).Middle;
        Grip[] bolts = bolted ? Bolts(run, friction) : [];
        Point2[] hull = Hull.Around([outline]);
        return
        [
            .. new[]
            {
                new Bed(Patches.OverArea([Region.From(outline)], Patched)),
                new Bed(Patches.AlongLines([outline], Patches.Length([outline]) / Patched)),
            }.Select(bed => new Held(bed, friction, force, force * (middle - bed.Middle), bolts, hull)),
        ];
    }

    private static Grip[] Bolts(Run run, double friction)
    {
        Screw bolt = run.Job.Bolt;
        double preload = PreloadShare * bolt.TorqueNm * 1000 / (bolt.NutFactor * bolt.Body);
        return
        [
            .. run
                .Design.Features.OfType<HoleFeature>()
                .Where(h => h.Kind == FeatureKind.BoltHole)
                .Select(h => new Grip(h.At, preload, preload * friction, default)),
        ];
    }

    private static Contour Outline(Box2 b)
    {
        Point2[] p = [new(b.MinX, b.MinY), new(b.MaxX, b.MinY), new(b.MaxX, b.MaxY), new(b.MinX, b.MaxY)];
        return new Contour([.. Enumerable.Range(0, 4).Select(i => Segment.Line(p[i], p[(i + 1) % 4]))]);
    }
}
