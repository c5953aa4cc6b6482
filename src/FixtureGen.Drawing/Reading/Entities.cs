namespace FixtureGen.Drawing.Reading;

/// <summary>One entity as the file says it: drawing units, own axes, nothing transformed. Line is where it starts.</summary>
internal abstract record Entity
{
    public required string Type { get; init; }

    public required string Layer { get; init; }

    public required int Line { get; init; }

    public EntityLook Look { get; init; } = EntityLook.ByLayer;
}

/// <summary>How an entity says it is shown: line type (6), colour number (62, 256 by layer, 0 by block), red, green and blue (420), group 60.</summary>
internal readonly record struct EntityLook(string LineType, int Colour, int? Rgb, bool Invisible)
{
    public static EntityLook ByLayer { get; } = new("BYLAYER", 256, null, false);
}

internal sealed record LineEntity : Entity
{
    public required Vec3 From { get; init; }

    public required Vec3 To { get; init; }
}

/// <summary>Centre + U cos t + V sin t in the world, t from Start over Sweep radians (at most a full turn): ARC, CIRCLE and ELLIPSE.</summary>
internal sealed record TurnEntity : Entity
{
    public required Vec3 Centre { get; init; }

    public required Vec3 U { get; init; }

    public required Vec3 V { get; init; }

    public required double Start { get; init; }

    public required double Sweep { get; init; }
}

/// <summary>Lines, arcs and splines end to end, one curve.</summary>
internal sealed record PathEntity : Entity
{
    public required List<Entity> Pieces { get; init; }

    public required bool Closed { get; init; }
}

internal readonly record struct Vertex(Vec3 At, double Bulge);

/// <summary>LWPOLYLINE and POLYLINE; vertices in the axes that Frame gives.</summary>
internal sealed record PolyEntity : Entity
{
    public required Affine3 Frame { get; init; }

    public required List<Vertex> Vertices { get; init; }

    public required bool Closed { get; init; }

    public required bool Wide { get; init; }
}

internal sealed record SplineEntity : Entity
{
    public required int Degree { get; init; }

    public required double[] Knots { get; init; }

    public required Vec3[] Points { get; init; }

    public required double[] Weights { get; init; }

    public required Vec3[] FitPoints { get; init; }

    public required Vec3? StartTangent { get; init; }

    public required Vec3? EndTangent { get; init; }

    public required bool Closed { get; init; }
}

/// <summary>Place puts the block's own coordinates, less its base point, into the world for the array's first cell.</summary>
internal sealed record InsertEntity : Entity
{
    public required string Block { get; init; }

    public required Affine3 Place { get; init; }

    public required int Columns { get; init; }

    public required int Rows { get; init; }

    public required Vec3 ColumnStep { get; init; }

    public required Vec3 RowStep { get; init; }
}

internal sealed record PointEntity : Entity
{
    public required Vec3 At { get; init; }
}

/// <summary>TEXT and MTEXT; Along is one letter height in reading direction, Up one upwards.</summary>
internal sealed record TextEntity : Entity
{
    public required string Text { get; init; }

    public required Vec3 At { get; init; }

    public required Vec3 Along { get; init; }

    public required Vec3 Up { get; init; }

    public required bool FromLeft { get; init; }
}

/// <summary>A hatch, solid, multi-line or helix: passed over where the drawing has curves, else these are its curves.</summary>
internal sealed record FillEntity : Entity
{
    public required List<Entity> Curves { get; init; }
}

/// <summary>Counted and passed over: dimensions, solids in space and all that makes no outline.</summary>
internal sealed record OtherEntity : Entity { }

/// <summary>A curve that should count but cannot be read; Why completes "cannot be read: ".</summary>
internal sealed record BadEntity : Entity
{
    public required string Why { get; init; }
}

internal sealed record Block(string Name, Vec3 Base, bool External, List<Entity> Entities);
