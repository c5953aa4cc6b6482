using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json.Nodes;
using FixtureGen.Design;
using FixtureGen.Geometry;
using FixtureGen.Holding;
using FixtureGen.Model;
using FixtureGen.Output;
using FixtureGen.Shop;

namespace FixtureGen.App.Layout;

/// <summary>Tries layouts of one job: the same stages as make, with the magnets put where the page says.</summary>
public sealed class LayoutTrial
{
    private readonly JobSource source;
    private readonly Job original;
    private readonly FixtureDesign first;
    private (string Key, Placed Placed) current;
    private string shownFor = "";

    private LayoutTrial(JobSource source, Placed placed, FixtureDesign first)
    {
        this.source = source;
        this.original = placed.Job;
        this.first = first;
        this.current = ("", placed);
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
        return Stage.Of(new LayoutTrial(source, placed.Value!, finished.Ok ? finished.Value! : with));
    }

    /// <summary>What the page needs once.</summary>
    public JsonObject State()
    {
        Box2 b = this.first.Placement.BlankBox;
        return new JsonObject
        {
            ["job"] = this.original.Name,
            ["title"] = this.original.Title,
            ["unit"] = this.original.DisplayUnit == LengthUnit.Inch ? "in" : "mm",
            ["box"] = new JsonArray(b.MinX, b.MinY, b.MaxX, b.MaxY),
            ["shapes"] = PlanShapes.Of(this.first, this.original),
            ["magnet"] = Sizes(this.original),
            ["magnets"] = Places(this.first.Magnets),
            ["limits"] = new JsonObject
            {
                ["vacuum"] = this.original.Limits.VacuumFactor,
                ["magnets"] = this.original.Limits.MagnetFactor,
            },
            ["settings"] = LayoutSettings.Describe(this.original, this.source.Library.Shop(null)),
        };
    }

    /// <summary>Factors, samples, shares, clearances and the shapes where they changed.</summary>
    public LayoutAnswer Try(LayoutAsk ask)
    {
        Stage<Laid> laid = this.Lay(ask);
        if (laid.Value is not { } value)
        {
            return LayoutAnswer.Json(
                422,
                new JsonObject
                {
                    ["message"] = laid.Findings.FirstOrDefault()?.Message ?? "refused",
                    ["findings"] = AppJson.Findings(laid.Findings),
                }
            );
        }
        Stage<HoldingResult> holding = HoldingAnalysis.Evaluate(value.Design, value.Job);
        if (holding.Value is not { } h)
        {
            return LayoutAnswer.Json(
                422,
                new JsonObject
                {
                    ["message"] = holding.Findings.FirstOrDefault()?.Message ?? "refused",
                    ["findings"] = AppJson.Findings(holding.Findings),
                }
            );
        }
        JsonObject factors = JsonNode.Parse(HoldingJson(h))!.AsObject();
        JsonObject answer = new()
        {
            ["factors"] = factors,
            ["samples"] = Samples(h),
            ["shares"] = new JsonArray([.. h.MagnetShareN.Select(n => (JsonNode)JsonValue.Create(Math.Round(n, 3)))]),
            ["magnetForceN"] = Math.Round(h.MagnetForceN, 3),
            ["violations"] = Violations(value),
            ["findings"] = AppJson.Findings([
                .. laid.Findings.Where(f => f.Severity != Severity.Note),
                .. holding.Findings,
            ]),
            ["magnet"] = Sizes(value.Job),
            ["shapes"] = PlanShapes.Of(value.Design, value.Job),
        };
        return LayoutAnswer.Json(200, answer);
    }

