using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Holding.Magnets;
using FixtureGen.Holding.Seal;
using FixtureGen.Holding.Sliding;
using FixtureGen.Holding.Stopping;
using FixtureGen.Model;

namespace FixtureGen.Holding;

/// <summary>
/// All of a design's holding that does not depend on where the magnets are, worked out once: levels, seal states, contact
/// pressures, stops, loads along the trim; the vacuum's own factors with the first answer. <see cref="Evaluate"/> then answers
/// for any magnets quickly. With the vacuum up every unknown hurts one way only (least vacuum and friction, stiffest cord, weakest
/// magnets, greatest force), so its worst case is one corner; with the seal lost see <see cref="SealLost"/>.
/// </summary>
public sealed class HoldingContext
{
    private const int AreaPieces = 100;
    private const double PointSpread = 0.25;
    private const double ImplantFieldT = 0.0005;

    private readonly FixtureDesign _design;
    private readonly Job _job;
    private readonly SealStates _seals;
    private readonly PressureMeasure _uniform;
    private readonly PressureMeasure _edge;
    private readonly Point2[] _hull;
    private readonly StopSet _stops;
    private readonly Staying _staying;
    private StepFactor[]? _vacuum;
    private HoldAnswer? _vacuumAnswer;

    /// <summary>
    /// For a design with contact between shell and block, a trim and an altitude within the atmosphere's range:
    /// <see cref="HoldingAnalysis.Context"/> refuses all others with findings first.
    /// </summary>
    /// <param name="like">
    /// A context of the same part, placement and settings with other magnets or ports: what zones and trim alone decide is taken
    /// from it; null to work all out.
    /// </param>
    /// <exception cref="KernelException">What a cut takes of a zone could not be proven.</exception>
    public HoldingContext(FixtureDesign design, Job job, Tolerances tolerances, HoldingContext? like = null)
    {
        _design = design;
        _job = job;
        Level = VacuumLevel.From(job.Vacuum);
        Pair = like?.Pair ?? new PairOnBlock(job);
        _seals = like?._seals.Fed(design) ?? new SealStates(design, job, new Kernel(tolerances));
        Loads = like?.Loads ?? TrimLoadsOf.Design(design, job, _seals, Pair.Slip);
        Contour[] rims = Outermost(design.Contact);
        _uniform = new PressureMeasure(ContactQuadrature.OverArea(design.Contact, AreaPieces));
        _edge = new PressureMeasure(ContactQuadrature.AlongLines(rims, rims.Sum(Measure.Length) / 60));
        _hull = ConvexHull.Around(rims);
        _stops = like?._stops ?? Stops.Find(design, job);
        _staying = new Staying(Loads, _stops);
        Lost = new SealLost(design, job, Pair, _uniform, _hull);
        Vacuum = ByMagnets ? [] : HeldBy([], [], nominal: false);
    }

    /// <summary>No vacuum under the shell: the magnets are what holds it, under the full cutting load.</summary>
    private bool ByMagnets => _job.HoldBy == HoldBy.Magnets;

    /// <summary>The vacuum levels of the job's place and pump, kPa gauge.</summary>
    public VacuumLevel Level { get; }

    /// <summary>The job's magnet pair over the block: gap, pull, spacing.</summary>
    public PairOnBlock Pair { get; }

    internal TrimLoads Loads { get; }

    /// <summary>Of a step's load what the magnets are chosen against: all of it where they are the hold, else what is left while the machine stops.</summary>
    internal double ShareFor(int step) => ByMagnets ? 1 : Loads.Works[Loads.Steps[step].Work].StopShare;

    internal SealLost Lost { get; }

    internal SealStates Seals => _seals;

    /// <summary>The part under vacuum alone in the worst case, by seal state: uniform and edge-loaded pressure.</summary>
    internal HeldPart[][] Vacuum { get; }

    /// <summary>Vacuum force on all zones together at the alarm level, nothing cut yet and the cords not taken off, N.</summary>
    public double GrossForceN => _seals.Gross(SealStates.Whole, Level.Used).Force;

    /// <summary>The most that all cords together push back with the shell down, N.</summary>
    public double CordForceN => _seals.Cords.Force;

