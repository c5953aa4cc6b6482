using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json.Nodes;
using FixtureGen.Model;
using FixtureGen.Shop.Jobs;
using FixtureGen.Shop.Reading;

namespace FixtureGen.App.Page;

/// <summary>The things a designer asks about beside the places: which key of the job each stands for, and how it is written there.</summary>
public static class LayoutSettings
{
    private const double MPerFoot = 0.3048;

    private sealed record Setting
    {
        public required string Key { get; init; }

        public required string Name { get; init; }

        public required string Unit { get; init; }

        public required string JobKey { get; init; }

        public required Func<Job, string> Value { get; init; }

        public required Func<string, string> Literal { get; init; }

        public required double Min { get; init; }

        public required double Max { get; init; }

        public required double Step { get; init; }

        public required string? ShopKind { get; init; }
    }

    /// <summary>A unit of the page with its factor to the inside unit, and the field's range and step in it.</summary>
    private readonly record struct Scale(string Unit, double Factor, double Min, double Max, double Step);

    private static ImmutableArray<Setting> For(Job job)
    {
        bool inch = job.DisplayUnit == LengthUnit.Inch;
        return
        [
            Choice("magnet", "Magnet", "shop.magnet", j => j.Magnet.Name, "magnets"),
            Bare(
                "count",
                "Number of magnets",
                "magnets.count",
                j => Math.Max(j.MagnetCount, j.Magnets.Length),
                0,
                24,
                1
            ),
            Measured(
                "alarm",
                "Vacuum alarm level",
                "vacuum.alarm",
                j => j.Vacuum.AlarmKPa,
                inch ? new("inHg", Units.KPaPerInHg, 1.5, 29.5, 0.1) : new("kPa", 1, 5, 100, 0.5)
            ),
            Measured(
                "altitude",
                "Altitude",
                "vacuum.altitude",
                j => j.Vacuum.AltitudeM,
                inch ? new("ft", MPerFoot, -1300, 16400, 50) : new("m", 1, -400, 5000, 10)
            ),
            Bare(
                "friction",
                "Friction of shell on block",
                "shell.friction",
                j => (j.ShellFriction ?? j.BlockMaterial.ShellFriction).Nominal,
                0.01,
                2,
                0.01
            ),
            Choice("cutter", "Trim cutter", "shop.trim_tool", j => j.TrimTool.Name, "cutters"),
            Measured(
                "feed",
                "Trim feed (0: from the chip load)",
                "trim.feed",
                j => j.TrimFeedMmPerMin ?? 0,
                inch ? new("in/min", Units.MmPerInch, 0, 800, 0.5) : new("mm/min", 1, 0, 20000, 10)
            ),
        ];
    }

    private static Setting Choice(string key, string name, string jobKey, Func<Job, string> value, string kind) =>
        new()
        {
            Key = key,
            Name = name,
            Unit = "",
            JobKey = jobKey,
            Value = value,
            Literal = Quoted,
            Min = 0,
            Max = 0,
            Step = 0,
            ShopKind = kind,
        };

    private static Setting Bare(
        string key,
        string name,
        string jobKey,
        Func<Job, double> value,
        double min,
        double max,
        double step
    ) =>
        new()
        {
            Key = key,
            Name = name,
            Unit = "",
            JobKey = jobKey,
            Value = j => N(value(j)),
            Literal = v => v,
            Min = min,
            Max = max,
            Step = step,
            ShopKind = null,
        };

    private static Setting Measured(string key, string name, string jobKey, Func<Job, double> inside, Scale s) =>
        new()
        {
            Key = key,
            Name = name,
            Unit = s.Unit,
            JobKey = jobKey,
            Value = j => N(inside(j) / s.Factor),
            Literal = v => Quoted($"{v} {s.Unit}"),
            Min = s.Min,
            Max = s.Max,
            Step = s.Step,
            ShopKind = null,
        };

    /// <summary>The settings as the page shows them, with the job's own values.</summary>
    public static JsonArray Describe(Job job, ShopFiles shop)
    {
        JsonArray list = [];
        foreach (Setting s in For(job))
        {
            JsonObject o = new()
            {
                ["key"] = s.Key,
                ["name"] = s.Name,
                ["unit"] = s.Unit,
                ["min"] = s.Min,
                ["max"] = s.Max,
                ["step"] = s.Step,
            };
            string[] choices = Choices(s, job, shop);
            if (choices.Length > 0)
            {
                o["choices"] = new JsonArray([.. choices.Select(c => (JsonNode)JsonValue.Create(c)!)]);
                o["value"] = s.Value(job);
            }
            else
            {
                o["value"] = double.Parse(s.Value(job), CultureInfo.InvariantCulture);
            }
            list.Add((JsonNode)o);
        }
        return list;
    }

    private static string[] Choices(Setting s, Job job, ShopFiles shop) =>
        s.ShopKind switch
        {
            "magnets" => [.. shop.List("magnets")],
            "cutters" => [.. job.Tools.Where(t => t.Kind == ToolKind.EndMill).Select(t => t.Name)],
            _ => [],
        };

    /// <summary>FormatException unless the value is one of the choices, or a plain number within the field's range.</summary>
    private static void Check(Setting s, string value, Job job, ShopFiles shop)
    {
        bool known = s.ShopKind is not null
            ? Choices(s, job, shop).Contains(value, StringComparer.Ordinal)
            : double.TryParse(
                value,
                NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint,
                CultureInfo.InvariantCulture,
                out double number
            )
                && number >= s.Min
                && number <= s.Max;
        if (!known)
        {
            throw new FormatException($"'{s.Name}' cannot be that");
        }
    }

    /// <summary>The job's text with the settings that differ from it written in; the magnets' number is written by the save. FormatException for a value that its field could not hold.</summary>
    public static Stage<string> Write(
        string text,
        string file,
        Job job,
        ShopFiles shop,
        IReadOnlyDictionary<string, string> settings
    )
    {
        string edited = text;
        foreach (Setting s in For(job).Where(s => s.Key != "count"))
        {
            if (!settings.TryGetValue(s.Key, out string? value) || value == s.Value(job))
            {
                continue;
            }
            Check(s, value, job, shop);
            bool asRuled = s.Key == "feed" && value == "0";
            Stage<string> next = asRuled
                ? JobEdit.Remove(edited, file, s.JobKey)
                : JobEdit.Set(edited, file, s.JobKey, s.Literal(value));
            if (!next.Ok)
            {
                return next;
            }
            edited = next.Value!;
        }
        return Stage.Answer(edited);
    }

    private static string Quoted(string value) =>
        "\""
        + value.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\"", "\\\"", StringComparison.Ordinal)
        + "\"";

    private static string N(double value) => Math.Round(value, 4).ToString("R", CultureInfo.InvariantCulture);
}
