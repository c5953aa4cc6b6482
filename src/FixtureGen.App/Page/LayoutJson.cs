using System.Globalization;
using System.Runtime.InteropServices;
using System.Security.Cryptography;
using System.Text.Json;
using System.Text.Json.Nodes;
using FixtureGen.App.Terminal;
using FixtureGen.Model;
using FixtureGen.Output.Reports;

namespace FixtureGen.App.Page;

/// <summary>Designs and holding answers as the page reads them; lengths mm in the plate frame.</summary>
internal static class LayoutJson
{
    public static JsonNode Factors(HoldingResult h) =>
        JsonSerializer.SerializeToNode(ReportBuilder.Holding(h), ReportJson.Default.HoldingFacts)!;

    /// <summary>
    /// The steps along the trim. Trace is where they are, for each cut x, y, load (N) of every step, and is left out where the
    /// page has it; path is for each cut the factors vacuum, stopping, both of every step.
    /// </summary>
    public static LayoutAnswer WithSteps(JsonObject answer, HoldingResult h, IReadOnlySet<string> have)
    {
        string key = Key([.. h.Samples.SelectMany(s => new[] { s.At.X, s.At.Y, s.LoadN })]);
        answer["traceKey"] = key;
        HoldSample[][] cuts = [.. h.Samples.GroupBy(s => s.Cut).Select(g => g.ToArray())];
        using MemoryStream stream = new();
        using Utf8JsonWriter writer = new(stream);
        writer.WriteStartObject();
        foreach ((string name, JsonNode? value) in answer)
        {
            writer.WritePropertyName(name);
            value!.WriteTo(writer);
        }
        if (!have.Contains(key))
        {
            writer.WriteStartArray("trace");
            foreach (HoldSample[] cut in cuts)
            {
                writer.WriteStartObject();
                writer.WriteString("cut", cut[0].Cut);
                Numbers(writer, "values", cut, s => (s.At.X, s.At.Y, s.LoadN));
                writer.WriteEndObject();
            }
            writer.WriteEndArray();
        }
        writer.WriteStartArray("path");
        foreach (HoldSample[] cut in cuts)
        {
            writer.WriteStartObject();
            Numbers(writer, "values", cut, s => (s.VacuumOnly, s.MagnetsStopping, s.Both));
            writer.WriteEndObject();
        }
        writer.WriteEndArray();
        writer.WriteEndObject();
        writer.Flush();
        return new LayoutAnswer(200, LayoutAnswer.JsonType, stream.ToArray());
    }

    private static void Numbers(
        Utf8JsonWriter writer,
        string name,
        HoldSample[] cut,
        Func<HoldSample, (double, double, double)> three
    )
    {
        writer.WriteStartArray(name);
        foreach (HoldSample s in cut)
        {
            (double a, double b, double c) = three(s);
            writer.WriteNumberValue(Math.Round(a, 3));
            writer.WriteNumberValue(Math.Round(b, 3));
            writer.WriteNumberValue(Math.Round(c, 3));
        }
        writer.WriteEndArray();
    }

    public static JsonArray Shares(HoldingResult h)
    {
        JsonArray shares = [];
        foreach (double n in h.MagnetShareN)
        {
            Add(shares, n, 3);
        }
        return shares;
    }

    public static JsonObject Sizes(Job job) =>
        new() { ["diameter"] = job.Magnet.Diameter, ["jacket"] = job.Magnet.JacketDiameter };

    public static JsonArray Magnets(IEnumerable<MagnetPlace> magnets) =>
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

    /// <summary>Ports that the job fixes.</summary>
    public static JsonArray Ports(IEnumerable<Point2> ports) =>
        new([.. ports.Select(p => (JsonNode)new JsonObject { ["x"] = p.X, ["y"] = p.Y })]);

    /// <summary>Where each zone's air leaves, and into what.</summary>
    public static JsonArray Fed(FixtureDesign design) =>
        new([
            .. design.Zones.Select(z =>
                (JsonNode)
                    new JsonObject
                    {
                        ["zone"] = z.Index + 1,
                        ["x"] = Math.Round(z.PortAt.X, 3),
                        ["y"] = Math.Round(z.PortAt.Y, 3),
                        ["feeds"] = z.Feeds,
                    }
            ),
        ]);

    public static LayoutAnswer Refused(IReadOnlyCollection<Finding> findings) =>
        LayoutAnswer.Json(
            422,
            new JsonObject
            {
                ["message"] =
                    (findings.FirstOrDefault(f => f.Severity == Severity.Error) ?? findings.FirstOrDefault())?.Message
                    ?? "refused",
                ["findings"] = AppJson.Findings(findings),
            }
        );

    public static string Amount(double mm, Job job) =>
        job.DisplayUnit == LengthUnit.Inch
            ? string.Create(CultureInfo.InvariantCulture, $"{mm / Units.MmPerInch:0.000} in")
            : string.Create(CultureInfo.InvariantCulture, $"{mm:0.00} mm");

    /// <summary>Equal for equal numbers only, bit for bit.</summary>
    public static string Key(double[] numbers) =>
        Convert.ToHexStringLower(SHA256.HashData(MemoryMarshal.AsBytes(numbers.AsSpan())).AsSpan(0, 12));

    public static JsonArray Point(Point2 p) => new(p.X, p.Y);

    private static void Add(JsonArray list, double value, int digits) =>
        list.Add((JsonNode)JsonValue.Create(Math.Round(value, digits)));
}
