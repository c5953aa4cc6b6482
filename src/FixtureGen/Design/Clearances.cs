using FixtureGen.Design.Block;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design;

/// <summary>
/// Whether the part's relief fits on the block: inside its edges by the outer margin and the placing tolerance, and clear
/// of bolts and pins by a wall.
/// </summary>
internal static class Clearances
{
    public static Stage<bool> Check(
        IReadOnlyList<Region> around,
        IReadOnlyList<Obstacle> obstacles,
        Box2 block,
        Job job
    )
    {
        List<Finding> findings = [];
        Box2 box = Measure.Bounds(around[0].Outer);
        Box2 room = block.Outset(-BlankSeat.EdgeMargin(job));
        double over = new[]
        {
            room.MinX - box.MinX,
            box.MaxX - room.MaxX,
            room.MinY - box.MinY,
            box.MaxY - room.MaxY,
        }.Max();
        if (over > 1e-6)
        {
            findings.Add(PlaceFindings.ReliefOverEdge(over, BlankSeat.EdgeMargin(job)));
        }
        Contour outer = around[0].Outer;
        foreach (Obstacle o in obstacles)
        {
            double distance = Measure.Distance(o.At, outer);
            double needed = o.Radius + job.Rules.Wall;
            double shortBy = Inside.Contains(outer, o.At) ? needed + distance : needed - distance;
            if (shortBy > 1e-6)
            {
                findings.Add(PlaceFindings.ObstacleUnderPart(o.Name, o.At, shortBy));
            }
        }
        return Stage.Answer(true, findings);
    }
}
