using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json.Nodes;
using FixtureGen.Model;
using FixtureGen.Shop;

namespace FixtureGen.App.Layout;

/// <summary>The things a designer asks about beside the places: which key of the job each stands for, and how it is written there.</summary>
public static class LayoutSettings
{
    private sealed record Setting(
        string Key,
        string Name,
        string Unit,
        string JobKey,
        Func<Job, string> Value,
        Func<string, string> Literal,
        double Min,
        double Max,
        double Step,
        string? ShopKind
    );

    private static readonly ImmutableArray<Setting> All =
    [
        new("magnet", "Magnet", "", "shop.magnet", j => j.Magnet.Name, Quoted, 0, 0, 0, "magnets"),
        new(
            "count",
            "Number of magnets",
            "",
            "magnets.count",
            j => N(Math.Max(j.MagnetCount, j.Magnets.Length)),
            v => v,
            0,
            24,
            1,
            null
        ),
        new(
            "alarm",
            "Vacuum alarm level",
            "kPa",
            "vacuum.alarm",
            j => N(j.Vacuum.AlarmKPa),
            v => Quoted(v + " kPa"),
            5,
            100,
            0.5,
            null
        ),
        new(
            "altitude",
            "Altitude",
            "m",
            "vacuum.altitude",
            j => N(j.Vacuum.AltitudeM),
            v => Quoted(v + " m"),
            -400,
            5000,
            10,
            null
        ),
        new(
            "friction",
            "Friction of shell on block",
            "",
            "shell.friction",
            j => N(j.ShellFriction ?? j.BlockMaterial.ShellFriction),
            v => v,
            0.01,
            2,
            0.01,
            null
        ),
        new("cutter", "Trim cutter", "", "shop.trim_tool", j => j.TrimTool.Name, Quoted, 0, 0, 0, "cutters"),
        new(
            "feed",
            "Trim feed (0: from the chip load)",
            "mm/min",
            "trim.feed",
            j => N(j.TrimFeedMmPerMin ?? 0),
            v => Quoted(v + " mm/min"),
            0,
            20000,
            10,
            null
        ),
    ];

    /// <summary>The settings as the page shows them, with the job's own values.</summary>
    public static JsonArray Describe(Job job, ShopFiles shop)
    {
        JsonArray list = [];
        foreach (Setting s in All)
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
            string[] choices = s.ShopKind switch
            {
                "magnets" => [.. shop.List("magnets")],
                "cutters" => [.. job.Tools.Where(t => t.Kind == ToolKind.EndMill).Select(t => t.Name)],
                _ => [],
            };
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

    /// <summary>The job's text with the settings that differ from it written in; the magnets' number is written by the save.</summary>
    public static Stage<string> Write(string text, string file, Job job, IReadOnlyDictionary<string, string> settings)
    {
        string edited = text;
        foreach (Setting s in All.Where(s => s.Key != "count"))
        {
            if (!settings.TryGetValue(s.Key, out string? value) || value == s.Value(job))
            {
                continue;
            }
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
        return Stage.Of(edited);
    }

    private static string Quoted(string value) =>
        "\""
        + value.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\"", "\\\"", StringComparison.Ordinal)
        + "\"";

    private static string N(double value) => Math.Round(value, 4).ToString("R", CultureInfo.InvariantCulture);
}
