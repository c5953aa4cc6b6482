using FixtureGen.Model;

namespace FixtureGen.Verify.Holding;

/// <summary>
/// The bed's pressure under one multiple of a load: patch i carries Share times max(0, Force + Slope . place) times Rescale; PerForce
/// and PerSlope are its growth with the multiple. GripShare is what is left of the grips' own pressing.
/// </summary>
internal readonly record struct Pressed(
    double Force,
    Point2 Slope,
    double Rescale,
    double PerForce,
    Point2 PerSlope,
    double GripShare
);

/// <summary>How a load changes the pressure: its lift takes from the bed first, then from the grips; its overturning tilts the plane.</summary>
internal readonly struct Pressure
{
    private readonly Held _held;
    private readonly Point2 _slope;
    private readonly double _perForce;
    private readonly Point2 _perSlope;

    public Pressure(Held held, in Load load)
    {
        _held = held;
        _slope = held.Bed.SlopeFor(held.Moment);
        _perForce = -load.Lift;
        _perSlope = held.Bed.SlopeFor((load.Height * load.Shear) - (load.Lift * (load.At - held.Bed.Middle)));
    }

    public Pressed PressedAt(double factor)
    {
        double force = _held.Force + (factor * _perForce);
        if (force <= 0)
        {
            double grips = _held.Total - _held.Force;
            return new Pressed(0, default, 0, 0, default, grips > 0 ? Math.Max(0, (grips + force) / grips) : 0);
        }
        Point2 slope = _slope + (factor * _perSlope);
        bool everywhere = slope.Length * _held.Bed.Reach <= force;
        double rescale = everywhere ? 1 : force / BedPower.Carried(_held.Bed, force, slope);
        return new Pressed(force, slope, rescale, _perForce, _perSlope, 1);
    }
}
