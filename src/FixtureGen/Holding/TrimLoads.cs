using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Holding;

/// <summary>One cut's load on the part: its peak force, its share while the machine stops, and which seal state it is cut under.</summary>
internal sealed record TrimWork(string Name, CutForce Force, double StopShare, int Seal);

/// <summary>One step along a cut, mm from the cut's start in the order of cutting; Travel is the unit direction.</summary>
internal readonly record struct TrimStep(int Work, double Along, Point2 At, Point2 Travel);

/// <summary>Every step of the trim with its load, in the order of cutting. Height is the load's height over the block, mm.</summary>
internal sealed class TrimLoads(TrimWork[] works, TrimStep[] steps, double height)
{
    /// <summary>
    /// Edge positions tried at each step, radians from the direction of travel: the chip is thickest at 0 and the force
    /// turns with the edge, so a thinner chip may push in a worse direction.
    /// </summary>
    public static ReadOnlySpan<double> EdgeAngles => [0, -0.5, 0.5];

    /// <summary>The closer look that the worst steps get.</summary>
    public static ReadOnlySpan<double> FineAngles =>
        [-0.9, -0.75, -0.6, -0.4, -0.3, -0.2, -0.1, 0.1, 0.2, 0.3, 0.4, 0.6, 0.75, 0.9];

    public TrimWork[] Works => works;

    public TrimStep[] Steps => steps;

    /// <summary>Full cutting load of a step with the edge at one of <see cref="EdgeAngles"/>.</summary>
    public CutLoad Load(int step, double angle)
    {
        TrimStep s = steps[step];
        CutForce force = works[s.Work].Force;
        return new CutLoad(s.At, force.On(s.Travel, angle), force.Axial * Math.Cos(angle), height);
    }

    /// <summary>Steps of at most a length along a run of segments.</summary>
    public static void Walk(IEnumerable<Segment> run, double length, int work, ref double along, List<TrimStep> steps)
    {
        foreach (Segment segment in run)
        {
            int count = Math.Max(1, (int)Math.Ceiling(segment.Length / length));
            for (int i = 0; i < count; i++)
            {
                double t = (i + 0.5) / count;
                steps.Add(
                    new TrimStep(
                        work,
                        along + (t * segment.Length),
                        Measure.PointAt(segment, t),
                        Measure.TangentAt(segment, t)
                    )
                );
            }
            along += segment.Length;
        }
    }
}
