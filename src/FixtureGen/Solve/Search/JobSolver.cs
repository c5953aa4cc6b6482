using System.Collections.Immutable;
using FixtureGen.Design.Trim;
using FixtureGen.Geometry;
using FixtureGen.Holding;
using FixtureGen.Model;
using FixtureGen.Shop.Jobs;

namespace FixtureGen.Solve.Search;

/// <summary>What a job was solved to: the draft that goes on into the design, and what is to be said of the choice.</summary>
public sealed record Solved(Draft Draft, SolveReport Report);

/// <summary>
/// What a job leaves open is chosen so that the house limits are met in the worst case with the least minutes over the batch, then
/// the fewest magnets; what it states is honoured. Best first: of all blanks, cords and cutters the one whose bound is lowest is
/// worked out one step further, until one is drawn and planned that no other's bound beats. The answer depends on nothing but job,
/// drawing and shop files.
/// </summary>
public sealed class JobSolver
{
    /// <summary>Where nothing meets the limits, so many choices are drawn before the nearest is taken.</summary>
    private const int MostInVain = 8;

    /// <summary>What could take less by half a hundredth at the most is not worked out.</summary>
    private const double Worth = 0.995;

    private readonly Part _part;
    private readonly Job _job;
    private readonly Func<ShopNames, Stage<Job>> _read;
    private readonly Tolerances _tolerances;
    private readonly OpenKeys _opened;
    private readonly Func<Job, Job> _change;
    private readonly Finisher _finisher;
    private readonly List<Choice> _inVain = [];
    private readonly Dictionary<Choice, MagnetChoice> _magnets = [];
    private readonly Dictionary<Choice, ImmutableArray<MagnetOption>> _options = [];
    private readonly List<Solution> _solutions = [];

    /// <param name="opened">Keys that the job states and that are to be chosen all the same, to find out what they cost.</param>
    /// <param name="change">What else is changed in the job, to find out what would mend it.</param>
    private JobSolver(
        Part part,
        Job job,
        Func<ShopNames, Stage<Job>> read,
        Tolerances tolerances,
        OpenKeys opened,
        Func<Job, Job> change
    )
    {
        _part = part;
        _change = change;
        _job = change(Opened(job, opened));
        _read = read;
        _tolerances = tolerances;
        _opened = opened;
        _finisher = new Finisher(part, tolerances);
    }

    /// <summary>
    /// The job solved; failed, with what is short, where nothing can be drawn at all. Where something can but nothing meets the
    /// limits, the nearest: its hold is refused where it is judged.
    /// </summary>
    /// <param name="read">The job again under other names for the shop files that it leaves open.</param>
    /// <param name="costs">Whether to find out what each stated value costs, which takes time.</param>
    /// <exception cref="KernelException">A step could not be proven, and nothing else could be drawn.</exception>
    public static Stage<Solved> Solve(
        Part part,
        Job job,
        Func<ShopNames, Stage<Job>> read,
        Tolerances tolerances,
        bool costs
    )
    {
        JobSolver solver = new(part, job, read, tolerances, OpenKeys.None, static j => j);
        solver.Search(double.MaxValue, any: false);
        if (solver.Best is not { } best)
        {
            return solver.Nearest(costs);
        }
        ImmutableArray<StatedCost> stated = costs
            ? StatedCosts.Find(best, open => solver.Reopened(open, best.Batch))
            : [];
        Solution? next = solver
            ._solutions.Where(s => s != best)
            .Order(Comparer<Solution>.Create(Compare))
            .FirstOrDefault();
        return Stage.Answer(
            new Solved(
                best.Draft,
                new SolveReport
                {
                    Chosen = SolveWords.Option(best),
                    Next = next is null ? null : SolveWords.Option(next),
                    Stated = stated,
                    Meets = true,
                    Mend = "",
                }
            )
        );
    }

    private Solution? Best => _solutions.Order(Comparer<Solution>.Create(Compare)).FirstOrDefault();

    private static int Compare(Solution a, Solution b) =>
        (Math.Round(a.Ranked, 6), a.Magnets).CompareTo((Math.Round(b.Ranked, 6), b.Magnets));

    private Solution? Reopened(OpenKeys open, double below)
    {
        JobSolver solver = new(_part, _job, _read, _tolerances, open, static j => j);
        solver.Search(below, any: false);
        return solver.Best;
    }

    private Solution? Changed(OpenKeys open, Func<Job, Job> change)
    {
        JobSolver solver = new(_part, _job, _read, _tolerances, open, change);
        solver.Search(double.MaxValue, any: true);
        return solver.Best;
    }

