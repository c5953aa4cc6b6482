using System.Collections.Immutable;
using FixtureGen.Design.Block;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Seals;

/// <summary>A groove and a cord along every boundary of every zone.</summary>
internal static class GasketGrooves
{
    public sealed record Laid(ImmutableArray<GrooveFeature> Grooves, ImmutableArray<CordLoop> Cords);

    public static Laid Lay(IReadOnlyList<SealedZone> zones, Levels levels, Gasket gasket, Kernel kernel)
    {
        List<GrooveFeature> grooves = [];
        List<CordLoop> cords = [];
        foreach (SealedZone zone in zones)
        {
            int inner = 0;
            foreach (Contour loop in zone.Boundary.Contours)
            {
                bool isOuter = inner == 0;
                string name = isOuter
                    ? Names.Numbered("gasket", zone.Index + 1)
                    : Names.Numbered("gasket", zone.Index + 1, inner);
                inner++;
                grooves.Add(Groove(name, loop, levels, gasket, kernel));
                cords.Add(Cord(loop, zone, gasket, isOuter));
            }
        }
        return new([.. grooves], [.. cords]);
    }

    public static GrooveFeature Groove(string name, Contour loop, Levels levels, Gasket gasket, Kernel kernel)
    {
        double floor = levels.Face - gasket.GrooveDepth;
        ImmutableArray<Region> area = kernel.Stroke(loop, gasket.GrooveWidth);
        return new()
        {
            Name = name,
            Kind = FeatureKind.GasketGroove,
            Setup = Setup.Top,
            Loops = [loop],
            Runs = [],
            Width = gasket.GrooveWidth,
            TopZ = levels.Face,
            FloorZ = floor,
            Removals = [new(Setup.Top, FeatureKind.GasketGroove, name, area, levels.Face, floor)],
        };
    }

    /// <summary>Cut 1 to 2 % longer than the centre line and never stretched; the scarf goes on the longest straight.</summary>
    private static CordLoop Cord(Contour loop, SealedZone zone, Gasket gasket, bool isOuter)
    {
        double length = Measure.Length(loop);
        return new(
            loop,
            length,
            length * (1 + gasket.CutAllowanceRatio),
            Joint(loop, zone.PortAt),
            zone.Index,
            isOuter
        );
    }

    /// <summary>
    /// The middle of the longest straight; of two as long the one farther from the port. Without straights, the middle
    /// of the gentlest bend.
    /// </summary>
    private static Point2 Joint(Contour loop, Point2 port)
    {
        Segment best = loop
            .Segments.OrderByDescending(s => s.IsArc ? 0 : Math.Round(s.Length, 3))
            .ThenByDescending(s => Math.Round(s.Radius, 3))
            .ThenByDescending(s => Math.Round(Measure.PointAt(s, 0.5).DistanceTo(port), 3))
            .First();
        return Measure.PointAt(best, 0.5);
    }
}
