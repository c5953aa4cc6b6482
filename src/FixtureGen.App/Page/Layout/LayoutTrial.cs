using System.Collections.Immutable;
using System.Globalization;
using FixtureGen.App.Files;
using FixtureGen.App.Page.Serving;
using FixtureGen.Design;
using FixtureGen.Geometry;
using FixtureGen.Holding;
using FixtureGen.Holding.Magnets;
using FixtureGen.Model;
using FixtureGen.Output.Reports;
using FixtureGen.Shop.Jobs;
using FixtureGen.Shop.Reading;
using FixtureGen.Solve;
using FixtureGen.Solve.Search;

namespace FixtureGen.App.Page.Layout;

/// <summary>Tries layouts of one job: the same stages as make, with the magnets put where the page says.</summary>
internal sealed class LayoutTrial
{
    private readonly JobSource _source;
    private readonly ShopFiles _shop;
    private readonly Job _original;
    private readonly FixtureDesign _first;
    private readonly FindingLine[] _trouble;
    private readonly LayoutDrafter _drafter;

    private LayoutTrial(JobSource source, ShopFiles shop, Start from, FixtureDesign first, FindingLine[] trouble)
    {
        _source = source;
        _shop = shop;
        _original = from.Placed.Job;
        _first = first;
        _trouble = trouble;
        _drafter = new LayoutDrafter(from.Request, from.Placed);
    }

    /// <summary>What a layout begins from. Trouble is why the job's own magnets cannot be where it states them; empty where they can.</summary>
    private sealed record Start(Request Request, Placed Placed, ImmutableArray<Finding> Trouble);

    /// <summary>
    /// The job as it stands, with its own magnets chosen. Where one that it states cannot be where it is, all of them stand where the
    /// job and the drawing state them, and the state has the findings: nobody's magnets are left out.
    /// </summary>
    public static Stage<LayoutTrial> Open(JobSource source, ShopFiles shop)
    {
        Stage<Start> start = Place(source.RequestWith(shop, static _ => { }));
        if (start.Value is not { } from)
        {
            return Stage.Failed<LayoutTrial>(start.Findings);
        }
        (Job job, Part part, Placement placement) = from.Placed;
        Stage<FixtureDesign> begun = Designer.Begin(part, placement, job, Tolerances.House);
        if (!begun.Ok)
        {
            return Stage.Failed<LayoutTrial>([.. start.Findings, .. begun.Findings]);
        }
        Stage<ImmutableArray<MagnetPlace>> magnets = MagnetPlacement.Choose(begun.Value!, job, Tolerances.House);
        FixtureDesign with = begun.Value! with { Magnets = magnets.Ok ? magnets.Value : Stated(begun.Value!, job) };
        Stage<FixtureDesign> finished = Designer.Finish(begun.Value!, with.Magnets, job, Tolerances.House);
        FindingLine[] trouble = PageAnswer.Lines(
            from.Trouble.Concat(magnets.Findings)
                .Concat(finished.Findings)
                .Where(f => f.Severity == Severity.Error)
                .DistinctBy(f => f.Message)
        );
        return Stage.Answer(new LayoutTrial(source, shop, from, finished.Ok ? finished.Value! : with, trouble));
    }

    /// <summary>The job placed; where only its magnets are in the way, placed without them and with them put back.</summary>
    private static Stage<Start> Place(Request request)
    {
        Stage<Placed> placed = Pipeline.Place(request);
        if (placed.Value is { } all)
        {
            return Stage.Answer(new Start(request, all, []), placed.Findings);
        }
        Finding[] errors = [.. placed.Findings.Where(f => f.Severity == Severity.Error)];
        bool magnetsAlone = errors.All(f => f.Code is "magnet-locked-blocked" or "magnet-wish-blocked");
        Job? stated = magnetsAlone ? JobReader.Read(request.JobText, request.JobFile, request.Shop).Value : null;
        Stage<string> bare = JobEdit.SetMagnets(request.JobText, request.JobFile, []);
        if (stated is null || bare.Value is not { } text)
        {
            return Stage.Failed<Start>(placed.Findings);
        }
        Request without = request with { JobText = text };
        Stage<Placed> rest = Pipeline.Place(without);
        return rest.Value is { } found
            ? Stage.Answer(
                new Start(without, found with { Job = found.Job with { Magnets = stated.Magnets } }, [.. errors]),
                rest.Findings
            )
            : Stage.Failed<Start>([.. placed.Findings, .. rest.Findings]);
    }

