using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json.Nodes;
using FixtureGen.Design.Vacuum;
using FixtureGen.Geometry;
using FixtureGen.Holding.Magnets;
using FixtureGen.Model;
using FixtureGen.Solve;

namespace FixtureGen.App.Page;

/// <summary>Every clearance that a layout does not keep, with the amount and the two points between which it is missing.</summary>
internal static class LayoutFaults
{
    public static JsonArray Find(FixtureDesign begun, ImmutableArray<MagnetPlace> magnets, Job job, PairOnBlock pair)
    {
        JsonArray list = [];
        Point2[] at = [.. magnets.Select(m => m.At)];
        foreach (ClearanceLack lack in new MagnetClearances(begun, job, pair).Find(at))
        {
            string other = lack.Neighbour is int n ? $"magnet {No(n)}" : lack.Against;
            string message = $"Magnet {No(lack.Magnet)} is {LayoutJson.Amount(lack.ShortBy, job)} too near {other}.";
            list.Add((JsonNode)Fault("magnet", lack.Magnet, other, lack.ShortBy, message, at[lack.Magnet], lack.At));
        }
        foreach (PortFault f in PortClearances.Find(begun, job, Tolerances.House))
        {
            Point2 port = Transform.Apply(begun.Placement.Pose, job.Ports[f.Port]);
            string message =
                f.ShortBy > 0
                    ? $"Port {No(f.Port)} is {LayoutJson.Amount(f.ShortBy, job)} too near {f.Against}."
                    : $"Port {No(f.Port)} is one too many beside {f.Against}.";
            list.Add((JsonNode)Fault("port", f.Port, f.Against, f.ShortBy, message, port, f.Nearest));
        }
        return list;
    }

    private static JsonObject Fault(
        string what,
        int index,
        string other,
        double shortBy,
        string message,
        Point2 a,
        Point2 b
    ) =>
        new()
        {
            [what] = index,
            ["other"] = other,
            ["amountMm"] = Math.Round(shortBy, 3),
            ["message"] = message,
            ["a"] = LayoutJson.Point(a),
            ["b"] = LayoutJson.Point(b),
        };

    private static string No(int index) => (index + 1).ToString(CultureInfo.InvariantCulture);
}
