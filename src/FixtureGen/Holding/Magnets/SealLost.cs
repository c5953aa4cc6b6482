using FixtureGen.Geometry;
using FixtureGen.Holding.Seal;
using FixtureGen.Holding.Sliding;
using FixtureGen.Model;

namespace FixtureGen.Holding.Magnets;

/// <summary>
/// The part held by magnets alone, the seal lost: the cords still push. Where the pull with the shell down is more than their
/// push, the shell stays down: the cords carry their push with the cord's friction and the block the rest. Where it is less, the
/// shell floats up to the lift at which pull and push are equal, and the cords carry all. A stiff cord lifts the shell, a soft
/// one grips less, and which hurts more depends on the pull: so both ends of the cord are tried, each consistent in itself, with
/// every friction at its least. Between the ends the hold is no lower: while the shell is down the friction of every way to
/// slide goes in a straight line with the push, and once it floats a stiffer cord only takes pull away. What the block carries
/// is taken at the magnets and, the other way, spread over the contact; the lower counts. Support and tipping are the
/// cords' in either state, so nothing jumps where the shell begins to float. Without a cord the block carries all the pull: that is the
/// hold by magnets alone. The pull is what is left of it at the slip that
/// <see cref="StoppingLoad"/> allows; the centring of the jackets is not counted, since it takes a slip to act.
/// </summary>
internal sealed class SealLost
{
    private const double PointSpread = 0.25;
    private const int SpreadPieces = 16;
    private const int LiftSteps = 32;

    private readonly PairOnBlock _pair;
    private readonly double _cordLength;
    private readonly bool _hasCords;
    private readonly PressureMeasure _contact;
    private readonly ContactPiece[] _spread;
    private readonly HeldPart _worst;
    private readonly HeldPart _nominal;
    private readonly Corner _softest;
    private readonly Corner _hardest;
    private readonly Corner _middle;
    private readonly double _reach;
    private readonly double[] _pullAtLift;

    public SealLost(FixtureDesign design, Job job, PairOnBlock pair, PressureMeasure contact, Point2[] contactHull)
    {
        _pair = pair;
        _contact = contact;
        _cordLength = design.Cords.Sum(c => Measure.Length(c.Centre));
        _hasCords = _cordLength > 0;
        _spread = new PressureMeasure(ContactQuadrature.OverArea(design.Contact, SpreadPieces)).Pieces;
        PressureMeasure cords = _hasCords
            ? new PressureMeasure(ContactQuadrature.AlongLines(design.Cords.Select(c => c.Centre), _cordLength / 64))
            : contact;
        Point2[] hull = _hasCords ? ConvexHull.Around(design.Cords.Select(c => c.Centre)) : contactHull;
        Interval onBlock = Friction.ShellOnBlock(job);
        Interval onCord = _hasCords ? job.Gasket.FrictionShellOnCord : onBlock;
        _worst = new HeldPart(cords, onCord.Least, 0, default, [], hull);
        _nominal = new HeldPart(cords, onCord.Nominal, 0, default, [], hull);
        _softest = new Corner(
            _hasCords ? "softest cord" : "weakest discs, no cord",
            _worst,
            CordEnd.Softest(job.Gasket),
            onBlock.Least,
            1
        );
        _hardest = new Corner("stiffest cord", _worst, CordEnd.Hardest(job.Gasket), onBlock.Least, 1);
        _middle = new Corner("nominal", _nominal, CordEnd.Nominal(job.Gasket), onBlock.Nominal, pair.NominalShare);
        _reach = _hardest.Cord.Reach;
        _pullAtLift =
        [
            .. Enumerable.Range(0, LiftSteps + 1).Select(i => pair.PullN(_reach * i / LiftSteps) / pair.PullN(0)),
        ];
    }

    /// <summary>One consistent set of what the shop does not know: cord, friction on the block, pull over the weakest pairs'.</summary>
    private readonly record struct Corner(string Name, HeldPart Bare, CordEnd Cord, double OnBlock, double PullScale);

    /// <summary>How far the stiffest cord lifts the shell under a total pull (the weakest pairs', shell down), mm; 0 where it stays down.</summary>
    public double LiftOf(double pull) => _hasCords ? LiftOf(_hardest, pull * (1 - StoppingLoad.PullLost)) : 0;

    /// <summary>Every way in which the part may be held in the worst case, of which the lowest counts; empty where nothing pulls.</summary>
    public HeldPart[] Hold(IReadOnlyList<Point2> at) => Hold(at, 0);

    /// <summary>The same once the shell has shifted by a distance, mm, and dragged the jackets along.</summary>
    public HeldPart[] Hold(IReadOnlyList<Point2> at, double shift)
    {
        double kept = _pair.KeptAt(shift) / (1 - StoppingLoad.PullLost);
        return [.. Ways(at, kept).OfType<HeldPart>()];
    }

