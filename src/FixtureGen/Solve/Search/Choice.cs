using System.Collections.Immutable;
using FixtureGen.Cutting;
using FixtureGen.Design;
using FixtureGen.Design.Forms;
using FixtureGen.Design.Trim;
using FixtureGen.Geometry;
using FixtureGen.Holding;
using FixtureGen.Holding.Sliding;
using FixtureGen.Model;
using FixtureGen.Toolpaths;

namespace FixtureGen.Solve.Search;

/// <summary>
/// One blank, cord and trim cutter for a job. Its bound, minutes over the batch that nothing made with them beats, is cheap at first and
/// gets sharper as more is worked out: first from the most that any seal inside the outline could hold, then from the seal as it
/// runs. All cutting forces of the trim are in proportion to the chip's cross-section, so one answer of the hold serves every speed.
/// </summary>
/// <param name="order">Decides between equals: the first in the shop's order.</param>
/// <param name="trims">The trim of this cutter in the drawing's frame; empty where it cannot trim the part.</param>
/// <param name="cord">What is known of all choices with this cord.</param>
/// <param name="blocks">What is known of the time of blocks.</param>
/// <param name="blanks">What is known not to fit.</param>
internal sealed class Choice(
    int order,
    Job job,
    Part part,
    ImmutableArray<TrimCut> trims,
    CordBound cord,
    BlockBound blocks,
    BlanksTooSmall blanks,
    Tolerances tolerances
)
{
    /// <summary>The limits are met with so much to spare, that the judge's own answer, which is found another way, meets them too.</summary>
    public const double Spare = 1.01;

    /// <summary>
    /// Where times are alike within this share an upcut goes before a straight cutter and that before a downcut, which packs its chips
    /// into the relief.
    /// </summary>
    public const double Alike = 0.01;

    /// <summary>A finished design may fall short of that by half of it.</summary>
    public const double Near = 1.005;

    /// <summary>Refusals that a narrower relief may mend.</summary>
    private static readonly string[] WantsRoom =
    [
        "part-does-not-fit",
        "part-over-edge",
        "bolt-under-part",
        "no-break-out",
        "locator-in-the-way",
        "locator-no-room",
    ];

    private ImmutableArray<TrimSpeed>? _ladder;
    private double _trim;

    public int Order => order;

    /// <summary>With the locator pins that were proposed, once it is laid.</summary>
    public Job Job => job;

    /// <summary>Minutes over the batch; MaxValue where nothing meets the limits.</summary>
    public double Bound { get; private set; } = double.MaxValue;

    /// <summary>Most of a limit's share that it was seen to reach, at the lightest cut.</summary>
    public double Share { get; private set; }

    /// <summary>Why nothing can be made of it; empty while it can.</summary>
    public ImmutableArray<Finding> Refused { get; private set; } = [];

    public Draft? Draft { get; private set; }

    public HoldingContext? Context { get; private set; }

    /// <summary>The fastest that the vacuum alone allows.</summary>
    public TrimSpeed Fastest { get; private set; }

    /// <summary>The largest chip, mm2, that the vacuum holds with its limit.</summary>
    public double MostChip { get; private set; }

    public ImmutableArray<TrimSpeed> Ladder => _ladder ??= [.. TrimSpeeds.Ladder(job)];

    /// <summary>How far this one is worked out.</summary>
    public ChoiceStage Stage { get; private set; }

    /// <summary>The bound before anything is drawn: by what the cord can hold anywhere in the outline, or held where it was laid for another choice.</summary>
    public void Guess()
    {
        if (trims.IsEmpty)
        {
            return;
        }
        if (ByMagnets)
        {
            MostChip = double.MaxValue;
            Settle(LeastMinutes);
            return;
        }
        double against = Against;
        double most = cord.MostPullN * Friction.ShellOnBlock(job).Least;
        MostChip = against <= 0 ? double.MaxValue : most / (against * Math.Max(1e-9, job.Limits.VacuumFactor));
        Settle(LeastMinutes);
    }

    /// <summary>Nothing but its magnets bounds how fast it may trim: those come last.</summary>
    private bool ByMagnets => job.HoldBy == HoldBy.Magnets;

    /// <summary>What a chip of 1 mm2 pushes along the shell, and the friction that its lift takes away, N.</summary>
    private double Against
    {
        get
        {
            CutForce unit = CuttingForce.Peak(
                job.TrimTool,
                job.ShellMaterial,
                1,
                job.TrimTool.Diameter,
                1,
                job.DullFactor
            );
            return unit.Shear + (Friction.ShellOnBlock(job).Least * unit.Axial);
        }
    }

    /// <summary>Places the part, lays the seal and asks the vacuum; false where that is refused.</summary>
    public bool Lay()
    {
        if (Ladder.IsEmpty)
        {
            Stage = ChoiceStage.Laid;
            return Refuse([]);
        }
        Stage = ChoiceStage.Laid;
        if (Drawn() is not { Begun: { Ok: true, Value: { } begun } } draft)
        {
            return false;
        }
        Draft = draft;
        Stage<HoldingContext> context = HoldingAnalysis.Context(begun, job, tolerances);
        if (context.Value is not { } held || context.Findings.Any(f => f.Severity == Severity.Error))
        {
            cord.Learn(0, seats: context.Findings.All(f => f.Code != "seal-never-seats"));
            return Refuse(context.Findings);
        }
        Context = held;
        if (ByMagnets)
        {
            Share = 1;
            Settle(s => TrimMinutes(begun, s.In(job)));
            return true;
        }
        (double cuts, double marks) = held.VacuumByWork();
        TrimSpeed own = Own;
        MostChip =
            marks < job.Limits.VacuumFactor
                ? 0
                : cuts * own.Chip(job, job.TrimTool) / Math.Max(1e-9, job.Limits.VacuumFactor * Spare);
        Share = Math.Min(marks, cuts * own.Chip(job, job.TrimTool) / Ladder.Min(s => s.Chip(job, job.TrimTool)));
        Share /= Math.Max(1e-9, job.Limits.VacuumFactor);
        cord.Learn(
            MostChip * Against * job.Limits.VacuumFactor / Math.Max(1e-9, Friction.ShellOnBlock(job).Least),
            seats: true
        );
        Settle(s => TrimMinutes(begun, s.In(job)));
        return true;
    }

    /// <summary>Placed and its seal laid, where it is not known to fit no such blank, with the first of the proposed pins that fit where the job leaves them open; null with the reasons where it cannot be.</summary>
    private Draft? Drawn()
    {
        if (blanks.Refusal(job) is { IsEmpty: false } known)
        {
            Refuse(known);
            return null;
        }
        Draft? drawn = DrawnAsOpen();
        if (drawn is null && Refused.Any(f => WantsRoom.Contains(f.Code)))
        {
            Job wide = job;
            job = job with { NarrowRelief = true };
            drawn = DrawnAsOpen();
            job = drawn is null ? wide : job;
        }
        Refused = drawn is null ? Refused : [];
        blanks.Learn(job, Refused);
        return drawn;
    }

    private Draft? DrawnAsOpen() => job.Open.HasFlag(OpenKeys.Pins) ? DrawnWithPins() : Drawn(job);

    private Draft? DrawnWithPins()
    {
        foreach (ImmutableArray<Point2> pins in LocatorProposal.Pairs(part, trims, job, new Kernel(tolerances)))
        {
            Job with = job with { LocatorPins = pins };
            if (Placing.Place(part, with, tolerances).Ok && Drawn(with) is { Begun.Ok: true } draft)
            {
                job = with;
                return draft;
            }
        }
        Draft? byHand = Drawn(job with { Locator = LocatorKind.Hand });
        if (byHand is not null)
        {
            Refuse([LocatorFindings.NoRoomForPins()]);
        }
        return null;
    }

    private Draft? Drawn(Job with)
    {
        Stage<Placement> placed = Placing.Place(part, with, tolerances);
        if (!placed.Ok)
        {
            Refuse(placed.Findings);
            return null;
        }
        Draft draft = new(part, placed.Value!, with, tolerances);
        if (!draft.Begun.Ok)
        {
            Refuse(draft.Begun.Findings);
            return null;
        }
        return draft;
    }

    /// <summary>How the job as read would run: as a speed.</summary>
    private TrimSpeed Own
    {
        get
        {
            CutData data = TrimFeeds.For(job, job.TrimTool);
            return new(Passes.Count(job.Shell.ThicknessMax, data.StepDown), data.Rpm, data.Feed);
        }
    }

    public bool Refuse(ImmutableArray<Finding> why)
    {
        Refused = why.IsEmpty ? [] : why;
        Bound = double.MaxValue;
        Draft = null;
        return false;
    }

    /// <summary>Minutes of a design's trim program.</summary>
    public double TrimMinutes(FixtureDesign design, Job at) =>
        TrimProgram.Plan(design with { TrimCuts = design.TrimCuts }, Numbered(at), new Kernel(tolerances)).Value
            is { } plan
            ? PlanMinutes.Measure(plan, job.Plate.Machine)
            : double.MaxValue;

    /// <summary>A number to plan with where the library gives it later.</summary>
    public static Job Numbered(Job job) =>
        job.ProgramNumber is null ? job with { ProgramNumber = (int)job.Control.ProgramNumberMin } : job;

    /// <summary>The best speeds that hold: of each number of passes the fastest, by <paramref name="minutes"/> of one trim.</summary>
    public TrimSpeed? BestSpeed(Func<TrimSpeed, bool> holds, Func<TrimSpeed, double> minutes)
    {
        TrimSpeed? best = null;
        double least = double.MaxValue;
        foreach (IGrouping<int, TrimSpeed> passes in Ladder.GroupBy(s => s.Passes))
        {
            TrimSpeed? first = passes.Cast<TrimSpeed?>().FirstOrDefault(s => holds(s!.Value));
            if (first is not { } speed || LeastMinutes(speed) >= least)
            {
                continue;
            }
            double needed = minutes(speed);
            (best, least) = needed < least ? (speed, needed) : (best, least);
        }
        return best;
    }

    /// <summary>Plans the block as far as it is drawn; false where no tool cuts it.</summary>
    public bool PlanBlock()
    {
        Stage = ChoiceStage.Planned;
        Stage<double> minutes = blocks.Plan(job, Draft!.Begun.Value!, tolerances);
        return minutes.Ok ? Raise(Bound) : Refuse(minutes.Findings);
    }

    /// <summary>Takes note of what its finished block took, for the bounds of the others.</summary>
    public void Learn(double blockMinutes) => blocks.Learn(job, blockMinutes);

    /// <summary>The bound again, by what is known of blocks now.</summary>
    public void Sharpen()
    {
        if (Bound < double.MaxValue)
        {
            Raise(Bound);
        }
    }

    /// <summary>Raises the bound to what its magnets leave of it at the most; MaxValue where they cannot hold.</summary>
    /// <param name="batch">Minutes over the batch but for the block.</param>
    public void Expect(double batch)
    {
        Stage = ChoiceStage.Estimated;
        _trim = Math.Max(_trim, batch);
        Raise(batch);
    }

    /// <summary>What of so many minutes, as choices are ranked by, is left for all but the block.</summary>
    public double Besides(double ranked) =>
        ranked == double.MaxValue ? ranked : (ranked / Ranked(job, 1)) - blocks.Least(job);

    /// <summary>Raises the bound to what the magnets leave of it; MaxValue where they do not hold.</summary>
    /// <param name="batch">Minutes over the batch but for the block.</param>
    public void Choose(double batch)
    {
        Stage = ChoiceStage.Magnets;
        _trim = batch;
        Raise(batch);
    }

    /// <summary>Minutes as choices are ranked by, with the handicap of what packs its chips.</summary>
    public static double Ranked(Job job, double batch) =>
        batch
        * (
            1
            + job.TrimTool.Helix switch
            {
                HelixDirection.Up => 0,
                HelixDirection.Straight => Alike / 2,
                HelixDirection.Down => Alike,
            }
        );

    private bool Raise(double least)
    {
        Bound = least == double.MaxValue ? least : Ranked(job, _trim + blocks.Least(job));
        return true;
    }

    private void Settle(Func<TrimSpeed, double> minutes)
    {
        Bound = double.MaxValue;
        if (BestSpeed(s => s.Chip(job, job.TrimTool) <= MostChip, minutes) is { } best)
        {
            Fastest = best;
            _trim = job.Quantity * minutes(best);
            Raise(_trim);
        }
    }

    /// <summary>Every edge once round at each pass: no trim is quicker.</summary>
    private double LeastMinutes(TrimSpeed speed) =>
        speed.Passes * trims.Sum(c => Measure.Length(c.Path)) / speed.FeedMmPerMin;
}

/// <summary>How far a choice is worked out.</summary>
internal enum ChoiceStage
{
    /// <summary>Only bounded.</summary>
    Guessed,

    /// <summary>Placed, its seal laid, the vacuum asked.</summary>
    Laid,

    /// <summary>Its block planned as far as it is drawn.</summary>
    Planned,

    /// <summary>Bounded by what its magnets could hold.</summary>
    Estimated,

    /// <summary>Its magnets chosen.</summary>
    Magnets,
}
