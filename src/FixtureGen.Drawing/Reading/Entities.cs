namespace FixtureGen.Drawing.Reading;

/// <summary>One entity as the file says it: drawing units, own axes, nothing transformed. Line is where it starts.</summary>
internal abstract record Entity(string Type, string Layer, int Line);

internal sealed record LineEntity(string Type, string Layer, int Line, Vec3 From, Vec3 To) : Entity(Type, Layer, Line);

/// <summary>Centre + U cos t + V sin t in the world, t from Start over Sweep radians (at most a full turn): ARC, CIRCLE and ELLIPSE.</summary>
internal sealed record TurnEntity(
    string Type,
    string Layer,
    int Line,
    Vec3 Centre,
    Vec3 U,
    Vec3 V,
    double Start,
    double Sweep
) : Entity(Type, Layer, Line);

internal readonly record struct Vertex(Vec3 At, double Bulge);

/// <summary>LWPOLYLINE and POLYLINE; vertices in the axes that Frame gives.</summary>
internal sealed record PolyEntity(
    string Type,
    string Layer,
    int Line,
    Affine3 Frame,
    List<Vertex> Vertices,
    bool Closed,
    bool Wide
) : Entity(Type, Layer, Line);

internal sealed record SplineEntity(
    string Type,
    string Layer,
    int Line,
    int Degree,
    double[] Knots,
    Vec3[] Points,
    double[] Weights,
    Vec3[] FitPoints,
    Vec3? StartTangent,
    Vec3? EndTangent,
    bool Closed
) : Entity(Type, Layer, Line);

/// <summary>Place puts the block's own coordinates, less its base point, into the world for the array's first cell.</summary>
internal sealed record InsertEntity(
    string Type,
    string Layer,
    int Line,
    string Block,
    Affine3 Place,
    int Columns,
    int Rows,
    Vec3 ColumnStep,
    Vec3 RowStep
) : Entity(Type, Layer, Line);

internal sealed record PointEntity(string Type, string Layer, int Line, Vec3 At) : Entity(Type, Layer, Line);

/// <summary>TEXT and MTEXT; Along is one letter height in reading direction, Up one upwards.</summary>
internal sealed record TextEntity(
    string Type,
    string Layer,
    int Line,
    string Text,
    Vec3 At,
    Vec3 Along,
    Vec3 Up,
    bool FromLeft
) : Entity(Type, Layer, Line);

/// <summary>Counted and passed over: hatches, dimensions, solids and all that makes no outline.</summary>
internal sealed record OtherEntity(string Type, string Layer, int Line) : Entity(Type, Layer, Line);

/// <summary>A curve that should count but cannot be read; Why completes "cannot be read: ".</summary>
internal sealed record BadEntity(string Type, string Layer, int Line, string Why) : Entity(Type, Layer, Line);

internal sealed record Block(string Name, Vec3 Base, bool External, List<Entity> Entities);
