namespace FixtureGen.Model;

/// <summary>What the top of a form is like.</summary>
public enum FormTop
{
    /// <summary>Flat, inside a wall that stands at the form's draft.</summary>
    Flat,

    /// <summary>A spherical cap over a round edge: no wall, the height above the flange at its middle.</summary>
    Cap,
}

/// <summary>Whether something in the block carries a form from below.</summary>
public enum PlugWish
{
    /// <summary>Where the shell alone does not bear the vacuum, or bends where its top is cut.</summary>
    Auto,

    /// <summary>In any case.</summary>
    Always,

    /// <summary>Not at all: a form that does not bear the vacuum is refused.</summary>
    Never,
}

/// <summary>
/// What a form of the shell that lies in the seal bears of the pump's full vacuum: the thinnest shell, the softest of its material's
/// range (which says half of the short-term modulus, for creep).
/// </summary>
public sealed record FormBearing
{
    /// <summary>The least margin that stands without a plug (common practice, no source).</summary>
    public const double LeastMargin = 2;

    /// <summary>Of the part's forms, from 0.</summary>
    public required int Form { get; init; }

    /// <summary>What the vacuum pulls on: the area inside its edge, mm2.</summary>
    public required double ProjectedMm2 { get; init; }

    /// <summary>Above the flange, mm.</summary>
    public required double HeightMm { get; init; }

    /// <summary>The thinnest of its wall, as stated or as the drawing of the sheet leaves it, mm.</summary>
    public required double ThicknessMm { get; init; }

    /// <summary>The pressure at which it buckles, snaps through or first yields over what the pump can reach, at most 999.</summary>
    public required double BucklingMargin { get; init; }

    /// <summary>How far its flat top sinks in the middle, mm, by the linear theory of thin plates; 0 for a cap or a point.</summary>
    public required double TopSagMm { get; init; }

    /// <summary>Greatest bending stress of flat top and flat walls, N/mm2; 0 for round ones.</summary>
    public required double StressMPa { get; init; }

    /// <summary>True where it stands without a plug.</summary>
    public bool StandsAlone => BucklingMargin >= LeastMargin && StressMPa <= SheetStrength.MostBendingMPa;
}
