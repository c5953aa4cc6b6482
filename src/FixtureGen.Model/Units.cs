namespace FixtureGen.Model;

/// <summary>
/// Inside: millimetres, seconds, newtons, kilopascals, radians. A name carries its unit last where it is another
/// (FeedMmPerMin, SpindleRpm, AngleDeg). Inches exist only at the edges, by this factor.
/// </summary>
public static class Units
{
    /// <summary>Millimetres in an inch, exact by definition.</summary>
    public const double MmPerInch = 25.4;

    /// <summary>One inch of mercury at 0 C in kPa (exact definition).</summary>
    public const double KPaPerInHg = 3.386389;
}

/// <summary>A length unit a drawing or a shop file may state.</summary>
public enum LengthUnit
{
    /// <summary>25.4 mm.</summary>
    Inch,

    /// <summary>12 in, 304.8 mm.</summary>
    Foot,

    /// <summary>36 in, 914.4 mm.</summary>
    Yard,

    /// <summary>A thousandth of an inch, 0.0254 mm.</summary>
    Mil,

    /// <summary>0.001 mm.</summary>
    Micrometre,

    /// <summary>The unit of everything inside.</summary>
    Millimetre,

    /// <summary>10 mm.</summary>
    Centimetre,

    /// <summary>100 mm.</summary>
    Decimetre,

    /// <summary>1000 mm.</summary>
    Metre,

    /// <summary>A 96th of an inch (CSS Values 3, 5.2).</summary>
    Pixel,
}
