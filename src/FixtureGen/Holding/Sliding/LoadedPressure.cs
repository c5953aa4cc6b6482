using FixtureGen.Model;

namespace FixtureGen.Holding.Sliding;

/// <summary>
/// Pressure at one factor: the plane Force + Slope.x (per the nodes' Scale) times Rescale, never below 0, and what is left of
/// the points' forces as PointScale. Everywhere: above 0 all over the contact.
/// </summary>
internal readonly record struct Pressure(
    double Force,
    Point2 Slope,
    double Rescale,
    double PointScale,
    bool Everywhere
);

/// <summary>
/// A held part's pressure as a load grows: the load's lift and overturning add a plane to it, and what would pull is left
/// out with the rest scaled to the same force. Once the whole force is gone the points carry the rest.
/// </summary>
internal readonly struct LoadedPressure
{
    private readonly HeldPart _held;
    private readonly Point2 _slope;

    public LoadedPressure(HeldPart held, in CutLoad load)
    {
        _held = held;
        PerForce = -load.Lift;
        Point2 moved = (load.Height * load.Shear) - (load.Lift * (load.At - held.Contact.Middle));
        _slope = held.Contact.SlopeFor(held.Moment) * held.Nodes.Scale;
        PerSlope = held.Contact.SlopeFor(moved) * held.Nodes.Scale;
    }

    /// <summary>Change of the force per unit of factor.</summary>
    public double PerForce { get; }

    /// <summary>Change of the slope per unit of factor, per Scale.</summary>
    public Point2 PerSlope { get; }

    public Pressure PressureAt(double factor)
    {
        double force = _held.Pressed + (factor * PerForce);
        if (force <= 0)
        {
            double points = _held.Total - _held.Pressed;
            return new Pressure(0, default, 1, points > 0 ? Math.Max(0, points + force) / points : 0, false);
        }
        Point2 tilted = _slope + (factor * PerSlope);
        if (_held.Nodes.PressesEverywhere(force, tilted))
        {
            return new Pressure(force, tilted, 1, 1, true);
        }
        double carried = _held.Nodes.PositivePart(force, tilted, _held.Friction);
        return new Pressure(force, tilted, carried > 0 ? force / carried : 0, 1, false);
    }
}
