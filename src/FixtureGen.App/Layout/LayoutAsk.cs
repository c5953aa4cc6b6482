using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json.Nodes;
using FixtureGen.Model;

namespace FixtureGen.App.Layout;

/// <summary>What the page asks about: magnets in the plate frame, mm, and the settings that differ from the job.</summary>
public sealed record LayoutAsk(ImmutableArray<MagnetPlace> Magnets, ImmutableSortedDictionary<string, string> Settings)
{
    private const int MostMagnets = 60;

    /// <summary>Reads the request; throws FormatException where it is not one.</summary>
    public static LayoutAsk Of(JsonNode? body)
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
        return new LayoutAsk([.. magnets.Select(Magnet)], settings.ToImmutable());
    }

    private static MagnetPlace Magnet(JsonNode? node)
    {
        double x = node!["x"]!.GetValue<double>();
        double y = node["y"]!.GetValue<double>();
        if (!double.IsFinite(x) || !double.IsFinite(y) || Math.Abs(x) > 5000 || Math.Abs(y) > 5000)
        {
            throw new FormatException("a magnet is nowhere");
        }
        return new MagnetPlace(
            new Point2(x, y),
            node["locked"]?.GetValue<bool>() ?? false,
            node["drawn"]?.GetValue<bool>() ?? false
        );
    }
}