    /// <summary>The four answers, the samples along the trim and the forces, for these magnets; none is a set too.</summary>
    public HoldingResult Evaluate(ImmutableArray<MagnetPlace> magnets)
    {
        Point2[] at = [.. magnets.Select(m => m.At)];
        double[] shares = Pair.SharesN(at);
        HeldPart[][] lost = Repeated(Lost.Hold(at));
        HeldPart[][] together = ByMagnets ? lost : HeldBy(at, shares, nominal: false);
        StepFactor[][] swept = _vacuum is null
            ? PathSweep.Full(Loads, lost, together, Vacuum)
            : PathSweep.Full(Loads, lost, together);
        _vacuum ??= swept[2];
        StepFactor[] alone = swept[0];
        StepFactor[] both = Larger(swept[1], _vacuum, alone);
        StepFactor[] stopping = Stopping(alone);
        double pull = shares.Sum();
        double lift = at.Length == 0 ? 0 : Lost.LiftOf(pull);
        HeldPart[][] nominalLost = Repeated(Lost.HoldNominal(at));
        HeldPart[][] shifted = Shifted(at, lost);
        _vacuumAnswer ??= Answer(
            _vacuum,
            Vacuum,
            _staying.Least(Vacuum, _vacuum).Full,
            Nominal(ByMagnets ? [] : HeldBy([], [], nominal: true), _vacuum, stopping: false),
            Vacuumed
        );
        (Stay stays, Stay staysStopping) = _staying.Least(shifted, alone);
        HoldAnswer magnetsOnly = Answer(alone, lost, stays, Nominal(nominalLost, alone, stopping: false), Magnetic);
        HoldAnswer magnetsStopping = Answer(
            stopping,
            lost,
            staysStopping,
            Nominal(nominalLost, stopping, stopping: true),
            Magnetic
        );
        HeldPart[][] nominally = ByMagnets ? nominalLost : HeldBy(at, shares, nominal: true);
        double nominalBoth = Nominal(nominally, both, stopping: false);
        HoldAnswer bothAnswer = Answer(both, together, default, nominalBoth, Vacuumed);
        return new HoldingResult
        {
            HoldBy = _job.HoldBy,
            AtmosphereKPa = Level.Atmosphere,
            VacuumKPa = Level.Used,
            PumpKPa = Level.Settled,
            SealedForceN = GrossForceN,
            GasketForceN = CordForceN,
            MagnetForceN = pull,
            CuttingForceN = Loads.Works.Max(w => w.Force.Shear),
            LiftMm = lift,
            ImplantDistanceMm =
                at.Length == 0 ? 0 : MagnetField.DistanceTo(Disc.Strongest(_job.Magnet), ImplantFieldT, 2 * at.Length),
            VacuumOnly = _vacuumAnswer,
            MagnetsOnly = magnetsOnly,
            MagnetsStopping = magnetsStopping,
            Both = AtLeast(bothAnswer, _vacuumAnswer, magnetsOnly),
            Samples = Samples(_vacuum, alone, stopping, both),
            MagnetShareN = [.. shares],
            Stops = [.. _stops.Before, .. _stops.Outline.Except(_stops.Before)],
            ShiftMm = _stops.ShiftMm,
            Dimples = ByMagnets ? [] : Deflection.Over(_design, _job, Level.DeadHead),
            JacketGrip =
                at.Length == 0
                    ? LimitState.Most
                    : JacketGrip.Margin(_job, shares.Min(), Friction.ShellOnBlock(_job).Least),
        };

        string Vacuumed(HeldPart[] parts, CutLoad load, StepFactor f) =>
            Governing.WithVacuum(parts, load, f, GrossForceN, CordForceN);
        string Magnetic(HeldPart[] parts, CutLoad load, StepFactor f) =>
            Governing.WithMagnets(parts, load, f, pull, lift);
    }

    /// <summary>The two factors that have house limits, as <see cref="Evaluate"/> answers them, alone.</summary>
    internal LimitedFactors Limited(ImmutableArray<MagnetPlace> magnets)
    {
        if (ByMagnets)
        {
            Point2[] at = [.. magnets.Select(m => m.At)];
            return new LimitedFactors(PutFactor(at), StoppingFactor(at));
        }
        _vacuum ??= PathSweep.Full(Loads, Vacuum)[0];
        return new LimitedFactors(_vacuum.Min(f => f.Factor), StoppingFactor([.. magnets.Select(m => m.At)]));
    }

