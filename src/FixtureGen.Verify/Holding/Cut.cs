using FixtureGen.Model;

namespace FixtureGen.Verify.Holding;

/// <summary>In which way a cutter pushes on what it cuts.</summary>
internal enum CutKind
{
    /// <summary>Along its way: the force turns with the edge about the direction of travel.</summary>
    Sideways,

    /// <summary>Straight down: any way along the plane.</summary>
    Plunge,
}

/// <summary>All cuts that push alike but for place, direction and size: LiftShare is the lift over the tangential force; Height of the force over the contact, mm.</summary>
internal readonly record struct CutPattern(CutKind Kind, double LiftShare, double Height);

/// <summary>
/// One place of a program's cut. AngleRad is the direction of travel; ForceN the peak tangential force with a dull cutter, DepthMm what
/// it takes at once, ChipMm its thickest chip at that depth. Motion is the event's number; State tells what holds by then.
/// </summary>
internal readonly record struct Cut(
    int Motion,
    Point2 At,
    double AngleRad,
    double ForceN,
    double DepthMm,
    double ChipMm,
    CutPattern Pattern,
    int State
);