    private static ImmutableArray<MagnetPlace> Stated(FixtureDesign begun, Job job) =>
        [
            .. job.Magnets.Select(w => new MagnetPlace(Transform.Apply(begun.Placement.Pose, w.At), w.Locked, false)),
            .. begun.Part.MagnetWishes.Select(w => new MagnetPlace(w, false, true)),
        ];

    /// <summary>What the page needs once.</summary>
    public LayoutState State(string jobFile, string hash)
    {
        Box2 b = _first.Placement.BlankBox;
        ImmutableArray<PlanShape> shapes = PlanShapes.Draw(_first, _original);
        return new()
        {
            Job = _original.Name,
            Title = _original.Title,
            Unit = _original.DisplayUnit == LengthUnit.Inch ? "in" : "mm",
            Box = [b.MinX, b.MinY, b.MaxX, b.MaxY],
            Magnet = LayoutFacts.Sizes(_original),
            Placed = LayoutFacts.Placed(_first),
            PlacementStated = _original.Placement is not null,
            Middle = LayoutFacts.Middle(_first),
            Magnets = LayoutFacts.Magnets(_first.Magnets),
            Ports = [.. OwnPorts().Select(p => new PagePort { X = p.X, Y = p.Y })],
            Fed = LayoutFacts.Fed(_first),
            Limits = new(_original.Limits.VacuumFactor, _original.Limits.MagnetFactor),
            Settings = LayoutSettings.Describe(_original, _shop),
            Shapes = PlanShapes.List(shapes),
            Curves = PlanShapes.Curves(shapes, ImmutableHashSet<string>.Empty),
            JobFile = jobFile,
            Hash = hash,
            Findings = _trouble,
        };
    }

    /// <summary>The job and its shop files as they were read.</summary>
    public Request Request => _source.RequestWith(_shop, static _ => { });

    /// <summary>The layout and the settings that the job has.</summary>
    public LayoutAsk Own() =>
        new(_first.Magnets, [.. OwnPorts()], LayoutSettings.Own(_original), ImmutableHashSet<string>.Empty);

    /// <summary>The question with its points and settings checked, or a finding for each member that cannot be.</summary>
    public Stage<LayoutAsk> Check(LayoutQuestion question)
    {
        Stage<LayoutAsk> ask = LayoutAsk.Check(question);
        Finding[] wrong = [.. LayoutSettings.Check(question.Settings, _original, _shop)];
        return wrong.Length > 0 ? Stage.Failed<LayoutAsk>([.. ask.Findings, .. wrong]) : ask;
    }

    private IEnumerable<Point2> OwnPorts() => _original.Ports.Select(p => Transform.Apply(_first.Placement.Pose, p));

    /// <summary>A try of the magnets, ports and settings that the job has, the first magnet so much (mm) to the right.</summary>
    public PageAnswer TryBeside(double right)
    {
        LayoutAsk own = Own();
        return own.Magnets is [var first, .. var rest]
            ? Try(own with { Magnets = [first with { At = first.At + new Point2(right, 0) }, .. rest] })
            : Try(own);
    }