    /// <summary>The least factor on vacuum alone of what cuts through the shell, and of its marks and drilled holes; the most there is where there is none.</summary>
    internal (double Cuts, double Marks) VacuumByWork()
    {
        _vacuum ??= PathSweep.Full(Loads, Vacuum)[0];
        double cuts = LimitState.Most;
        double marks = LimitState.Most;
        for (int i = 0; i < _vacuum.Length; i++)
        {
            bool mark = Loads.Works[Loads.Steps[i].Work].HasOwnFeed;
            cuts = mark ? cuts : Math.Min(cuts, _vacuum[i].Factor);
            marks = mark ? Math.Min(marks, _vacuum[i].Factor) : marks;
        }
        return (cuts, marks);
    }

    /// <summary>
    /// The least factor at which the part stays, stops counted, with the seal lost and the machine stopping, for magnets at places
    /// (plate frame, mm): what <see cref="Evaluate"/> answers, alone; 0 where nothing pulls.
    /// </summary>
    public double StoppingFactor(IReadOnlyList<Point2> at)
    {
        HeldPart[][] lost = Repeated(Lost.Hold(at));
        StepFactor[] alone = PathSweep.Full(Loads, lost)[0];
        HeldPart[][] shifted = Shifted(at, lost);
        return Math.Max(Stopping(alone).Min(f => f.Factor), _staying.Least(shifted, alone).Stopping.Factor);
    }

    /// <summary>The least factor at which the part stays put on magnets alone under the full cutting load, no slip at all; 0 where nothing pulls.</summary>
    public double PutFactor(IReadOnlyList<Point2> at) =>
        PathSweep.Full(Loads, Repeated(Lost.Hold(at)))[0].Min(f => f.Factor);

    /// <summary>What the magnets at these places are chosen by: staying put where they are the hold, else staying while the machine stops.</summary>
    public double MagnetsFactor(IReadOnlyList<Point2> at) => ByMagnets ? PutFactor(at) : StoppingFactor(at);

    /// <summary>From one end of its play to the other the shell drags the jackets along, at worst.</summary>
    private HeldPart[][] Shifted(IReadOnlyList<Point2> at, HeldPart[][] lost) =>
        2 * _stops.ShiftMm > Pair.Slip ? Repeated(Lost.Hold(at, 2 * _stops.ShiftMm)) : lost;

    private HeldPart[][] HeldBy(Point2[] at, double[] shares, bool nominal)
    {
        Interval friction = Friction.ShellOnBlock(_job);
        (double grip, double level, double push, double pull) = nominal
            ? (friction.Nominal, Level.Used, _seals.NominalPush, Pair.NominalShare)
            : (friction.Least, Level.Least, 1, 1);
        PressPoint[] points =
        [
            .. at.Select((p, i) => new PressPoint(p, shares[i] * pull, shares[i] * pull * grip, PointSpread)),
        ];
        var held = new HeldPart[_seals.Count][];
        for (int state = 0; state < held.Length; state++)
        {
            Pressing net = _seals.Gross(state, level) + (_seals.Cords * -push);
            held[state] =
            [
                .. new[] { (_uniform, "pressing all over"), (_edge, "pressing along its edge") }.Select(
                    m => new HeldPart(m.Item1, grip, net.Force, net.First - (net.Force * m.Item1.Middle), points, _hull)
                    {
                        Corner = FormattableString.Invariant($"{level:0.0} kPa, stiffest cord, {m.Item2}"),
                    }
                ),
            ];
        }
        return held;
    }

    private HeldPart[][] Repeated(HeldPart[] held) =>
        held.Length == 0 ? [] : [.. Enumerable.Repeat(held, _seals.Count)];

    private StepFactor[] Stopping(StepFactor[] alone) =>
        [
            .. alone.Select(
                (f, i) =>
                    f with
                    {
                        Factor = Math.Min(LimitState.Most, f.Factor / Loads.Works[Loads.Steps[i].Work].StopShare),
                    }
            ),
        ];

    /// <summary>
    /// Together is never below either: a part that slides on the block has sheared the cord far enough for it to grip as it
    /// does when the magnets hold alone.
    /// </summary>
    private static StepFactor[] Larger(StepFactor[] both, StepFactor[] vacuum, StepFactor[] alone)
    {
        for (int i = 0; i < both.Length; i++)
        {
            StepFactor either = vacuum[i].Factor >= alone[i].Factor ? vacuum[i] : alone[i];
            both[i] = both[i].Factor >= either.Factor ? both[i] : either with { Way = 0 };
        }
        return both;
    }

