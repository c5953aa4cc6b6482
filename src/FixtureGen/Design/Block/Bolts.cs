using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Design.Block;

/// <summary>
/// The block's bolt holes, straight over the plate's threads: a clearance hole through the block and a counterbore that
/// takes washer, head and some air, so that nothing stands above the face where jackets, shell or holder pass.
/// </summary>
internal static class Bolts
{
    /// <summary>Air round the washer and over the head, mm (common practice, no source).</summary>
    private const double Air = 0.5;

    public static IEnumerable<PlateOpening> Within(Plate plate, Box2 block) =>
        plate.Bolts.Where(b => block.Contains(b.At));

    public static double CounterboreDiameter(Screw screw) =>
        Math.Max(screw.Counterbore, Math.Max(screw.HeadDiameter, screw.WasherDiameter) + (2 * Air));

    public static double CounterboreDepth(Screw screw) => screw.WasherThickness + screw.HeadHeight + Air;

    public static Stage<ImmutableArray<Feature>> Bore(Job job, Box2 block, Levels levels)
    {
        List<Finding> findings = [];
        double seat = levels.Face - CounterboreDepth(job.Bolt);
        ImmutableArray<PlateOpening> bolts = [.. Within(job.Plate, block)];
        if (bolts.Length < 2)
        {
            string remedy = BlankRemedy.Find(job, other => Within(job.Plate, other).Skip(1).Any());
            findings.Add(BlockFindings.TooFewBolts(job.Plate.Name, bolts.Length, remedy));
        }
        if (seat < job.Rules.LeastFloor)
        {
            findings.Add(BlockFindings.FloorThin("bolt head", null, seat, job.Rules.LeastFloor));
        }
        if (bolts.Length > 0 && ScrewReach.For(job, bolts, seat) is var reach && reach.Shortest > reach.Longest)
        {
            double relief = bolts.Max(b => b.ReliefDepth);
            findings.Add(BlockFindings.ScrewThreadShort(job.Plate, job.Bolt, relief, reach.Shortest - reach.Longest));
        }
        if (bolts.Length > 0 && job.BlockMaterial.SustainedMPa is { } bears && job.Bolt.WasherMPa > bears)
        {
            findings.Add(BlockFindings.WasherPresses(job.Bolt, job.BlockMaterial, bears));
        }
        double edge = (CounterboreDiameter(job.Bolt) / 2) + job.Plate.PlacingTolerance;
        foreach (PlateOpening bolt in bolts)
        {
            findings.AddRange(PlateSeal.Check(job.Plate, bolt.Name, bolt.At, job.Bolt.ClearanceHole / 2));
            findings.AddRange(BreakThrough.Check(bolt, job.Bolt.ClearanceHole, 0));
            if (!block.Outset(-edge).Contains(bolt.At))
            {
                findings.Add(BlockFindings.HoleOverEdge(bolt.Name, bolt.At, edge));
            }
        }
        ImmutableArray<Feature> features = [.. bolts.SelectMany(b => Holes(job, b, levels, seat))];
        return Stage.Answer(features, findings);
    }

    private static IEnumerable<Feature> Holes(Job job, PlateOpening bolt, Levels levels, double seat)
    {
        double bore = CounterboreDiameter(job.Bolt);
        yield return RoundHole.Make(
            $"counterbore {bolt.Name}",
            FeatureKind.Counterbore,
            Setup.Top,
            bolt.At,
            bore,
            levels.Face,
            seat,
            opening: bolt
        );
        bool through = BreakThrough.Allowed(bolt, job.Bolt.ClearanceHole, 0);
        yield return RoundHole.Make(
            $"bolt hole {bolt.Name}",
            FeatureKind.BoltHole,
            through ? Setup.Top : Setup.Underside,
            bolt.At,
            job.Bolt.ClearanceHole,
            seat,
            0,
            breaksThrough: through,
            opening: bolt
        );
    }
}
