using FixtureGen.Model;

namespace FixtureGen.Verify.Facts;

/// <summary>
/// How far what is cut may be off what the shop's files say, mm, for each fit its own. What a file states is taken from it; the rest
/// has its source here and is not a job's to loosen.
/// </summary>
internal static class Fits
{
    /// <summary>Digits of a control: a tenth of a thousandth of an inch.</summary>
    public const double Rounding = 0.003;

    /// <summary>A mill's positions, between holes of one setup (common practice, no source).</summary>
    public const double Place = 0.02;

    /// <summary>A line of the drawing in its place: placing it is arithmetic alone.</summary>
    public const double Drawing = 0.001;

    /// <summary>A wall that nothing fits in: relief, net, way out (ISO 2768-1, class f, 3 to 6 mm).</summary>
    public const double FreeWall = 0.05;

    /// <summary>
    /// A drill's diameter beside the hole's drawn one: the job's promise. Jobbers' drills stand 0.1 mm apart to 10 mm (ISO 235) and numbers
    /// and letters no more than 0.4 mm (ASME B94.11M), a drilled hole comes out some hundredths over its drill.
    /// </summary>
    public const double DrilledHole = 0.1;

    /// <summary>A floor that nothing lies on (ISO 2768-1, class m, 3 to 6 mm).</summary>
    public const double FreeFloor = 0.1;

    /// <summary>A floor that sets a height: tool length and deflection (face-seal groove depths are held to 0.05 to 0.13, O-ring handbook ORD 5700, chart 4-3).</summary>
    public const double SetFloor = 0.05;

    /// <summary>Width of a cord's groove: half of the span of the face-seal chart's widths for vacuum, 0.005 in (ORD 5700, chart 4-3).</summary>
    public const double GrooveWidth = 0.06;

    /// <summary>A cord's bend on a groove's inner wall, of the radius (common practice, no source).</summary>
    public const double Bend = 0.05;

    /// <summary>Length of cord (common practice, no source).</summary>
    public const double CordLength = 0.5;

    /// <summary>Air round a washer and over a head beyond what the screw's file asks (common practice, no source).</summary>
    public const double HeadAir = 1;

    /// <summary>A pressed pin holds by a diameter of its length (common practice, no source).</summary>
    public const double PressedDiameters = 1;

    /// <summary>Feed holes and channels, least and usual width (handbooks of workholding: an eighth to a quarter inch; common practice, no source).</summary>
    public const double LeastPort = 3.175;

    public const double UsualPort = 6.35;

    /// <summary>A bore's width H7, which a press or a slip fit is made in: IT7 of ISO 286-1 (3 to 6: 0.012, to 10: 0.015, to 18: 0.018, to 30: 0.021).</summary>
    public static double H7(double diameter) =>
        diameter <= 6 ? 0.012
        : diameter <= 10 ? 0.015
        : diameter <= 18 ? 0.018
        : 0.021;

    /// <summary>A clearance hole's width H13, normal (ISO 273): IT13 of ISO 286-1 (3 to 6: 0.18, to 10: 0.22, to 18: 0.27).</summary>
    public static double H13(double diameter) =>
        diameter <= 6 ? 0.18
        : diameter <= 10 ? 0.22
        : 0.27;

    /// <summary>A cord's groove is as deep as its file says, within what the file says.</summary>
    public static double GrooveDepth(Gasket gasket) =>
        gasket.GrooveDepthTolerance > 0 ? gasket.GrooveDepthTolerance : SetFloor;

    /// <summary>Half of the room that a disc has for glue: less would let it bind, more would let it lean.</summary>
    public static double MagnetPocket(Job job) => Math.Max(job.Rules.MagnetPocketClearance / 2, Rounding);

    /// <summary>How far a bolt hole may be off its thread and the bolt still start: half of its play on the radius.</summary>
    public static double BoltPlace(Screw screw) => Math.Max((screw.ClearanceHole - screw.Body) / 4, Place);

    /// <summary>How far a floor of this kind may stand above the design and still do what it is for.</summary>
    public static double Floor(Job job, FeatureKind kind) =>
        kind switch
        {
            FeatureKind.GasketGroove => GrooveDepth(job.Gasket),
            FeatureKind.MagnetPocket or FeatureKind.FormPocket or FeatureKind.Skim or FeatureKind.Plug => SetFloor,
            FeatureKind.Relief
            or FeatureKind.CutoutRelief
            or FeatureKind.PlugVent
            or FeatureKind.Net
            or FeatureKind.Channel
            or FeatureKind.MagnetNotch
            or FeatureKind.BoltHole
            or FeatureKind.Counterbore
            or FeatureKind.PinHole
            or FeatureKind.PinSlot
            or FeatureKind.LocatorHole
            or FeatureKind.Port
            or FeatureKind.Label
            or FeatureKind.Mark => FreeFloor,
        };
}
