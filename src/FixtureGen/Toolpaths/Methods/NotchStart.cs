using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Toolpaths.Moves;

namespace FixtureGen.Toolpaths.Methods;

/// <summary>A magnet's notch begins in its pocket, which is cut before: how far along it a tool is still in the open there.</summary>
internal static class NotchStart
{
    private const double Step = 0.05;

    /// <summary>
    /// Arc length, mm, from the run's start over which the tool keeps more than a clearance (mm) from the pocket's wall; null
    /// where the run does not begin so.
    /// </summary>
    public static double? InTheOpen(OpenPath run, GrooveFeature groove, Tool tool, Frame frame, double clearance)
    {
        if (groove.Kind != FeatureKind.MagnetNotch)
        {
            return null;
        }
        bool IsClear(Point2 at, Region pocket) =>
            Inside.Contains(pocket, at) && Measure.Distance(at, pocket) > tool.Radius + clearance;
        Region? pocket = frame
            .Features.OfType<PocketFeature>()
            .Where(p => p.Kind == FeatureKind.MagnetPocket && p.FloorZ <= groove.FloorZ + 1e-6)
            .SelectMany(p => p.Area)
            .FirstOrDefault(a => IsClear(run.Start, a));
        if (pocket is null)
        {
            return null;
        }
        double length = Measure.Length(run);
        double open = 0;
        while (open + Step < length && IsClear(Along.Open(run.Segments, open + Step, length).First().Start, pocket))
        {
            open += Step;
        }
        return open;
    }
}
