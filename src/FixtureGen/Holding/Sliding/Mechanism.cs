using System.Runtime.Intrinsics;

namespace FixtureGen.Holding.Sliding;

/// <summary>
/// One way in which a part may slide: a twist, with the speed of each piece of the contact. By the kinematic theorem of limit
/// analysis no part on this contact holds more than the friction works against along it, whatever presses; that is one pass
/// over the contact, where the true multiplier is a search for the worst twist.
/// </summary>
internal sealed class Mechanism(FrictionNodes contact, Twist twist)
{
    private readonly Vector256<double>[] _speeds = contact.Speeds(twist);

    /// <summary>True where a part on this contact slides this way under so many times the load, or before; false says nothing.</summary>
    public bool Breaks(HeldPart held, in CutLoad load, double factor)
    {
        double work = factor * held.Nodes.Work(load).Dot(twist);
        if (work <= 0)
        {
            return false;
        }
        Pressure p = new LoadedPressure(held, load).PressureAt(factor);
        return held.Nodes.Power(twist, _speeds, p.Force, p.Slope, p.Rescale, p.PointScale) <= work;
    }
}
