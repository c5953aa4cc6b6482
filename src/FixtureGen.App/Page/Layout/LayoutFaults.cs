using System.Collections.Immutable;
using System.Globalization;
using FixtureGen.Design.Vacuum;
using FixtureGen.Geometry;
using FixtureGen.Holding.Magnets;
using FixtureGen.Model;
using FixtureGen.Solve;

namespace FixtureGen.App.Page.Layout;

/// <summary>Every clearance that a layout does not keep, with the amount and the two points between which it is missing.</summary>
internal static class LayoutFaults
{
    public static Violation[] Find(FixtureDesign begun, ImmutableArray<MagnetPlace> magnets, Job job, PairOnBlock pair)
    {
        Point2[] at = [.. magnets.Select(m => m.At)];
        return
        [
            .. new MagnetClearances(begun, job, pair).Find(at).Select(lack => Magnet(lack, at[lack.Magnet], job)),
            .. PortClearances.Find(begun, job, Tolerances.House).Select(f => Port(f, begun, job)),
        ];
    }

    private static Violation Magnet(ClearanceLack lack, Point2 at, Job job)
    {
        string other = lack.Neighbour is int n ? $"magnet {No(n)}" : lack.Against;
        return new()
        {
            Magnet = lack.Magnet,
            Other = other,
            AmountMm = Math.Round(lack.ShortBy, 3),
            Message = $"Magnet {No(lack.Magnet)} is {LayoutFacts.Amount(lack.ShortBy, job)} too near {other}.",
            A = LayoutFacts.Point(at),
            B = LayoutFacts.Point(lack.At),
        };
    }

    private static Violation Port(PortFault f, FixtureDesign begun, Job job) =>
        new()
        {
            Port = f.Port,
            Other = f.Against,
            AmountMm = Math.Round(f.ShortBy, 3),
            Message =
                f.ShortBy > 0
                    ? $"Port {No(f.Port)} is {LayoutFacts.Amount(f.ShortBy, job)} too near {f.Against}."
                    : $"Port {No(f.Port)} is one too many beside {f.Against}.",
            A = LayoutFacts.Point(Transform.Apply(begun.Placement.Pose, job.Ports[f.Port])),
            B = LayoutFacts.Point(f.Nearest),
        };

    private static string No(int index) => (index + 1).ToString(CultureInfo.InvariantCulture);
}
