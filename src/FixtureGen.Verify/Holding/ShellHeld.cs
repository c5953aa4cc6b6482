using FixtureGen.Model;
using FixtureGen.Verify.Shape;

namespace FixtureGen.Verify.Holding;

/// <summary>
/// The shell on its block in every way that may be the worst: under vacuum alone, its pressure spread evenly or along the rim; and
/// with the seal lost under magnets alone, on the hardest cord and on the softest. Worst ends of all ranges: the switch's lower
/// end, the hardest cord's push-back, least friction, the weakest disc at the greatest gap.
/// </summary>
internal sealed class ShellHeld
{
    private const int AreaPatches = 150;
    private const int RimPatches = 80;
    private const int CordPatches = 72;

    /// <summary>Share of its pull that a pair may lose while the machine stops, by the slip that goes with it; the house's choice.</summary>
    private const double PullLost = 0.05;

    private readonly Job _job;
    private readonly FixtureDesign _design;
    private readonly Bed _even;
    private readonly Bed _rim;
    private readonly Bed _cords;
    private readonly Point2[] _hull;
    private readonly Point2[] _cordHull;
    private readonly double _cordLength;
    private readonly double _friction;
    private readonly DiscPair _disc;
    private readonly double _gap;
    private readonly (double Area, Point2 Middle)[] _zones;
    private readonly double _level;

    public ShellHeld(Job job, FixtureDesign design)
    {
        (_job, _design) = (job, design);
        Contour[] rims = Patches.Rims(design.Contact);
        Contour[] cords = [.. design.Cords.Select(c => c.Centre)];
        _cordLength = Patches.Length(cords);
        _even = new Bed(Patches.OverArea(design.Contact, AreaPatches));
        _rim = new Bed(Patches.AlongLines(rims, Patches.Length(rims) / RimPatches));
        _cords = new Bed(Patches.AlongLines(cords, _cordLength / CordPatches));
        _hull = Hull.Around(rims);
        _cordHull = Hull.Around(cords);
        _friction = (job.ShellFriction ?? job.BlockMaterial.ShellFriction).Least;
        _disc = DiscPair.Weakest(job.Magnet);
        _gap = DiscPair.Gap(job);
        _level = VacuumAt.Least(job.Vacuum);
        _zones =
        [
            .. design
                .Zones.Select(ZoneArea.Acting)
                .Select(a => (Patches.AreaOf(a), new Bed(Patches.OverArea(a, AreaPatches)).Middle)),
        ];
        Slip = design.Magnets.IsEmpty ? 0 : _disc.SlipFor(_gap, PullLost);
    }

    /// <summary>How far a jacket may be pushed aside while the machine stops, mm.</summary>
    public double Slip { get; }

    /// <summary>Whether there is any contact, more than 1 mm2.</summary>
    public bool Rests => _even.Size > 1;

    /// <summary>On vacuum alone, no slip at all; the zones that are open hold nothing.</summary>
    public Held[] OnVacuum(bool[] open)
    {
        double force = 0;
        Point2 first = default;
        for (int i = 0; i < _zones.Length; i++)
        {
            double pull = open[i] ? 0 : _zones[i].Area * _level / 1000;
            force += pull;
            first += pull * _zones[i].Middle;
        }
        double push = CordPush.Hardest(_job.Gasket).NPerMm(0) * _cordLength;
        force -= push;
        first -= push * _cords.Middle;
        return
        [
            .. new[] { _even, _rim }.Select(bed => new Held(
                bed,
                _friction,
                force,
                first - (force * bed.Middle),
                [],
                _hull
            )),
        ];
    }

    /// <summary>On the magnets alone with these stops besides, the cord at either end of what it may be; none where nothing pulls.</summary>
    public Held[] OnMagnets(IReadOnlyList<Grip> stops)
    {
        Point2[] at = [.. _design.Magnets.Select(m => m.At)];
        double[] pull = [.. Pulls(at).Select(p => p * (1 - PullLost))];
        if (pull.Sum() <= 0)
        {
            return [];
        }
        if (_cordLength <= 0)
        {
            // pressing at the magnets, or spread over the contact by a shell that is stiff
            Point2 first = default;
            for (int i = 0; i < at.Length; i++)
            {
                first += pull[i] * (at[i] - _even.Middle);
            }
            return
            [
                new Held(_even, _friction, 0, default, [.. Points(at, pull, 1), .. stops], _hull),
                new Held(_even, _friction, pull.Sum(), first, [.. stops], _hull),
            ];
        }
        return
        [
            OnCords(at, pull, CordPush.Hardest(_job.Gasket), stops),
            OnCords(at, pull, CordPush.Softest(_job.Gasket), stops),
        ];
    }

    /// <summary>
    /// Pulled down as far as the block, the cords carry what they push and the block the rest at the magnets; less pull floats at the
    /// height where it is what the cords push, and they alone carry.
    /// </summary>
    private Held OnCords(Point2[] at, double[] pull, CordPush cord, IReadOnlyList<Grip> stops)
    {
        double sum = pull.Sum();
        double push = cord.NPerMm(0) * _cordLength;
        bool down = sum >= push;
        double left = down ? 1 : Left(cord, sum);
        double carried = down ? push / sum : 1;
        Point2 moment = default;
        for (int i = 0; i < at.Length; i++)
        {
            moment += pull[i] * left * carried * (at[i] - _cords.Middle);
        }
        return new Held(
            _cords,
            _job.Gasket.FrictionShellOnCord.Least,
            sum * left * carried,
            moment,
            [.. down ? Points(at, pull, 1 - carried) : [], .. stops],
            down ? _hull : _cordHull
        );
    }

    /// <summary>What is left of the pull at the height where the cords carry it all.</summary>
    private double Left(CordPush cord, double sum)
    {
        double near = _disc.ForceN(_gap, 0);
        double LeftAt(double lift) => _disc.ForceN(_gap + lift, 0) / near;
        (double low, double high) = (0, Math.Max(0, cord.Reach));
        for (int i = 0; i < 20; i++)
        {
            double lift = (low + high) / 2;
            (low, high) = cord.NPerMm(lift) * _cordLength > sum * LeftAt(lift) ? (lift, high) : (low, lift);
        }
        return LeftAt(high);
    }

    private IEnumerable<Grip> Points(Point2[] at, double[] pull, double share) =>
        at.Select((p, i) => new Grip(p, pull[i] * share, pull[i] * share * _friction, default));

    private double[] Pulls(Point2[] at)
    {
        double own = at.Length == 0 ? 0 : _disc.PullN(_gap, 0);
        double[] pulls = [.. at.Select(_ => own)];
        for (int i = 0; i < at.Length; i++)
        {
            for (int k = 0; k < i; k++)
            {
                double more = _disc.NeighbourN(_gap, at[i].DistanceTo(at[k]));
                pulls[i] += more;
                pulls[k] += more;
            }
        }
        return [.. pulls.Select(p => Math.Max(0, p))];
    }
}