    private static HoldAnswer AtLeast(HoldAnswer both, HoldAnswer vacuum, HoldAnswer alone)
    {
        HoldAnswer either = vacuum.Stays >= alone.Stays ? vacuum : alone;
        return both with
        {
            Nominal = Math.Max(both.Nominal, Math.Max(vacuum.Nominal, alone.Nominal)),
            Stays = Math.Max(both.Factor, either.Stays),
            StaysMode = both.Factor >= either.Stays ? both.Mode : either.StaysMode,
        };
    }

    /// <summary>The worst step of a sweep, what stops make of it and its nominal value beside it.</summary>
    private HoldAnswer Answer(
        StepFactor[] put,
        HeldPart[][] held,
        Stay stay,
        double nominal,
        Func<HeldPart[], CutLoad, StepFactor, string> governs
    )
    {
        int at = Worst(put);
        StepFactor f = put[at];
        HeldPart[] parts = held.Length == 0 ? [] : held[Loads.Works[Loads.Steps[at].Work].Seal];
        return new HoldAnswer(f.Factor, f.Mode, Loads.Steps[at].At, governs(parts, Loads.Load(at, f.Angle), f))
        {
            Nominal = Math.Max(f.Factor, nominal),
            Stays = Math.Max(f.Factor, stay.Factor),
            StaysMode = stay.Factor > f.Factor ? stay.Mode : f.Mode,
            Corner = f.Way < parts.Length ? Ends(parts[f.Way]) : "",
        };
    }

    private static int Worst(StepFactor[] put)
    {
        int at = 0;
        for (int i = 1; i < put.Length; i++)
        {
            at = put[i].Factor < put[at].Factor ? i : at;
        }
        return at;
    }

    private string Ends(HeldPart way) =>
        FormattableString.Invariant(
            $"{way.Corner}; friction {Friction.ShellOnBlock(_job).Least:0.00}, {_job.ShellMaterial.SpecificForceMax:0} N/mm2, {_job.Shell.ThicknessMax:0.00} mm"
        );

    /// <summary>The least factor with every range at its nominal, at every few steps and where the worst case is worst.</summary>
    private double Nominal(HeldPart[][] held, StepFactor[] put, bool stopping)
    {
        const int Every = 8;
        int worst = Worst(put);
        TrimLoads few = Loads.Take(
            Enumerable.Range(0, Loads.Steps.Length).Where(i => i % Every == 0).Append(worst).Order()
        );
        StepFactor[] factors = PathSweep.Full(few, held)[0];
        double least = double.MaxValue;
        for (int i = 0; i < factors.Length; i++)
        {
            double share = stopping ? few.Works[few.Steps[i].Work].StopShare : 1;
            least = Math.Min(least, factors[i].Factor / share);
        }
        return Math.Min(LimitState.Most, least / Loads.NominalShare);
    }

    private ImmutableArray<HoldSample> Samples(
        StepFactor[] vacuumed,
        StepFactor[] alone,
        StepFactor[] stopping,
        StepFactor[] both
    ) =>
        [
            .. Loads.Steps.Select(
                (s, i) =>
                    new HoldSample(
                        Loads.Works[s.Work].Name,
                        s.Along,
                        s.At,
                        Loads.Works[s.Work].Force.Shear,
                        vacuumed[i].Factor,
                        stopping[i].Factor,
                        alone[i].Factor,
                        both[i].Factor
                    )
            ),
        ];

    /// <summary>Outer contours that lie in no other: the rim that an edge-loaded shell presses on.</summary>
    private static Contour[] Outermost(ImmutableArray<Region> contact)
    {
        Contour[] outers = [.. contact.Select(r => r.Outer)];
        return [.. outers.Where(c => !outers.Any(o => o != c && Inside.Contains(o, c.Segments[0].Start)))];
    }
}

/// <summary>
/// The least factors: staying put on what holds the shell while it is cut (vacuum alone, or magnets alone where the job says so), and
/// staying on magnets alone while the machine stops.
/// </summary>
internal readonly record struct LimitedFactors(double Put, double Stopping)
{
    /// <summary>The least share of the house limits.</summary>
    public double Share(HouseLimits limits) =>
        Math.Min(Put / Math.Max(1e-9, limits.VacuumFactor), Stopping / Math.Max(1e-9, limits.MagnetFactor));
}
