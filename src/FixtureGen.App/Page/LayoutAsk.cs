using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json.Nodes;
using FixtureGen.Model;

namespace FixtureGen.App.Page;

/// <summary>What the page asks about: magnets and fixed ports in the plate frame, mm, and its settings. Have is the keys of the curves that the page holds.</summary>
public sealed record LayoutAsk(
    ImmutableArray<MagnetPlace> Magnets,
    ImmutableArray<Point2> Ports,
    ImmutableSortedDictionary<string, string> Settings,
    ImmutableHashSet<string> Have
)
{
    private const int MostPorts = 20;

    internal const int MostMagnets = 60;

    private const int MostHeld = 2000;

    /// <summary>Reads the request; throws FormatException where it is not one.</summary>
    public static LayoutAsk Read(JsonNode? body)
    {
        JsonArray magnets = body?["magnets"]?.AsArray() ?? throw new FormatException("no magnets");
        if (magnets.Count > MostMagnets)
        {
            throw new FormatException("too many magnets");
        }
        ImmutableSortedDictionary<string, string>.Builder settings = ImmutableSortedDictionary.CreateBuilder<
            string,
            string
        >(StringComparer.Ordinal);
        foreach ((string key, JsonNode? value) in body["settings"]?.AsObject() ?? [])
        {
            settings[key] =
                value is null ? ""
                : value.GetValueKind() == System.Text.Json.JsonValueKind.Number
                    ? value.GetValue<double>().ToString("R", CultureInfo.InvariantCulture)
                : value.GetValue<string>();
        }
        JsonArray ports = body["ports"]?.AsArray() ?? [];
        if (ports.Count > MostPorts)
        {
            throw new FormatException("too many ports");
        }
        return new LayoutAsk(
            [.. magnets.Select(Magnet)],
            [.. ports.Select(p => Place(p!))],
            settings.ToImmutable(),
            Held(body["have"]?.AsArray() ?? [])
        );
    }

    private static ImmutableHashSet<string> Held(JsonArray keys) =>
        keys.Count <= MostHeld
            ? [.. keys.Select(k => k!.GetValue<string>())]
            : throw new FormatException("too many curves held");

    private static MagnetPlace Magnet(JsonNode? node) =>
        new(Place(node!), node!["locked"]?.GetValue<bool>() ?? false, node["drawn"]?.GetValue<bool>() ?? false);

    private static Point2 Place(JsonNode node) => ReadPoint(node["x"], node["y"]);

    /// <summary>A point in reach of a plate; FormatException where it is none.</summary>
    internal static Point2 ReadPoint(JsonNode? atX, JsonNode? atY)
    {
        double x = atX!.GetValue<double>();
        double y = atY!.GetValue<double>();
        return double.IsFinite(x) && double.IsFinite(y) && Math.Abs(x) <= 5000 && Math.Abs(y) <= 5000
            ? new Point2(x, y)
            : throw new FormatException("a point is nowhere near the plate");
    }
}
