using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json.Nodes;
using FixtureGen.App.Files;
using FixtureGen.App.Terminal;
using FixtureGen.Design;
using FixtureGen.Geometry;
using FixtureGen.Holding;
using FixtureGen.Holding.Magnets;
using FixtureGen.Model;
using FixtureGen.Shop.Jobs;
using FixtureGen.Solve;

namespace FixtureGen.App.Page;

/// <summary>Tries layouts of one job: the same stages as make, with the magnets put where the page says.</summary>
public sealed class LayoutTrial
{
    private readonly JobSource _source;
    private readonly Job _original;
    private readonly FixtureDesign _first;
    private readonly LayoutDrafter _drafter;

    private LayoutTrial(JobSource source, Placed placed, FixtureDesign first)
    {
        _source = source;
        _original = placed.Job;
        _first = first;
        _drafter = new LayoutDrafter(source, placed);
    }

    /// <summary>The job as it stands, with its own magnets chosen.</summary>
    public static Stage<LayoutTrial> Start(JobSource source)
    {
        Request request = source.Request(null, static _ => { });
        Stage<Placed> placed = Pipeline.Place(request);
        if (!placed.Ok)
        {
            return Stage.Failed<LayoutTrial>(placed.Findings);
        }
        (Job job, Part part, Placement placement) = placed.Value!;
        Stage<FixtureDesign> begun = Designer.Begin(part, placement, job, Tolerances.House);
        if (!begun.Ok)
        {
            return Stage.Failed<LayoutTrial>([.. placed.Findings, .. begun.Findings]);
        }
        Stage<ImmutableArray<MagnetPlace>> magnets = MagnetPlacement.Choose(begun.Value!, job, Tolerances.House);
        FixtureDesign with = begun.Value! with { Magnets = magnets.Ok ? magnets.Value : [] };
        Stage<FixtureDesign> finished = Designer.Finish(begun.Value!, with.Magnets, job, Tolerances.House);
        return Stage.Answer(new LayoutTrial(source, placed.Value!, finished.Ok ? finished.Value! : with));
    }

    /// <summary>What the page needs once.</summary>
    public JsonObject State()
    {
        Box2 b = _first.Placement.BlankBox;
        JsonObject state = new()
        {
            ["job"] = _original.Name,
            ["title"] = _original.Title,
            ["unit"] = _original.DisplayUnit == LengthUnit.Inch ? "in" : "mm",
            ["box"] = new JsonArray(b.MinX, b.MinY, b.MaxX, b.MaxY),
            ["magnet"] = LayoutJson.Sizes(_original),
            ["magnets"] = LayoutJson.Magnets(_first.Magnets),
            ["ports"] = LayoutJson.Ports(_original.Ports.Select(p => Transform.Apply(_first.Placement.Pose, p))),
            ["fed"] = LayoutJson.Fed(_first),
            ["limits"] = new JsonObject
            {
                ["vacuum"] = _original.Limits.VacuumFactor,
                ["magnets"] = _original.Limits.MagnetFactor,
            },
            ["settings"] = LayoutSettings.Describe(_original, _source.Library.Shop(null)),
        };
        PlanShapes.Add(state, PlanShapes.Draw(_first, _original), ImmutableHashSet<string>.Empty);
        return state;
    }

    /// <summary>A try of the magnets, ports and settings that the job has, the first magnet so much (mm) to the right.</summary>
    public LayoutAnswer TryBeside(double right)
    {
        JsonObject state = State();
        JsonArray magnets = state["magnets"]!.AsArray();
        if (magnets.Count > 0)
        {
            magnets[0]!["x"] = (double)magnets[0]!["x"]! + right;
        }
        JsonObject settings = [];
        foreach (JsonNode? setting in state["settings"]!.AsArray())
        {
            settings[(string)setting!["key"]!] = setting["value"]!.DeepClone();
        }
        return Try(
            LayoutAsk.Read(
                new JsonObject
                {
                    ["magnets"] = magnets.DeepClone(),
                    ["ports"] = state["ports"]!.DeepClone(),
                    ["settings"] = settings,
                }
            )
        );
    }