    /// <summary>The optimiser's places: locked magnets and the drawing's stay, the rest is chosen.</summary>
    public LayoutAnswer Best(LayoutAsk ask, bool fewest)
    {
        Stage<Placed> placed = this.PlacedFor(ask);
        if (placed.Value is not { } p)
        {
            return LayoutAnswer.Json(
                422,
                new JsonObject { ["message"] = "refused", ["findings"] = AppJson.Findings(placed.Findings) }
            );
        }
        int count = ask.Settings.TryGetValue("count", out string? text)
            ? (int)double.Parse(text, CultureInfo.InvariantCulture)
            : ask.Magnets.Length;
        Pose back = Transform.Inverse(p.Placement.Pose);
        Job job = p.Job with
        {
            Magnets =
            [
                .. ask
                    .Magnets.Where(m => m.Locked && !m.FromDrawing)
                    .Select(m => new MagnetWish(Transform.Apply(back, m.At), true)),
            ],
            MagnetCount = count,
            MagnetFactorTarget = fewest ? p.Job.Limits.MagnetFactor : null,
        };
        Stage<FixtureDesign> begun = Designer.Begin(p.Part, p.Placement, job, Tolerances.House);
        Stage<ImmutableArray<MagnetPlace>> best = begun.Ok
            ? MagnetPlacement.Choose(begun.Value!, job, Tolerances.House)
            : Stage.Failed<ImmutableArray<MagnetPlace>>(begun.Findings);
        if (!best.Ok)
        {
            Finding[] why = [.. best.Findings.Where(f => f.Severity == Severity.Error)];
            return LayoutAnswer.Json(
                422,
                new JsonObject
                {
                    ["message"] = why.FirstOrDefault()?.Message ?? "no places were found",
                    ["findings"] = AppJson.Findings(why),
                }
            );
        }
        string told = best.Findings.Length > 0 ? " " + best.Findings[0].Message : "";
        return LayoutAnswer.Json(
            200,
            new JsonObject
            {
                ["magnets"] = Places(best.Value),
                ["message"] = string.Create(CultureInfo.InvariantCulture, $"{best.Value.Length} magnets placed.{told}"),
            }
        );
    }

    public LayoutAnswer Section(LayoutAsk ask, JsonObject line)
    {
        Stage<Laid> laid = this.Lay(ask);
        if (laid.Value is not { } value)
        {
            return LayoutAnswer.Message(422, "the section needs a layout that can be drawn");
        }
        Point2 from = new(line["x0"]!.GetValue<double>(), line["y0"]!.GetValue<double>());
        Point2 to = new(line["x1"]!.GetValue<double>(), line["y1"]!.GetValue<double>());
        return LayoutAnswer.Json(200, SectionCut.Of(value.Design, value.Job, from, to));
    }

    public JsonArray Violations(LayoutAsk ask) => this.Lay(ask).Value is { } laid ? Violations(laid) : [];

    /// <summary>The job's text with the layout and the settings written in; comments and order are kept.</summary>
    public Stage<string> Text(LayoutAsk ask, string jobText)
    {
        Stage<string> text = LayoutSettings.Write(jobText, this.source.JobPath, this.original, ask.Settings);
        if (!text.Ok)
        {
            return text;
        }
        Pose back = Transform.Inverse(this.current.Placed.Placement.Pose);
        MagnetWish[] wishes =
        [
            .. ask
                .Magnets.Where(m => !m.FromDrawing)
                .Select(m => new MagnetWish(Transform.Apply(back, m.At), m.Locked)),
        ];
        Stage<string> magnets = JobEdit.SetMagnets(text.Value!, this.source.JobPath, wishes);
        return magnets.Ok
            ? JobEdit.Set(
                magnets.Value!,
                this.source.JobPath,
                "magnets.count",
                ask.Magnets.Length.ToString(CultureInfo.InvariantCulture)
            )
            : magnets;
    }

    private sealed record Laid(Job Job, FixtureDesign Begun, FixtureDesign Design);

    /// <summary>The design with the magnets just there. Where they cannot be cut it is the design without their pockets, and the findings say so.</summary>
    private Stage<Laid> Lay(LayoutAsk ask)
    {
        Stage<Placed> placed = this.PlacedFor(ask);
        if (placed.Value is not { } p)
        {
            return Stage.Failed<Laid>(placed.Findings);
        }
        ImmutableArray<MagnetPlace> magnets = [.. ask.Magnets.Select(m => Rounded(m, p))];
        Pose back = Transform.Inverse(p.Placement.Pose);
        Job job = p.Job with
        {
            Magnets =
            [
                .. magnets
                    .Where(m => !m.FromDrawing)
                    .Select(m => new MagnetWish(Transform.Apply(back, m.At), m.Locked)),
            ],
            MagnetCount = magnets.Length,
        };
        Stage<FixtureDesign> begun = Designer.Begin(p.Part, p.Placement, job, Tolerances.House);
        if (begun.Value is not { } b)
        {
            return Stage.Failed<Laid>(begun.Findings);
        }
        Stage<FixtureDesign> finished = Designer.Finish(b, magnets, job, Tolerances.House);
        FixtureDesign design = finished.Value ?? b with { Magnets = magnets };
        return Stage.Of(new Laid(job, b, design), finished.Findings);
    }

