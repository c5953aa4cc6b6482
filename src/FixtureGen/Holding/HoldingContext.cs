using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Holding;

/// <summary>
/// All of a design's holding that does not depend on where the magnets are, worked out once: levels, seal states, contact
/// pressures, loads along the trim; the vacuum's own factors with the first answer. <see cref="Evaluate"/> then answers for
/// any magnets quickly.
/// </summary>
public sealed class HoldingContext
{
    private const int AreaPieces = 100;
    private const double PointSpread = 0.25;
    private const double ImplantFieldT = 0.0005;

    private readonly Job job;
    private readonly SealStates seals;
    private readonly PressureMeasure uniform;
    private readonly PressureMeasure edge;
    private readonly Point2[] hull;
    private StepFactor[]? vacuum;

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
        this.job = job;
        Level = VacuumLevel.Of(job.Vacuum);
        Pair = like?.Pair ?? new PairOnBlock(job);
        seals = like?.seals.Fed(design) ?? new SealStates(design, job, new Kernel(tolerances));
        Loads = like?.Loads ?? TrimLoadsOf.Design(design, job, seals, Pair.Slip);
        Contour[] rims = Outermost(design.Contact);
        uniform = new PressureMeasure(ContactQuadrature.OverArea(design.Contact, AreaPieces));
        edge = new PressureMeasure(ContactQuadrature.AlongLines(rims, rims.Sum(Measure.Length) / 60));
        hull = ConvexHull.Of(rims);
        Lost = new SealLost(design, job, Pair, uniform, hull);
        Vacuum = HeldBy([], []);
    }

    /// <summary>The vacuum levels of the job's place and pump, kPa gauge.</summary>
    public VacuumLevel Level { get; }

    /// <summary>The job's magnet pair over the block: gap, pull, spacing.</summary>
    public PairOnBlock Pair { get; }

    internal TrimLoads Loads { get; }

    internal SealLost Lost { get; }

    internal SealStates Seals => seals;

    /// <summary>The part under vacuum alone, by seal state: uniform and edge-loaded pressure.</summary>
    internal HeldPart[][] Vacuum { get; }

    /// <summary>Vacuum force on all zones together at the level used, nothing cut yet and the cords not taken off, N.</summary>
    public double GrossForceN => seals.Gross(SealStates.Whole, Level.Used).Force;

    /// <summary>The most that all cords together push back with the shell down, N.</summary>
    public double CordForceN => seals.Cords.Force;

    /// <summary>The four answers, the samples along the trim and the forces, for these magnets; none is a set too.</summary>
    public HoldingResult Evaluate(ImmutableArray<MagnetPlace> magnets)
    {
        Point2[] at = [.. magnets.Select(m => m.At)];
        double[] shares = Pair.SharesN(at);
        HeldPart[][] lost = Lost.Hold(at) is { } held ? Repeated(held) : [];
        HeldPart[][] together = HeldBy(at, shares);
        StepFactor[][] swept = vacuum is null
            ? PathSweep.Full(Loads, lost, together, Vacuum)
            : PathSweep.Full(Loads, lost, together);
        vacuum ??= swept[2];
        StepFactor[] alone = swept[0];
        StepFactor[] both = Larger(swept[1], vacuum, alone);
        StepFactor[] stopping = Stopping(alone);
        double pull = shares.Sum();
        double lift = at.Length == 0 ? 0 : Lost.LiftOf(pull);
        string Vacuumed(HeldPart[] parts, CutLoad load, StepFactor f) =>
            Governing.WithVacuum(parts, load, f, GrossForceN, CordForceN);
        string Magnetic(HeldPart[] parts, CutLoad load, StepFactor f) =>
            Governing.WithMagnets(parts, load, f, pull, lift);
        return new HoldingResult(
            Level.Atmosphere,
            Level.Used,
            Level.Settled,
            GrossForceN,
            CordForceN,
            pull,
            Loads.Works.Max(w => w.Force.Shear),
            lift,
            at.Length == 0 ? 0 : MagnetField.DistanceTo(Disc.Strongest(job.Magnet), ImplantFieldT, 2 * at.Length),
            Worst(vacuum, Vacuum, Vacuumed),
            Worst(alone, lost, Magnetic),
            Worst(stopping, lost, Magnetic),
            Worst(both, together, Vacuumed),
            Samples(vacuum, alone, stopping, both),
            [.. shares]
        );
    }

    /// <summary>The two factors that have house limits, as <see cref="Evaluate"/> answers them, alone.</summary>
    internal LimitedFactors Limited(ImmutableArray<MagnetPlace> magnets)
    {
        vacuum ??= PathSweep.Full(Loads, Vacuum)[0];
        return new LimitedFactors(vacuum.Min(f => f.Factor), StoppingFactor([.. magnets.Select(m => m.At)]));
    }

    /// <summary>
    /// The least factor with the seal lost and the machine stopping, for magnets at places (plate frame, mm): what
    /// <see cref="Evaluate"/> answers, alone; 0 where nothing pulls.
    /// </summary>
    public double StoppingFactor(IReadOnlyList<Point2> at) =>
        Lost.Hold(at) is { } lost ? Stopping(PathSweep.Full(Loads, Repeated(lost))[0]).Min(f => f.Factor) : 0;

    private HeldPart[][] HeldBy(Point2[] at, double[] shares)
    {
        double friction = Friction.ShellOnBlock(job);
        PressPoint[] points = [.. at.Select((p, i) => new PressPoint(p, shares[i], shares[i] * friction, PointSpread))];
        var held = new HeldPart[seals.Count][];
        for (int state = 0; state < held.Length; state++)
        {
            Pressing net = seals.Gross(state, Level.Used) + (seals.Cords * -1);
            held[state] =
            [
                .. new[] { uniform, edge }.Select(measure => new HeldPart(
                    measure,
                    friction,
                    net.Force,
                    net.First - (net.Force * measure.Middle),
                    points,
                    hull
                )),
            ];
        }
        return held;
    }

    private HeldPart[][] Repeated(HeldPart held) => [.. Enumerable.Repeat<HeldPart[]>([held], seals.Count)];

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
            both[i] = both[i].Factor >= either.Factor ? both[i] : either;
        }
        return both;
    }

    private HoldAnswer Worst(
        StepFactor[] factors,
        HeldPart[][] held,
        Func<HeldPart[], CutLoad, StepFactor, string> governs
    )
    {
        int at = 0;
        for (int i = 1; i < factors.Length; i++)
        {
            at = factors[i].Factor < factors[at].Factor ? i : at;
        }
        StepFactor f = factors[at];
        HeldPart[] parts = held.Length == 0 ? [] : held[Loads.Works[Loads.Steps[at].Work].Seal];
        return new HoldAnswer(f.Factor, f.Mode, Loads.Steps[at].At, governs(parts, Loads.Load(at, f.Angle), f));
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

/// <summary>The least factors on vacuum alone and on magnets alone while the machine stops.</summary>
internal readonly record struct LimitedFactors(double Vacuum, double Stopping)
{
    /// <summary>The least share of the house limits.</summary>
    public double Share(HouseLimits limits) =>
        Math.Min(Vacuum / Math.Max(1e-9, limits.VacuumFactor), Stopping / Math.Max(1e-9, limits.MagnetFactor));
}