    /// <summary>Looks for what takes less than <paramref name="below"/> minutes; for the first that meets the limits where any will do.</summary>
    private void Search(double below, bool any)
    {
        PriorityQueue<Choice, (double, double, int)> queue = new();
        foreach (Choice choice in Choices())
        {
            choice.Guess();
            queue.Enqueue(choice, Rank(choice));
        }
        while (queue.TryDequeue(out Choice? choice, out _))
        {
            double best = Math.Min(below, Best?.Ranked ?? double.MaxValue);
            if ((best < double.MaxValue && choice.Bound >= best * Worth) || (any && Best is not null))
            {
                return;
            }
            double before = choice.Bound;
            if (choice.Stage == ChoiceStage.Guessed)
            {
                choice.Guess();
            }
            else
            {
                choice.Sharpen();
            }
            if (choice.Bound > before)
            {
                queue.Enqueue(choice, Rank(choice));
                continue;
            }
            if (
                choice.Bound == double.MaxValue
                && (below < double.MaxValue || _inVain.Count(c => c.Draft is not null) >= MostInVain)
            )
            {
                return;
            }
            if (Step(choice, best))
            {
                queue.Enqueue(choice, Rank(choice));
            }
        }
    }

    private static (double, double, int) Rank(Choice choice) => (choice.Bound, -choice.MostChip, choice.Order);

    /// <summary>Works a choice out one step further; false where it is done with.</summary>
    /// <param name="best">What is to be beaten, minutes over the batch as choices are ranked by.</param>
    private bool Step(Choice choice, double best)
    {
        if (choice.Stage == ChoiceStage.Magnets && _finisher.Finish(choice, _options[choice][0]) is { } solution)
        {
            _solutions.Add(solution);
            choice.Learn(solution.Block);
            return false;
        }
        bool on = choice.Stage switch
        {
            ChoiceStage.Guessed => choice.Lay() && choice.Bound < double.MaxValue,
            ChoiceStage.Laid => choice.PlanBlock(),
            ChoiceStage.Planned => Estimate(choice),
            ChoiceStage.Estimated => Take(choice, _magnets[choice].Options(choice.Besides(best * Worth))),
            ChoiceStage.Magnets => choice.Draft is not null && Take(choice, _options[choice].RemoveAt(0)),
        };
        if (!on)
        {
            _inVain.Add(choice);
        }
        return on;
    }

    /// <summary>Bounds the choice by what its magnets could hold at the most; false where the limits are out of reach.</summary>
    private bool Estimate(Choice choice)
    {
        MagnetChoice magnets = new(choice, _tolerances);
        _magnets[choice] = magnets;
        choice.Expect(magnets.Least);
        return choice.Bound < double.MaxValue;
    }

    /// <summary>The choice goes on with its best magnets; false where none hold.</summary>
    private bool Take(Choice choice, ImmutableArray<MagnetOption> options)
    {
        _options[choice] = options;
        bool holds = options is [{ Speed.Passes: > 0 }, ..];
        choice.Choose(holds ? options[0].Batch : double.MaxValue);
        return holds;
    }

    private IEnumerable<Choice> Choices()
    {
        int order = 0;
        Dictionary<int, ImmutableArray<TrimCut>> trims = [];
        Dictionary<string, CordBound> cords = [];
        BlockBound blocks = new();
        BlanksTooSmall blanks = new();
        foreach (Job job in Read())
        {
            if (!cords.TryGetValue(job.Gasket.Name, out CordBound? cord))
            {
                cords[job.Gasket.Name] = cord = new CordBound(_part, job, _tolerances);
            }
            foreach (Tool tool in Cutters(job))
            {
                Job with = job with { TrimTool = tool };
                if (!trims.TryGetValue(tool.Number, out ImmutableArray<TrimCut> cuts))
                {
                    Stage<ImmutableArray<TrimCut>> planned = TrimPlanner.Plan(_part, with, new Kernel(_tolerances));
                    trims[tool.Number] = cuts = planned.Ok ? planned.Value : [];
                }
                yield return new Choice(order++, with, _part, cuts, cord, blocks, blanks, _tolerances);
            }
        }
    }

    /// <summary>The job with every blank and cord that it leaves open; its sources are all that was looked at.</summary>
    private IEnumerable<Job> Read()
    {
        string[] blanks = Names(OpenKeys.Blank, _job.Blank.Name, _job.OtherBlanks.Select(b => b.Name));
        string?[] cords =
            _job.HoldBy == HoldBy.Magnets
                ? new string?[] { null }
                : Names(OpenKeys.Gasket, _job.Gasket.Name, _job.OtherGaskets.Select(g => g.Name));
        List<Job> read = [];
        foreach (string blank in blanks)
        {
            foreach (string? cord in cords)
            {
                ShopNames names = new(blank, cord, null, null) { Overrule = _opened != OpenKeys.None };
                if (_read(names) is { Ok: true, Value: { } job })
                {
                    read.Add(_change(Opened(job, _opened)));
                }
            }
        }
        ImmutableArray<string> sources = [.. read.SelectMany(j => j.Sources).Distinct().Order(StringComparer.Ordinal)];
        return read.Select(j => j with { Sources = sources });
    }

