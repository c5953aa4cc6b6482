using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Chaining;

/// <summary>One curve of the drawing as lines and arcs, blocks unfolded, seen from above. A closed one ends bit for bit where it starts.</summary>
/// <param name="Path">Its segments, mm (drawing units while no unit is known).</param>
/// <param name="Entity">The DXF type it was drawn as.</param>
/// <param name="Line">Where that entity starts in the file: line of a text drawing, byte of a binary one.</param>
/// <param name="Look">Colour, line type and whether it is shown.</param>
public sealed record DrawnCurve(OpenPath Path, bool Closed, string Layer, string Entity, int Line, CurveLook Look);

/// <summary>A closed loop, counter-clockwise.</summary>
/// <param name="AreaMm2">Its own area, holes not taken off.</param>
/// <param name="Depth">How many loops lie round it; 0 is outermost.</param>
/// <param name="Layer">The layer it was drawn on; of several, the first by name.</param>
/// <param name="Crossings">Where it crosses or touches itself; a clean loop has none.</param>
public sealed record DrawnLoop(
    Contour Contour,
    string Layer,
    int Depth,
    double AreaMm2,
    double PerimeterMm,
    Box2 Bounds,
    ImmutableArray<Point2> Crossings
)
{
    /// <summary>True where the loop neither crosses nor touches itself.</summary>
    public bool Clean => Crossings.IsEmpty;
}

/// <summary>A chain that does not close. GapMm is from end to end, or to the nearest other end where that is nearer.</summary>
public sealed record OpenChain(OpenPath Path, string Layer, double LengthMm, double GapMm);

/// <summary>Something put right while reading, how often, and in words.</summary>
public sealed record Repair(string Code, string Message, int Count);

/// <summary>A TEXT or MTEXT: what it says, where its first baseline starts, letter height in mm.</summary>
/// <param name="FromLeft">False where the drawing centres it on At or ends it there.</param>
/// <param name="Look">Colour and whether it is shown.</param>
public sealed record DrawnText(
    string Text,
    Point2 At,
    double Height,
    double AngleDeg,
    string Layer,
    bool FromLeft,
    CurveLook Look
);

/// <summary>A POINT.</summary>
public sealed record DrawnPoint(Point2 At, string Layer, CurveLook Look);

/// <summary>
/// What a DXF drawing shows, in mm once a unit is known, else in drawing units. Loops are chained over all layers, largest
/// area first; Curves keep what each entity drew, so that roles can chain their own layers.
/// </summary>
public sealed record DrawingContent
{
    /// <summary>The file's name.</summary>
    public required string File { get; init; }

    /// <summary>What it was read with, and its roles are chained with.</summary>
    public required Tolerances Tolerances { get; init; }

    /// <summary>$ACADVER, such as AC1015, or SVG; null where the drawing does not say.</summary>
    public required string? Version { get; init; }

    /// <summary>From the job or the drawing; null where neither says.</summary>
    public required LengthUnit? Unit { get; init; }

    /// <summary>One drawing unit in mm if it is a pixel, 96 to the inch; null for a drawing in no pixels.</summary>
    public required double? PixelMm { get; init; }

    /// <summary>True where the unit was given from outside and not taken from the drawing.</summary>
    public required bool UnitFromJob { get; init; }

    /// <summary>Model-space entities by type.</summary>
    public required ImmutableSortedDictionary<string, int> Entities { get; init; }

    /// <summary>Paper-space entities by type; nothing is read from there.</summary>
    public required ImmutableSortedDictionary<string, int> Paper { get; init; }

    /// <summary>What each entity drew.</summary>
    public required ImmutableArray<DrawnCurve> Curves { get; init; }

    /// <summary>Closed, largest area first.</summary>
    public required ImmutableArray<DrawnLoop> Loops { get; init; }

    /// <summary>Chains that do not close.</summary>
    public required ImmutableArray<OpenChain> Open { get; init; }

    /// <summary>What was put right while reading.</summary>
    public required ImmutableArray<Repair> Repairs { get; init; }

    /// <summary>TEXT and MTEXT.</summary>
    public required ImmutableArray<DrawnText> Texts { get; init; }

    /// <summary>POINT entities.</summary>
    public required ImmutableArray<DrawnPoint> Points { get; init; }

    /// <summary>The box round all curves; null without any.</summary>
    public Box2? CurveBounds =>
        Curves.IsEmpty ? null : Curves.Select(c => LoopMath.Bounds(c.Path.Segments)).Aggregate(LoopMath.Around);

    /// <summary>The outermost clean loops' common box, mm; null without one.</summary>
    public Box2? Extent =>
        Loops
            .Where(l => l.Clean && l.Depth == 0)
            .Select(l => (Box2?)l.Bounds)
            .Aggregate((Box2?)null, (a, b) => a is { } x && b is { } y ? LoopMath.Around(x, y) : a ?? b);
}