    /// <summary>Factors, steps of the trim, shares, clearances, and the curves that the page has not got.</summary>
    public PageAnswer Try(LayoutAsk ask)
    {
        Stage<Laid> laid = _drafter.Lay(ask);
        if (laid.Value is not { } value)
        {
            return PageAnswer.Refused(laid.Findings);
        }
        Stage<HoldingContext> context = HoldingAnalysis.Context(
            value.Design,
            value.Job,
            Tolerances.House,
            _drafter.Like
        );
        if (context.Value is not { } holding)
        {
            return PageAnswer.Refused(context.Findings);
        }
        _drafter.Like = holding;
        HoldingResult h = holding.Evaluate(value.Design.Magnets);
        ImmutableArray<PlanShape> shapes = PlanShapes.Draw(value.Design, value.Job);
        (string key, CutValues[] trace) = LayoutFacts.Trace(h);
        Violation[] violations = LayoutFaults.Find(value.Begun, value.Design.Magnets, value.Job, holding.Pair);
        bool cut = violations.Length == 0 && laid.Ok;
        TryAnswer answer = new()
        {
            Factors = cut ? ReportBuilder.Holding(h) : null,
            Shares = cut ? LayoutFacts.Shares(h) : [],
            MagnetForceN = cut ? Math.Round(h.MagnetForceN, 3) : 0,
            Placed = LayoutFacts.Placed(value.Design),
            Middle = LayoutFacts.Middle(value.Design),
            Violations = violations,
            Fed = LayoutFacts.Fed(value.Design),
            Findings = PageAnswer.Lines([
                .. laid.Findings.Where(f => f.Severity != Severity.Note),
                .. context.Findings,
                .. cut ? HoldJudgement.Judge(holding, h, value.Job) : [],
            ]),
            Magnet = LayoutFacts.Sizes(value.Job),
            Shapes = PlanShapes.List(shapes),
            Curves = PlanShapes.Curves(shapes, ask.Have),
            TraceKey = key,
            Trace = ask.Have.Contains(key) ? null : trace,
            Path = cut ? LayoutFacts.Path(h) : [],
        };
        return PageAnswer.Json(200, answer, LayoutJson.Default.TryAnswer);
    }

    /// <summary>
    /// The optimiser's places: locked magnets and the drawing's stay, the rest is chosen. What is returned may run beside tries: it
    /// takes nothing of this trial along that changes.
    /// </summary>
    public Func<PageAnswer> Best(LayoutAsk ask, bool fewest)
    {
        Stage<Placed> placed = _drafter.PlacedFor(ask);
        if (placed.Value is not { } p)
        {
            return () => PageAnswer.Refused(placed.Findings);
        }
        Pose back = Transform.Inverse(p.Placement.Pose);
        Job job = p.Job with
        {
            Magnets =
            [
                .. ask
                    .Magnets.Where(m => m.Locked && !m.FromDrawing)
                    .Select(m => new MagnetWish(Transform.Apply(back, m.At), true)),
            ],
            Ports = LayoutDrafter.PortsOf(ask, p),
            MagnetCount = ask.Settings.Count,
            MagnetFactorTarget = fewest ? p.Job.Limits.MagnetFactor : null,
        };
        return () => Chosen(p, job, fewest);
    }

    private static PageAnswer Chosen(Placed p, Job job, bool fewest)
    {
        Stage<FixtureDesign> begun = Designer.Begin(p.Part, p.Placement, job, Tolerances.House);
        Stage<ImmutableArray<MagnetPlace>> best = begun.Ok
            ? MagnetPlacement.Choose(begun.Value!, job, Tolerances.House)
            : Stage.Failed<ImmutableArray<MagnetPlace>>(begun.Findings);
        if (!best.Ok)
        {
            return PageAnswer.Refused([.. best.Findings.Where(f => f.Severity == Severity.Error)]);
        }
        string first = best.Findings.Length > 0 ? " " + best.Findings[0].Message : "";
        string fewer =
            !fewest && best.Value.Length < job.MagnetCount
                ? string.Create(CultureInfo.InvariantCulture, $" of the {job.MagnetCount} asked for: no more have room")
                : "";
        PlacesAnswer answer = new(
            LayoutFacts.Magnets(best.Value),
            string.Create(CultureInfo.InvariantCulture, $"{best.Value.Length} magnets placed{fewer}.{first}")
        );
        return PageAnswer.Json(200, answer, LayoutJson.Default.PlacesAnswer);
    }

    /// <summary>Where the part lies in a layout; where it was last, for one that cannot be.</summary>
    public Pose PoseFor(LayoutAsk ask) => (_drafter.PlacedFor(ask).Value ?? _drafter.Current).Placement.Pose;

    /// <summary>The block cut from one point to the other, plate frame mm; 422 where the layout cannot be drawn.</summary>
    public PageAnswer Section(LayoutAsk ask, Point2 from, Point2 to) =>
        _drafter.Lay(ask).Value is { } laid
            ? PageAnswer.Json(200, SectionCut.Cut(laid.Design, laid.Job, from, to), LayoutJson.Default.SectionAnswer)
            : PageAnswer.Say(422, "the section needs a layout that can be drawn");

