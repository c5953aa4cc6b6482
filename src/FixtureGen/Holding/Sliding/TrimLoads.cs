using FixtureGen.Cutting;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Holding.Sliding;

/// <summary>One cut's load on the part: its peak force, its share while the machine stops, and which seal state it is cut under.</summary>
internal sealed record TrimWork(string Name, CutForce Force, double StopShare, int Seal, bool IsOutline = false)
{
    /// <summary>A mark or a drilled hole: its force does not go with the trim's passes and feed.</summary>
    public bool HasOwnFeed { get; init; }
}

/// <summary>One step along a cut, mm from the cut's start in the order of cutting; Travel is the unit direction.</summary>
internal readonly record struct TrimStep(int Work, double Along, Point2 At, Point2 Travel);

/// <summary>Every step of the trim with its load, in the order of cutting. Height is the load's height over the block, mm.</summary>
internal sealed class TrimLoads(TrimWork[] works, TrimStep[] steps, double height)
{
    /// <summary>
    /// Edge positions to begin with, radians from the direction of travel: the chip is thickest at 0 and the force turns with
    /// the edge, so a thinner chip may push in a worse direction.
    /// </summary>
    public static ReadOnlySpan<double> EdgeAngles => [0, -0.5, 0.5];

    /// <summary>Farther round the chip is too thin to matter.</summary>
    private const double Widest = 1.2;

    /// <summary>Full nominal load over the full load: the middle of the force range on the nominal thickness.</summary>
    public double NominalShare { get; init; } = 1;

    public TrimWork[] Works => works;

    public TrimStep[] Steps => steps;

    /// <summary>The same trim on some of its steps.</summary>
    public TrimLoads Take(IEnumerable<int> some) => new(works, [.. some.Select(i => steps[i])], height);

    /// <summary>Full cutting load of a step with the edge at one of <see cref="EdgeAngles"/>.</summary>
    public CutLoad Load(int step, double angle)
    {
        TrimStep s = steps[step];
        CutForce force = works[s.Work].Force;
        return new CutLoad(s.At, force.On(s.Travel, angle), force.Axial * Math.Cos(angle), height);
    }

    /// <summary>
    /// The edge position that is worst for a part starting to slide with a twist: where the load's work against it, and the
    /// friction that its lift takes away, are largest. <paramref name="solvedAt"/> is the position the answer was found at.
    /// </summary>
    public double WorstAngle(int step, FrictionNodes nodes, in LimitAnswer answer, double solvedAt)
    {
        TrimStep s = steps[step];
        CutForce force = works[s.Work].Force;
        Point2 arm = (s.At - nodes.Middle) * (1 / nodes.Scale);
        Twist w = answer.Twist;
        Point2 v = new(w.X - (w.Turn * arm.Y), w.Y + (w.Turn * arm.X));
        double along = v.Dot(s.Travel);
        double left = v.Dot(s.Travel.Left);
        double sine = (force.Tangential * along) + (force.Radial * left);
        double cosine = (force.Radial * along) - (force.Tangential * left);
        double lifted = -answer.PerLoad / Math.Cos(solvedAt);
        double angle = Math.Clamp(Math.Atan2(sine, cosine) / 2, -Widest, Widest);
        for (int i = 0; i < 3; i++)
        {
            (double sin, double cos) = Math.SinCos(angle);
            double slope = (sine * ((cos * cos) - (sin * sin))) - (2 * cosine * sin * cos) - (lifted * sin);
            double bend = (-4 * sine * sin * cos) - (2 * cosine * ((cos * cos) - (sin * sin))) - (lifted * cos);
            angle = bend < 0 ? Math.Clamp(angle - (slope / bend), -Widest, Widest) : angle;
        }
        return angle;
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
