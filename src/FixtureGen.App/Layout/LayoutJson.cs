using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using FixtureGen.Model;
using FixtureGen.Output;

namespace FixtureGen.App.Layout;

/// <summary>Designs and holding answers as the page reads them; lengths mm in the plate frame.</summary>
internal static class LayoutJson
{
    public static JsonNode Factors(HoldingResult h) =>
        JsonSerializer.SerializeToNode(ReportBuilder.Holding(h), ReportJson.Default.HoldingFacts)!;

    /// <summary>The steps along the trim, one list of numbers for each cut: x, y, load (N), then the factors vacuum, stopping, both.</summary>
    public static JsonArray Samples(HoldingResult h)
    {
        JsonArray cuts = [];
        JsonArray? values = null;
        string? cut = null;
        foreach (HoldSample s in h.Samples)
        {
            if (values is null || s.Cut != cut)
            {
                cut = s.Cut;
                values = [];
                cuts.Add((JsonNode)new JsonObject { ["cut"] = cut, ["values"] = values });
            }
            Add(values, s.At.X, 2);
            Add(values, s.At.Y, 2);
            Add(values, s.LoadN, 1);
            Add(values, s.VacuumOnly, 3);
            Add(values, s.MagnetsStopping, 3);
            Add(values, s.Both, 3);
        }
        return cuts;
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

    /// <summary>Equal for equal content only.</summary>
    public static string Key(JsonNode node) =>
        Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(node.ToJsonString())));

    public static JsonArray Point(Point2 p) => new(p.X, p.Y);

    private static void Add(JsonArray list, double value, int digits) =>
        list.Add((JsonNode)JsonValue.Create(Math.Round(value, digits)));
}