    /// <summary>
    /// The layout with these magnets at the nearest place where each may stand, one after the other; locked ones and the drawing's stay.
    /// One that has no such place near stays too, and the answer says so.
    /// </summary>
    public PageAnswer Snap(LayoutAsk ask, int[] which) =>
        _drafter.Lay(ask) is { Value: { } laid } ? MagnetGround.Snap(laid, ask, which) : NotDrawn();

    /// <summary>Where the middle of one magnet may be.</summary>
    public PageAnswer Ground(LayoutAsk ask, int which) =>
        _drafter.Lay(ask) is { Value: { } laid } ? MagnetGround.Draw(laid, ask, which) : NotDrawn();

    private static PageAnswer NotDrawn() => PageAnswer.Say(422, "the layout cannot be drawn: see the findings");

    /// <summary>Every clearance that the layout does not keep; empty also where it cannot be drawn at all.</summary>
    public Violation[] Violations(LayoutAsk ask) =>
        _drafter.Lay(ask).Value is { } laid
            ? LayoutFaults.Find(laid.Begun, laid.Design.Magnets, laid.Job, new PairOnBlock(laid.Job))
            : [];

    /// <summary>
    /// The job's text with the layout and the settings written in; comments and order are kept, and what is the same stays as it is
    /// written. What the job leaves open is stated beside a layout as it was tried with, so that nothing else is chosen for it later.
    /// </summary>
    public Stage<string> Text(LayoutAsk ask, string jobText)
    {
        string file = _source.JobPath;
        Stage<Placed> asked = _drafter.PlacedFor(ask);
        if (asked.Value is not { } placed)
        {
            return Stage.Failed<string>(asked.Findings);
        }
        Stage<string> settled = Settled(jobText, placed.Job, ask.Magnets.Length);
        if (!settled.Ok)
        {
            return settled;
        }
        Stage<Job> written = JobReader.Read(settled.Value!, file, _shop);
        if (written.Value is not { } now)
        {
            return Stage.Failed<string>(written.Findings);
        }
        Stage<string> text = LayoutSettings.Write(settled.Value!, file, now, ask.Settings);
        if (text.Ok && ask.Placement is { } pose)
        {
            text = JobEdit.SetPlacement(text.Value!, file, pose);
        }
        if (!text.Ok)
        {
            return text;
        }
        Pose back = Transform.Inverse(placed.Placement.Pose);
        MagnetWish[] wishes =
        [
            .. ask
                .Magnets.Where(m => !m.FromDrawing)
                .Select(m => new MagnetWish(Transform.Apply(back, m.At), m.Locked)),
        ];
        Stage<string> magnets = JobEdit.SetMagnets(text.Value!, file, wishes);
        Stage<string> ports = magnets.Ok
            ? JobEdit.SetPorts(magnets.Value!, file, LayoutDrafter.PortsOf(ask, placed))
            : magnets;
        string count = ask.Magnets.Length.ToString(CultureInfo.InvariantCulture);
        Stage<string> counted =
            ports.Ok && now.MagnetCount != ask.Magnets.Length
                ? JobEdit.Set(ports.Value!, file, "magnets.count", count)
                : ports;
        return counted.Ok && counted.Value == settled.Value ? Stage.Answer(jobText) : counted;
    }

    /// <summary>The text with every key stated that it leaves open, as the job was solved to.</summary>
    private Stage<string> Settled(string text, Job solved, int magnets)
    {
        string file = _source.JobPath;
        Stage<Job> read = JobReader.Read(text, file, _shop);
        if (read.Value is not { } stated)
        {
            return Stage.Failed<string>(read.Findings);
        }
        IEnumerable<SolvedKey> open = SolveWords
            .Keys(solved with { Open = stated.Open }, magnets)
            .Where(k => !k.Stated && k.Value.Length > 0);
        return open.Aggregate(
            Stage.Answer(text),
            (so, key) => so.Ok ? JobEdit.Set(so.Value!, file, key.Key, key.Value) : so
        );
    }
}