    /// <summary>The job as if it did not state those keys.</summary>
    private static Job Opened(Job job, OpenKeys opened) =>
        job with
        {
            Open = job.Open | opened,
            TrimPasses = opened.HasFlag(OpenKeys.Passes) ? null : job.TrimPasses,
            TrimFeedMmPerMin = opened.HasFlag(OpenKeys.Feed) ? null : job.TrimFeedMmPerMin,
            TrimRpm = opened.HasFlag(OpenKeys.Rpm) ? null : job.TrimRpm,
        };

    private string[] Names(OpenKeys key, string own, IEnumerable<string> others) =>
        _job.Open.HasFlag(key) ? [.. others.Append(own).Order(StringComparer.Ordinal)] : [own];

    /// <summary>The single-flute end mills of the changer, which are kept for shells, the thinnest first; of alike ones upcut before straight before downcut.</summary>
    private static IEnumerable<Tool> Cutters(Job job) =>
        !job.Open.HasFlag(OpenKeys.TrimTool)
            ? [job.TrimTool]
            : job
                .Tools.Where(t => t is { Kind: ToolKind.EndMill, Flutes: 1 })
                .OrderBy(t => t.Diameter)
                .ThenBy(t =>
                    t.Helix == HelixDirection.Straight ? 1
                    : t.Helix == HelixDirection.Up ? 0
                    : 2
                )
                .ThenBy(t => t.Number);

    /// <summary>The choice that comes nearest to the limits, or why nothing can be drawn.</summary>
    private Stage<Solved> Nearest(bool mend)
    {
        Choice[] drawn = [.. _inVain.Where(c => c.Draft is not null)];
        Solution? nearest = drawn
            .OrderByDescending(c => Reached(c))
            .ThenBy(c => c.Order)
            .Select(c => _finisher.Nearest(c, _options.GetValueOrDefault(c, []).FirstOrDefault() ?? MostMagnets(c)))
            .FirstOrDefault(s => s is not null);
        if (nearest is null)
        {
            Choice? first =
                _inVain.FirstOrDefault(c => c.Refused.Any(f => f.Code != "part-does-not-fit"))
                ?? _inVain.FirstOrDefault();
            ImmutableArray<Finding> why = first?.Refused ?? [];
            return Stage.Failed<Solved>(
                OfTheSeal(why) && ByMagnets.Try(_job, Changed) is { Length: > 0 } instead
                    ? why.Add(SolveFindings.MagnetsWouldHold(instead))
                    : why
            );
        }
        string remedy = mend ? new Mend(_job, Changed).Find() : HoldingFindings.AskCheck;
        SolveReport report = new()
        {
            Chosen = SolveWords.Option(nearest),
            Next = null,
            Stated = [],
            Meets = false,
            Mend = remedy,
        };
        return Stage.Answer(
            new Solved(nearest.Draft, report),
            [SolveFindings.LimitsNotMet(nearest.Held, _job, remedy)]
        );
    }

    /// <summary>Refusals that say that no cord finds room, that its magnets find none beside it, or that the vacuum does not reach or close it.</summary>
    private static readonly ImmutableHashSet<string> SealCodes =
    [
        "no-sealed-zone",
        "bend-too-tight",
        "seal-never-seats",
        "no-port",
        "no-net-tool",
        "net-closed",
        "magnets-do-not-fit",
    ];

    private bool OfTheSeal(ImmutableArray<Finding> refused) =>
        _job.HoldBy == HoldBy.Vacuum && refused.Any(f => SealCodes.Contains(f.Code) && f.Severity == Severity.Error);

    private MagnetOption? MostMagnets(Choice choice) =>
        (_magnets.GetValueOrDefault(choice) ?? new MagnetChoice(choice, _tolerances))
            .Options(double.MaxValue)
            .FirstOrDefault();

    private double Reached(Choice choice)
    {
        if (_options.GetValueOrDefault(choice, []) is not [{ } option, ..])
        {
            return _magnets.GetValueOrDefault(choice) is { } magnets ? 1 + magnets.MostCap : Math.Min(1, choice.Share);
        }
        return 1 + option.Cap;
    }
}
