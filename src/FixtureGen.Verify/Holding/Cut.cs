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

/// <summary>One place of a program's cut.</summary>
internal readonly record struct Cut
{
    /// <summary>Number of the motion's event.</summary>
    public required int Motion { get; init; }

    public required Point2 At { get; init; }

    /// <summary>Direction of travel, radians.</summary>
    public required double AngleRad { get; init; }

    /// <summary>Peak tangential force with a dull cutter, N.</summary>
    public required double ForceN { get; init; }

    /// <summary>What is taken at once, mm.</summary>
    public required double DepthMm { get; init; }

    /// <summary>Whether the force goes with the depth: a helix cuts a narrow deep cut but piece by piece.</summary>
    public required bool ByDepth { get; init; }

    /// <summary>The thickest chip, mm.</summary>
    public required double ChipMm { get; init; }

    public required CutPattern Pattern { get; init; }

    /// <summary>What holds by then, as who asked has numbered it.</summary>
    public required int State { get; init; }
}