    /// <summary>A place as the job file will say it: four decimals of the job's unit in the part frame, so that check reads the very same.</summary>
    private static MagnetPlace Rounded(MagnetPlace m, Placed p)
    {
        if (m.FromDrawing)
        {
            return m;
        }
        double unit = p.Job.DisplayUnit == LengthUnit.Inch ? Units.MmPerInch : 1;
        Point2 at = Transform.Apply(Transform.Inverse(p.Placement.Pose), m.At);
        Point2 written = new(Math.Round(at.X / unit, 4) * unit, Math.Round(at.Y / unit, 4) * unit);
        return m with { At = Transform.Apply(p.Placement.Pose, written) };
    }

    private Stage<Placed> PlacedFor(LayoutAsk ask)
    {
        string key = string.Join(';', ask.Settings.Where(s => s.Key != "count").Select(s => $"{s.Key}={s.Value}"));
        if (key == this.current.Key && key == this.shownFor)
        {
            return Stage.Of(this.current.Placed);
        }
        Stage<string> text = LayoutSettings.Write(
            this.source.JobText,
            this.source.JobPath,
            this.original,
            ask.Settings
        );
        if (!text.Ok)
        {
            return Stage.Failed<Placed>(text.Findings);
        }
        Stage<Placed> placed = Pipeline.Place(
            this.source.Request(null, static _ => { }) with
            {
                JobText = text.Value!,
            }
        );
        if (placed.Ok)
        {
            this.current = (key, placed.Value!);
            this.shownFor = key;
        }
        return placed;
    }

    private static JsonArray Violations(Laid laid)
    {
        Point2[] at = [.. laid.Design.Magnets.Select(m => m.At)];
        JsonArray list = [];
        foreach (ClearanceLack lack in new MagnetClearances(laid.Begun, laid.Job).Of(at))
        {
            string other = lack.Neighbour is int n
                ? string.Create(CultureInfo.InvariantCulture, $"magnet {n + 1}")
                : lack.Against;
            JsonObject o = new()
            {
                ["magnet"] = lack.Magnet,
                ["other"] = other,
                ["amountMm"] = Math.Round(lack.ShortBy, 3),
                ["message"] = string.Create(
                    CultureInfo.InvariantCulture,
                    $"Magnet {lack.Magnet + 1} is {Amount(lack.ShortBy, laid.Job)} too near {other}."
                ),
            };
            if (lack.Neighbour is int j)
            {
                o["a"] = new JsonArray(at[lack.Magnet].X, at[lack.Magnet].Y);
                o["b"] = new JsonArray(at[j].X, at[j].Y);
            }
            list.Add((JsonNode)o);
        }
        return list;
    }

    private static string Amount(double mm, Job job) =>
        job.DisplayUnit == LengthUnit.Inch
            ? string.Create(CultureInfo.InvariantCulture, $"{mm / Units.MmPerInch:0.000} in")
            : string.Create(CultureInfo.InvariantCulture, $"{mm:0.00} mm");

    private static string HoldingJson(HoldingResult h) =>
        System.Text.Json.JsonSerializer.Serialize(ReportBuilder.Holding(h), ReportJson.Default.HoldingFacts);

    private static JsonArray Samples(HoldingResult h) =>
        new([
            .. h.Samples.Select(s =>
                (JsonNode)
                    new JsonObject
                    {
                        ["cut"] = s.Cut,
                        ["x"] = Math.Round(s.At.X, 3),
                        ["y"] = Math.Round(s.At.Y, 3),
                        ["load"] = Math.Round(s.LoadN, 2),
                        ["vacuum"] = Math.Round(s.VacuumOnly, 4),
                        ["stopping"] = Math.Round(s.MagnetsStopping, 4),
                        ["both"] = Math.Round(s.Both, 4),
                    }
            ),
        ]);

    private static JsonObject Sizes(Job job) =>
        new() { ["diameter"] = job.Magnet.Diameter, ["jacket"] = job.Magnet.JacketDiameter };

    private static JsonArray Places(IEnumerable<MagnetPlace> magnets) =>
        new([
            .. magnets.Select(m =>
                (JsonNode)
                    new JsonObject
                    {
                        ["x"] = m.At.X,
                        ["y"] = m.At.Y,
                        ["locked"] = m.Locked,
                        ["drawn"] = m.FromDrawing,
                    }
            ),
        ]);
}
