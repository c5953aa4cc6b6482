namespace FixtureGen.Model;

/// <summary>
/// Inside: millimetres, seconds, newtons, kilopascals, radians. A name carries its unit last where it is another
/// (FeedMmPerMin, SpindleRpm, AngleDeg). Inches exist only at the edges, by this factor.
/// </summary>
public static class Units
{
    public const double MmPerInch = 25.4;

    /// <summary>One inch of mercury at 0 C in kPa (exact definition).</summary>
    public const double KPaPerInHg = 3.386389;
}

/// <summary>A length unit a drawing or a shop file may state.</summary>
public enum LengthUnit
{
    Inch,
    Foot,
    Yard,
    Mil,
    Micrometre,
    Millimetre,
    Centimetre,
    Decimetre,
    Metre,
}