    /// <summary>
    /// The ways of <see cref="Hold(IReadOnlyList{Point2})"/>, each always at the same index below <see cref="MostWays"/>; null where a
    /// way falls together with the one before it, all null where nothing pulls.
    /// </summary>
    public HeldPart?[] Ways(IReadOnlyList<Point2> at) => Ways(at, 1);

    public const int MostWays = 4;

    private HeldPart?[] Ways(IReadOnlyList<Point2> at, double kept)
    {
        double[] shares = _pair.SharesN(at);
        var ways = new HeldPart?[MostWays];
        if (shares.Sum() * kept > 0)
        {
            Hold(at, shares, _softest with { PullScale = kept }).CopyTo(ways, 0);
            if (_hasCords)
            {
                Hold(at, shares, _hardest with { PullScale = kept }).CopyTo(ways, 2);
            }
        }
        return ways;
    }

    /// <summary>The ways with everything at its nominal value.</summary>
    public HeldPart[] HoldNominal(IReadOnlyList<Point2> at)
    {
        double[] shares = _pair.SharesN(at);
        return shares.Sum() <= 0 ? [] : Hold(at, shares, _middle);
    }

    private HeldPart[] Hold(IReadOnlyList<Point2> at, double[] shares, in Corner corner)
    {
        double left = corner.PullScale * (1 - StoppingLoad.PullLost);
        double down = shares.Sum() * left;
        double lift = _hasCords ? LiftOf(corner, down) : 0;
        double kept = left * Weaker(lift);
        double onCords =
            !_hasCords ? 0
            : lift > 0 ? 1
            : Math.Min(1, Push(corner, 0) / down);
        Point2 first = default;
        for (int i = 0; i < at.Count; i++)
        {
            first += shares[i] * kept * at[i];
        }
        double total = shares.Sum() * kept;
        double pressed = total * onCords;
        Point2 moment = onCords * (first - (total * corner.Bare.Contact.Middle));
        string name =
            lift > 0 ? FormattableString.Invariant($"{corner.Name}, the shell {lift:0.00} mm up on it") : corner.Name;
        HeldPart atMagnets = new(
            corner.Bare,
            pressed,
            moment,
            AtMagnets(at, shares, kept * (1 - onCords), corner.OnBlock)
        )
        {
            Corner = onCords < 1 ? name + ", pressing at the magnets" : name,
        };
        if (onCords >= 1)
        {
            return [atMagnets];
        }
        PressPoint[] allOver = OverContact(total - pressed, first * (1 - onCords), corner.OnBlock);
        return
        [
            atMagnets,
            new HeldPart(corner.Bare, pressed, moment, allOver) { Corner = name + ", pressing all over" },
        ];
    }

    private static PressPoint[] AtMagnets(IReadOnlyList<Point2> at, double[] shares, double kept, double friction)
    {
        PressPoint[] points = new PressPoint[at.Count];
        for (int i = 0; i < points.Length; i++)
        {
            double force = shares[i] * kept;
            points[i] = new PressPoint(at[i], force, force * friction, PointSpread);
        }
        return points;
    }

    /// <summary>A force with its first moment about the plate's origin as a plane pressure over the contact; what would pull is left out.</summary>
    private PressPoint[] OverContact(double force, Point2 first, double friction)
    {
        Point2 slope = _contact.SlopeFor(first - (force * _contact.Middle));
        PressPoint[] points = new PressPoint[_spread.Length];
        double sum = 0;
        for (int i = 0; i < points.Length; i++)
        {
            ContactPiece p = _spread[i];
            double here = p.Share * Math.Max(0, force + slope.Dot(p.At - _contact.Middle));
            points[i] = new PressPoint(p.At, here, 0, Math.Sqrt(p.Spread2));
            sum += here;
        }
        for (int i = 0; i < points.Length; i++)
        {
            double here = sum > 0 ? points[i].Force * force / sum : 0;
            points[i] = points[i] with { Force = here, Grip = here * friction };
        }
        return points;
    }

    private double LiftOf(in Corner corner, double pull)
    {
        if (pull >= Push(corner, 0))
        {
            return 0;
        }
        double low = 0;
        double high = corner.Cord.Reach;
        for (int i = 0; i < 40; i++)
        {
            double lift = (low + high) / 2;
            (low, high) = Push(corner, lift) > pull * Weaker(lift) ? (lift, high) : (low, lift);
        }
        return (low + high) / 2;
    }

    private double Push(in Corner corner, double lift) => corner.Cord.PushNPerMm(lift) * _cordLength;

    private double Weaker(double lift)
    {
        double place = _reach > 0 ? Math.Clamp(lift / _reach, 0, 1) * LiftSteps : 0;
        int i = Math.Min((int)place, LiftSteps - 1);
        return _pullAtLift[i] + ((place - i) * (_pullAtLift[i + 1] - _pullAtLift[i]));
    }
}