    /// <summary>Factors, steps of the trim, shares, clearances, and the curves that the page has not got.</summary>
    public LayoutAnswer Try(LayoutAsk ask)
    {
        Stage<Laid> laid = _drafter.Lay(ask);
        if (laid.Value is not { } value)
        {
            return LayoutJson.Refused(laid.Findings);
        }
        Stage<HoldingContext> context = HoldingAnalysis.Context(
            value.Design,
            value.Job,
            Tolerances.House,
            _drafter.Like
        );
        if (context.Value is not { } holding)
        {
            return LayoutJson.Refused(context.Findings);
        }
        _drafter.Like = holding;
        HoldingResult h = holding.Evaluate(value.Design.Magnets);
        JsonObject answer = new()
        {
            ["factors"] = LayoutJson.Factors(h),
            ["shares"] = LayoutJson.Shares(h),
            ["magnetForceN"] = Math.Round(h.MagnetForceN, 3),
            ["violations"] = LayoutFaults.Find(value.Begun, value.Design.Magnets, value.Job, holding.Pair),
            ["fed"] = LayoutJson.Fed(value.Design),
            ["findings"] = AppJson.Findings([
                .. laid.Findings.Where(f => f.Severity != Severity.Note),
                .. context.Findings,
                .. HoldJudgement.Judge(holding, h, value.Job),
            ]),
            ["magnet"] = LayoutJson.Sizes(value.Job),
        };
        PlanShapes.Add(answer, PlanShapes.Draw(value.Design, value.Job), ask.Have);
        return LayoutJson.WithSteps(answer, h, ask.Have);
    }

    /// <summary>The optimiser's places: locked magnets and the drawing's stay, the rest is chosen.</summary>
    public LayoutAnswer Best(LayoutAsk ask, bool fewest)
    {
        Stage<Placed> placed = _drafter.PlacedFor(ask);
        if (placed.Value is not { } p)
        {
            return LayoutJson.Refused(placed.Findings);
        }
        int count = ask.Settings.TryGetValue("count", out string? text)
            ? (int)double.Parse(text, CultureInfo.InvariantCulture)
            : ask.Magnets.Length;
        if (count is < 0 or > LayoutAsk.MostMagnets)
        {
            throw new FormatException("the number of magnets is out of reach");
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
            MagnetCount = count,
            MagnetFactorTarget = fewest ? p.Job.Limits.MagnetFactor : null,
        };
        Stage<FixtureDesign> begun = Designer.Begin(p.Part, p.Placement, job, Tolerances.House);
        Stage<ImmutableArray<MagnetPlace>> best = begun.Ok
            ? MagnetPlacement.Choose(begun.Value!, job, Tolerances.House)
            : Stage.Failed<ImmutableArray<MagnetPlace>>(begun.Findings);
        if (!best.Ok)
        {
            return LayoutJson.Refused([.. best.Findings.Where(f => f.Severity == Severity.Error)]);
        }
        string told = best.Findings.Length > 0 ? " " + best.Findings[0].Message : "";
        return LayoutAnswer.Json(
            200,
            new JsonObject
            {
                ["magnets"] = LayoutJson.Magnets(best.Value),
                ["message"] = string.Create(CultureInfo.InvariantCulture, $"{best.Value.Length} magnets placed.{told}"),
            }
        );
    }

    /// <summary>
    /// The block cut along x0, y0 to x1, y1 of <paramref name="line"/>, plate frame mm; 422 where the layout cannot be
    /// drawn, FormatException where a point is out of reach.
    /// </summary>
    public LayoutAnswer Section(LayoutAsk ask, JsonObject line)
    {
        Stage<Laid> laid = _drafter.Lay(ask);
        if (laid.Value is not { } value)
        {
            return LayoutAnswer.Message(422, "the section needs a layout that can be drawn");
        }
        Point2 from = LayoutAsk.ReadPoint(line["x0"], line["y0"]);
        Point2 to = LayoutAsk.ReadPoint(line["x1"], line["y1"]);
        return LayoutAnswer.Json(200, SectionCut.Cut(value.Design, value.Job, from, to));
    }

    /// <summary>Every clearance that the layout does not keep; empty also where it cannot be drawn at all.</summary>
    public JsonArray Violations(LayoutAsk ask) =>
        _drafter.Lay(ask).Value is { } laid
            ? LayoutFaults.Find(laid.Begun, laid.Design.Magnets, laid.Job, new PairOnBlock(laid.Job))
            : [];

    /// <summary>The job's text with the layout and the settings written in; comments and order are kept, and what is the same stays as it is written.</summary>
    public Stage<string> Text(LayoutAsk ask, string jobText)
    {
        string file = _source.JobPath;
        Stage<Job> written = JobReader.Read(jobText, file, _source.Library.Shop(null));
        if (written.Value is not { } now)
        {
            return Stage.Failed<string>(written.Findings);
        }
        Stage<string> text = LayoutSettings.Write(jobText, file, now, _source.Library.Shop(null), ask.Settings);
        if (!text.Ok)
        {
            return text;
        }
        Placed placed = _drafter.Current;
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
        return ports.Ok && now.MagnetCount != ask.Magnets.Length
            ? JobEdit.Set(ports.Value!, file, "magnets.count", count)
            : ports;
    }
}
