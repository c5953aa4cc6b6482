using System.Collections.Immutable;
using FixtureGen.Cutting;
using FixtureGen.Design;
using FixtureGen.Geometry;
using FixtureGen.Holding;
using FixtureGen.Holding.Seal;
using FixtureGen.Holding.Sliding;
using FixtureGen.Model;
using FixtureGen.Toolpaths;
using FixtureGen.Toolpaths.Moves;

namespace FixtureGen.Solve.Search;

/// <summary>
/// One blank, cord and trim cutter for a job. Its bound, minutes over the batch that nothing made with them beats, is cheap at first and
/// gets sharper as more is worked out: first from the most that any seal inside the outline could hold, then from the seal as it
/// runs. All cutting forces of the trim are in proportion to the chip's cross-section, so one answer of the hold serves every speed.
/// </summary>
/// <param name="order">Decides between equals: the first in the shop's order.</param>
/// <param name="trims">The trim of this cutter in the drawing's frame; empty where it cannot trim the part.</param>
internal sealed class Choice(int order, Job job, Part part, ImmutableArray<TrimCut> trims, Tolerances tolerances)
{
    /// <summary>The limits are met with so much to spare, that the judge's own answer, which is found another way, meets them too.</summary>
    public const double Spare = 1.01;

    /// <summary>A finished design may fall short of that by half of it.</summary>
    public const double Near = 1.005;

    private ImmutableArray<TrimSpeed>? _ladder;

    public int Order => order;

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

    /// <summary>The bound before anything is drawn: the whole of the outline, less a cord's width, held by the vacuum.</summary>
    public void Guess()
    {
        if (trims.IsEmpty)
        {
            return;
        }
        double inside = job.Rules.Land + job.Gasket.GrooveWidth;
        ImmutableArray<Region> most = new Kernel(tolerances).Offset([Region.From(Contours.Ccw(part.Outer))], -inside);
        double pull = VacuumLevel.From(job.Vacuum).Least * Measure.Area(most) / 1000;
        double grip = Friction.ShellOnBlock(job).Least;
        CutForce unit = CuttingForce.Peak(
            job.TrimTool,
            job.ShellMaterial,
            1,
            job.TrimTool.Diameter,
            1,
            job.DullFactor
        );
        double against = unit.Shear + (grip * unit.Axial);
        MostChip = against <= 0 ? double.MaxValue : grip * pull / (against * Math.Max(1e-9, job.Limits.VacuumFactor));
        Settle(s => LeastMinutes(s));
    }

    /// <summary>Places the part, lays the seal and asks the vacuum; false where that is refused.</summary>
    public bool Lay()
    {
        Stage<Placement> placed = Placing.Place(part, job, tolerances);
        if (!placed.Ok)
        {
            return Refuse(placed.Findings);
        }
        Draft = new Draft(part, placed.Value!, job, tolerances);
        if (Draft.Begun is not { Ok: true, Value: { } begun })
        {
            return Refuse(Draft.Begun.Findings);
        }
        Stage<HoldingContext> context = HoldingAnalysis.Context(begun, job, tolerances);
        if (context.Value is not { } held || context.Findings.Any(f => f.Severity == Severity.Error))
        {
            return Refuse(context.Findings);
        }
        Context = held;
        (double cuts, double marks) = held.VacuumByWork();
        TrimSpeed own = Own;
        MostChip = marks < job.Limits.VacuumFactor
            ? 0
            : cuts * own.Chip(job, job.TrimTool) / Math.Max(1e-9, job.Limits.VacuumFactor * Spare);
        Share = Math.Min(marks, cuts * own.Chip(job, job.TrimTool) / Ladder.Min(s => s.Chip(job, job.TrimTool)));
        Share /= Math.Max(1e-9, job.Limits.VacuumFactor);
        Settle(s => TrimMinutes(begun, s.In(job)));
        return true;
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
        TrimProgram.Plan(design with { TrimCuts = design.TrimCuts }, Numbered(at), new Kernel(tolerances)).Value is { } plan
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

    /// <summary>Raises the bound to what the magnets leave of it; MaxValue where they do not hold.</summary>
    public void AtLeast(double batch) =>
        Bound = batch == double.MaxValue ? batch : Math.Max(Bound, batch + LeastSkim());

    private void Settle(Func<TrimSpeed, double> minutes)
    {
        Bound = double.MaxValue;
        if (BestSpeed(s => s.Chip(job, job.TrimTool) <= MostChip, minutes) is { } best)
        {
            Fastest = best;
            Bound = (job.Quantity * minutes(best)) + LeastSkim();
        }
    }

    /// <summary>Every edge once round at each pass: no trim is quicker.</summary>
    private double LeastMinutes(TrimSpeed speed) =>
        speed.Passes * trims.Sum(c => Measure.Length(c.Path)) / speed.FeedMmPerMin;

    /// <summary>The face skimmed by the quickest mill: no block is quicker.</summary>
    private double LeastSkim()
    {
        double area = job.Blank.Width * job.Blank.Height;
        return job
            .Tools.Where(t => t.Kind == ToolKind.EndMill)
            .Select(t =>
            {
                double ae = Skimming.Width * t.Diameter;
                return area / ae / Feeds.For(t, job.BlockMaterial, job.Plate.Machine, ae, job.Rules.LeastSkim).Feed;
            })
            .DefaultIfEmpty(0)
            .Min();
    }
}
