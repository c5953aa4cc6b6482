using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Holding;

/// <summary>
/// The part held by magnets alone, the seal lost: the cords still push. Where the pull with the shell down is more than
/// their push, the shell stays down: the cords carry their share with the cord's friction and the block carries the rest at
/// the magnets. Where it is less, the shell floats up to the lift at which pull and push are equal, and contact, friction
/// and support are the cords'. The pull is taken at the slip that <see cref="StoppingLoad"/> allows. Over that slip the pairs
/// centre their jackets, which drag on the shell from above: each adds its centring force at half the slip (a turning part
/// moves less near its centre), never more than the jacket's friction, taken as the shell's on the block.
/// </summary>
internal sealed class SealLost
{
    private const double PointSpread = 0.25;
    private const int LiftSteps = 32;

    private readonly Gasket cord;
    private readonly PairOnBlock pair;
    private readonly double cordLength;
    private readonly double deepest;
    private readonly double softest;
    private readonly double blockFriction;
    private readonly PressureMeasure? cords;
    private readonly HeldPart down;
    private readonly HeldPart floating;
    private readonly double[] pullAtLift;

    public SealLost(FixtureDesign design, Job job, PairOnBlock pair, PressureMeasure contact, Point2[] contactHull)
    {
        this.pair = pair;
        cord = job.Gasket;
        cordLength = design.Cords.Sum(c => Measure.Length(c.Centre));
        softest = CordForce.SoftestNPerMm(cord);
        deepest = Math.Max(0, cord.Section + cord.SectionTolerance - cord.GrooveDepth);
        blockFriction = Friction.ShellOnBlock(job).Least;
        cords =
            cordLength > 0
                ? new PressureMeasure(ContactQuadrature.AlongLines(design.Cords.Select(c => c.Centre), cordLength / 64))
                : null;
        (PressureMeasure on, double friction) = cords is null
            ? (contact, blockFriction)
            : (cords, cord.FrictionShellOnCord.Least);
        down = new HeldPart(on, friction, 0, default, [], contactHull);
        floating = new HeldPart(on, friction, 0, default, [], ConvexHull.Of(design.Cords.Select(c => c.Centre)));
        pullAtLift =
        [
            .. Enumerable.Range(0, LiftSteps + 1).Select(i => pair.PullN(deepest * i / LiftSteps) / pair.PullN(0)),
        ];
    }

    /// <summary>How far the shell lifts off the block under a total pull (with the shell down), mm; 0 where it stays down.</summary>
    public double LiftOf(double pull)
    {
        if (pull >= Push(0))
        {
            return 0;
        }
        double low = 0;
        double high = deepest;
        for (int i = 0; i < 40; i++)
        {
            double lift = (low + high) / 2;
            (low, high) = Push(lift) > pull * Weaker(lift) ? (lift, high) : (low, lift);
        }
        return (low + high) / 2;
    }

    /// <summary>The held part for magnets at places; null where nothing pulls.</summary>
    public HeldPart? Hold(IReadOnlyList<Point2> at)
    {
        double[] shares = pair.SharesN(at);
        double pull = shares.Sum();
        if (pull <= 0)
        {
            return null;
        }
        double lift = LiftOf(pull);
        double kept = Weaker(lift) * (1 - StoppingLoad.PullLost);
        if (cords is null)
        {
            return new HeldPart(down, 0, default, Points(at, shares, kept, 1));
        }
        double carried = lift > 0 ? 1 : CordShare(pull * kept);
        Point2 moment = default;
        for (int i = 0; i < at.Count; i++)
        {
            moment += shares[i] * kept * carried * (at[i] - cords.Middle);
        }
        PressPoint[] points = Points(at, shares, kept, lift > 0 ? 0 : 1 - carried);
        return new HeldPart(lift > 0 ? floating : down, pull * kept * carried, moment, points);
    }

    /// <summary>Share of the pull that a pressed-down cord takes: the end of its grade that grips less.</summary>
    private double CordShare(double pull)
    {
        double push = cord.FrictionShellOnCord.Least > blockFriction ? softest * cordLength : Push(0);
        return Math.Min(1, push / pull);
    }

    private PressPoint[] Points(IReadOnlyList<Point2> at, double[] shares, double kept, double onBlock)
    {
        PressPoint[] points = new PressPoint[at.Count];
        for (int i = 0; i < points.Length; i++)
        {
            double pull = shares[i] * kept;
            double jacket = Math.Min(blockFriction * pull, pair.CentringN);
            points[i] = new PressPoint(at[i], pull * onBlock, (blockFriction * pull * onBlock) + jacket, PointSpread);
        }
        return points;
    }

    private double Push(double lift) => CordForce.HardestNPerMm(cord, lift) * cordLength;

    private double Weaker(double lift)
    {
        double place = deepest > 0 ? Math.Clamp(lift / deepest, 0, 1) * LiftSteps : 0;
        int i = Math.Min((int)place, LiftSteps - 1);
        return pullAtLift[i] + ((place - i) * (pullAtLift[i + 1] - pullAtLift[i]));
    }
}
