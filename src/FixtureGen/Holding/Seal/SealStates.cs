using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Holding.Sliding;
using FixtureGen.Model;

namespace FixtureGen.Holding.Seal;

/// <summary>A force and its first moment about the plate's origin, N and N mm.</summary>
internal readonly record struct Pressing(double Force, Point2 First)
{
    public static Pressing operator +(Pressing a, Pressing b) => new(a.Force + b.Force, a.First + b.First);

    public static Pressing operator *(Pressing a, double k) => new(a.Force * k, a.First * k);
}

/// <summary>
/// What the vacuum and the cords do, zone by zone, and which zones still hold during each cut: a cutout that opens a zone
/// (no loop of its own round it) lets the air into that zone from its first chip on, and that zone holds nothing. The vacuum
/// pulls on what the zone's net reaches, and on nothing else of it.
/// </summary>
internal sealed class SealStates
{
    private readonly ImmutableArray<ImmutableArray<Region>> _reached;
    private readonly Pressing[] _perKPa;
    private readonly int[] _stateOfCut;
    private readonly int[] _stateOfHole;
    private readonly List<bool[]> _states = [];

    private SealStates(SealStates like, ImmutableArray<ImmutableArray<Region>> reached)
    {
        _reached = reached;
        _perKPa = [.. reached.Select(Pulling)];
        _stateOfCut = like._stateOfCut;
        _stateOfHole = like._stateOfHole;
        _states = like._states;
        Cords = like.Cords;
        NominalPush = like.NominalPush;
        Opened = like.Opened;
    }

    public SealStates(FixtureDesign design, Job job, Kernel kernel)
    {
        _reached = [.. design.Zones.Select(z => z.Reached)];
        _perKPa = [.. _reached.Select(Pulling)];
        double hardest = CordForce.HardestNPerMm(job.Gasket, 0);
        Cords = Push(design.Cords, hardest);
        NominalPush = hardest > 0 ? CordEnd.Nominal(job.Gasket).PushNPerMm(0) / hardest : 1;
        bool[] holds = [.. design.Zones.Select(_ => true)];
        _states.Add([.. holds]);
        _stateOfHole = new int[design.DrilledHoles.Length];
        _stateOfCut = new int[design.TrimCuts.Length];
        var opened = ImmutableArray.CreateBuilder<(string Cut, int Zone)>();
        for (int i = 0; i < _stateOfHole.Length; i++)
        {
            DrilledHole hole = design.DrilledHoles[i];
            _stateOfHole[i] = After(hole.Name, [hole.Sweep]);
        }
        for (int i = 0; i < _stateOfCut.Length; i++)
        {
            _stateOfCut[i] = After(design.TrimCuts[i].Name, design.TrimCuts[i].Sweep);
        }
        Opened = opened.ToImmutable();

        int After(string cut, ImmutableArray<Region> sweep)
        {
            foreach ((SealedZone zone, int z) in design.Zones.Select((zone, z) => (zone, z)))
            {
                if (holds[z] && Opens(sweep, zone, kernel))
                {
                    holds[z] = false;
                    opened.Add((cut, z));
                }
            }
            if (!_states[^1].SequenceEqual(holds))
            {
                _states.Add([.. holds]);
            }
            return _states.Count - 1;
        }
    }

    /// <summary>The same zones, cords and cuts with another net in the zones.</summary>
    /// <param name="design">Of the same part, zones and trim.</param>
    public SealStates Fed(FixtureDesign design)
    {
        ImmutableArray<ImmutableArray<Region>> now = [.. design.Zones.Select(z => z.Reached)];
        return Same(_reached, now) ? this : new SealStates(this, now);
    }

    /// <summary>The state before anything is cut.</summary>
    public const int Whole = 0;

    public int Count => _states.Count;

    public int During(int cut) => _stateOfCut[cut];

    /// <summary>While a hole is drilled, which comes before every cut.</summary>
    public int DuringHole(int hole) => _stateOfHole[hole];

    /// <summary>All cords' push on the shell when it is down, at the hardest their grade allows (upwards positive).</summary>
    public Pressing Cords { get; }

    /// <summary>What a nominal cord pushes over what the stiffest does, 0 to 1.</summary>
    public double NominalPush { get; }

    /// <summary>Cuts that open a zone, with the zone.</summary>
    public ImmutableArray<(string Cut, int Zone)> Opened { get; }

    /// <summary>Vacuum force in a state at a level, the cords not taken off.</summary>
    public Pressing Gross(int state, double kPa)
    {
        Pressing sum = default;
        for (int z = 0; z < _perKPa.Length; z++)
        {
            sum += _states[state][z] ? _perKPa[z] * kPa : default;
        }
        return sum;
    }

    /// <summary>A line force along cords: total and first moment.</summary>
    public static Pressing Push(IEnumerable<CordLoop> cords, double newtonPerMm)
    {
        Pressing sum = default;
        foreach (ContactPiece piece in ContactQuadrature.AlongLines(cords.Select(c => c.Centre), 2))
        {
            sum += new Pressing(piece.Share, piece.Share * piece.At) * newtonPerMm;
        }
        return sum;
    }

    private static Pressing Pulling(ImmutableArray<Region> area)
    {
        Pressing sum = default;
        foreach (ContactPiece piece in ContactQuadrature.OverArea(area, 200))
        {
            sum += new Pressing(piece.Share, piece.Share * piece.At);
        }
        double exact = Measure.Area(area);
        return sum.Force > 0 ? new Pressing(exact, sum.First * (exact / sum.Force)) * 1e-3 : default;
    }

    private static bool Same(ImmutableArray<ImmutableArray<Region>> a, ImmutableArray<ImmutableArray<Region>> b) =>
        a.Length == b.Length && a.Zip(b, (one, other) => Edges(one).SequenceEqual(Edges(other))).All(same => same);

    private static IEnumerable<Segment> Edges(ImmutableArray<Region> area) =>
        area.SelectMany(r => r.Contours).SelectMany(c => c.Segments);

    private static bool Opens(ImmutableArray<Region> sweep, SealedZone zone, Kernel kernel) =>
        Overlap(Measure.Bounds(sweep), Measure.Bounds(zone.Sealed))
        && Measure.Area(kernel.Intersect(sweep, zone.Sealed)) > 1e-3;

    internal static bool Overlap(Box2 a, Box2 b) =>
        a.MinX <= b.MaxX && b.MinX <= a.MaxX && a.MinY <= b.MaxY && b.MinY <= a.MaxY;
}
