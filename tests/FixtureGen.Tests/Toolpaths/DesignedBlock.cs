using System.Collections.Immutable;
using FixtureGen.Design;
using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Toolpaths;

/// <summary>A part placed and designed, with up to four magnets at the corners of what room its first zone has.</summary>
internal static class DesignedBlock
{
    public static FixtureDesign Of(Part part, Job job)
    {
        Placement placement = Taken(Placing.Place(part, job, Tolerances.House));
        FixtureDesign begun = Taken(Designer.Begin(part, placement, job, Tolerances.House));
        return Taken(Designer.Finish(begun, Magnets(begun, job), job, Tolerances.House));
    }

    private static ImmutableArray<MagnetPlace> Magnets(FixtureDesign begun, Job job)
    {
        Kernel kernel = new(Tolerances.House);
        double keep = (job.Magnet.Diameter / 2) + job.Gasket.GrooveWidth + job.Rules.Wall + job.Rules.Land + 2;
        ImmutableArray<Region> room = kernel.Offset(begun.Zones[0].Boundary, -keep);
        if (room.IsEmpty)
        {
            return [];
        }
        Box2 b = Measure.Bounds(room);
        Point2[] corners = [new(b.MinX, b.MinY), new(b.MaxX, b.MinY), new(b.MaxX, b.MaxY), new(b.MinX, b.MaxY)];
        return
        [
            .. corners
                .Select(c => Measure.Closest(c, room[0]))
                .Where(p => p.DistanceTo(begun.Zones[0].PortAt) > 15)
                .DistinctBy(p => ((int)p.X, (int)p.Y))
                .Select(p => new MagnetPlace(p, false, false)),
        ];
    }

    private static T Taken<T>(Stage<T> stage)
    {
        Assert.True(stage.Ok, string.Join('\n', stage.Findings));
        return stage.Value!;
    }
}
