using System.Collections.Immutable;
using FixtureGen.Design.Block;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Vacuum;

/// <summary>One of the job's ports that cannot be where it is asked for: its index, what it lacks (mm) and against what.</summary>
public sealed record PortFault(int Port, double ShortBy, string Against, Point2 Nearest);

/// <summary>The same rules that bore ports, asked about the ports of the job one by one. Plate frame, mm.</summary>
public static class PortClearances
{
    /// <summary>Every port of the job that the design could not honour, in the job's order; empty where all are.</summary>
    public static ImmutableArray<PortFault> Find(FixtureDesign begun, Job job, Tolerances tolerances)
    {
        Kernel kernel = new(tolerances);
        Region[] boundaries = [.. begun.Zones.Select(z => z.Boundary)];
        Point2[] asked = [.. job.Ports.Select(p => Transform.Apply(begun.Placement.Pose, p))];
        Obstacle[] obstacles = [.. Obstacles.Find(job, begun.Placement.BlankBox)];
        ImmutableArray<PortFault>.Builder faults = ImmutableArray.CreateBuilder<PortFault>();
        Dictionary<int, Point2> taken = [];
        for (int i = 0; i < asked.Length; i++)
        {
            int zone = Array.FindIndex(boundaries, b => Inside.Contains(b, asked[i]));
            PortLack? lack;
            if (zone < 0)
            {
                lack = WishedPort.Outside(asked[i], boundaries, job);
            }
            else if (taken.TryGetValue(zone, out Point2 first))
            {
                lack = new PortLack(0, "the port before it: a zone is fed by one", first);
            }
            else
            {
                taken[zone] = asked[i];
                lack = WishedPort.Feed(asked[i], boundaries[zone], zone, obstacles, Levels.From(job), job, kernel).Lack;
            }
            if (lack is not null)
            {
                faults.Add(new PortFault(i, lack.ShortBy, lack.Against, lack.Nearest));
            }
        }
        return faults.ToImmutable();
    }
}
