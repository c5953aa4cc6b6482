using FixtureGen.Model;

namespace FixtureGen.Design.Block;

/// <summary>
/// How long the block's bolts may be, mm. A screw goes through washer and block, past the plate's relief, and at least its own
/// diameter deep into the thread (machine design handbooks; common practice in steel, 1.5 in cast iron, 2 in aluminium where the
/// thread is to outlast the screw: at the torque of a plastic block one diameter bears several times the pull). Its tip stays
/// a pitch short of the plate's underside (common practice, no source).
/// </summary>
/// <param name="Shortest">Under the head, mm.</param>
/// <param name="Longest">Under the head, mm; less than Shortest where the plate's thread is too short.</param>
/// <param name="Turns">Whole turns by which the shortest screw holds in the thread.</param>
public sealed record ScrewReach(double Shortest, double Longest, int Turns)
{
    /// <summary>A turn that is short of whole by less is whole.</summary>
    private const double Rounding = 1e-6;

    /// <summary>Of a design's own bolts; null where it has none.</summary>
    public static ScrewReach? For(FixtureDesign design, Job job)
    {
        PlateOpening[] bolts =
        [
            .. design
                .Features.OfType<HoleFeature>()
                .Where(h => h.Kind == FeatureKind.BoltHole)
                .Select(h => h.Opening)
                .OfType<PlateOpening>(),
        ];
        double[] seats =
        [
            .. design
                .Features.OfType<HoleFeature>()
                .Where(h => h.Kind == FeatureKind.Counterbore)
                .Select(h => h.FloorZ),
        ];
        return bolts.Length == 0 || seats.Length == 0 ? null : For(job, bolts, seats.Max());
    }

    /// <summary>One size for all bolts, whose heads sit on washers at height <paramref name="seat"/> above the plate's face, mm.</summary>
    internal static ScrewReach For(Job job, IReadOnlyCollection<PlateOpening> bolts, double seat)
    {
        Screw screw = job.Bolt;
        double grip = seat + screw.WasherThickness;
        return new ScrewReach(
            grip + bolts.Max(b => b.ReliefDepth) + screw.Body,
            grip + job.Plate.Thickness - screw.Pitch,
            (int)Math.Floor((screw.Body / screw.Pitch) + Rounding)
        );
    }
}
