using System.Collections.Immutable;

namespace FixtureGen.Model;

/// <summary>A form (dome or cup) of the shell, part or plate frame. Edge is on the underside, where wall and flange meet.</summary>
public sealed record FormRegion(Contour Edge, FormDirection Direction, double Height, double DraftDeg)
{
    /// <summary>What its top is like.</summary>
    public FormTop Top { get; init; }

    /// <summary>Whether the block shall carry it.</summary>
    public PlugWish Plug { get; init; }

    /// <summary>True where the block has a plug under it; never in the part frame.</summary>
    public bool Plugged { get; init; }

    /// <summary>The thinnest of its wall as the job states it, mm; null: what the drawing of the sheet leaves is estimated.</summary>
    public double? ThicknessMin { get; init; }
}

/// <summary>Text or strokes to engrave on the shell.</summary>
public sealed record EngraveMark(
    ImmutableArray<OpenPath> Strokes,
    string Text,
    Point2 At,
    double Height,
    double AngleDeg
);

/// <summary>
/// The finished part as the drawing says it, mm. Outer runs counter-clockwise, cutouts clockwise. The same record serves
/// in the part frame (read) and in the plate frame (placed); the variable's name says which.
/// </summary>
public sealed record Part(
    Contour Outer,
    ImmutableArray<Contour> Cutouts,
    ImmutableArray<FormRegion> Forms,
    ImmutableArray<Contour> KeepOuts,
    ImmutableArray<Point2> MagnetWishes,
    ImmutableArray<EngraveMark> Engravings
);

/// <summary>Where the part lies on which blank. BlankBox is the nominal raw blank in the plate frame.</summary>
public sealed record Placement(Pose Pose, Blank Blank, Box2 BlankBox);
