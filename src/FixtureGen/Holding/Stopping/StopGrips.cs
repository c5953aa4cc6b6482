using FixtureGen.Holding.Sliding;
using FixtureGen.Model;

namespace FixtureGen.Holding.Stopping;

/// <summary>Stops as seen from one contact: places from its middle in its own scale, and what each takes to give way.</summary>
internal sealed class StopGrips
{
    private readonly (Point2 At, Point2 Normal, StopKind Kind, double Strength)[] _stops;

    public StopGrips(IEnumerable<ShellStop> stops, FrictionNodes contact)
    {
        _stops = [.. stops.Select(s => ((s.At - contact.Middle) * (1 / contact.Scale), s.Normal, s.Kind, s.StrengthN))];
        Hinges = [.. _stops.Where(s => s.Normal == default).Select(s => new Twist(s.At.Y, -s.At.X, 1))];
    }

    /// <summary>Turning about each stop that holds every way: the power has a kink there, and its least value often lies on one.</summary>
    public Twist[] Hinges { get; }

    /// <summary>Power that the stops take at a twist, and its slope.</summary>
    public (double Value, Twist Slope) Power(Twist w)
    {
        double value = 0;
        Twist slope = default;
        foreach ((Point2 at, Point2 normal, StopKind kind, double strength) in _stops)
        {
            Point2 v = new(w.X - (w.Turn * at.Y), w.Y + (w.Turn * at.X));
            Point2 push = Against(v, normal, kind) * strength;
            value += push.Dot(v);
            slope += new Twist(push.X, push.Y, at.Cross(push));
        }
        return (value, slope);
    }

    /// <summary>The unit direction, or none, in which a stop's point pushes against a velocity.</summary>
    private static Point2 Against(Point2 v, Point2 normal, StopKind kind)
    {
        if (normal == default)
        {
            double speed = v.Length;
            return speed > 0 ? v * (1 / speed) : default;
        }
        double across = v.Dot(normal);
        return kind == StopKind.Slot ? normal * Math.Sign(across)
            : across < 0 ? normal * -1
            : default;
    }
}
