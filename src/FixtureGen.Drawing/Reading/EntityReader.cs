namespace FixtureGen.Drawing.Reading;

/// <summary>
/// Turns the groups of one entity into a record. Codes and their defaults are those of the DXF Reference, ENTITIES
/// section; a coordinate that is missing or no number makes a <see cref="BadEntity"/>, never a 0.
/// </summary>
internal static class EntityReader
{
    private const double Degrees = Math.PI / 180;

    public static Entity Read(EntityGroups groups) =>
        groups.Type switch
        {
            "LINE" or "3DLINE" => Line(groups),
            "CIRCLE" or "ARC" => Arc(groups),
            "ELLIPSE" => Ellipse(groups),
            "LWPOLYLINE" => LightPolyline(groups),
            "SPLINE" => SplineReader.Read(groups),
            "INSERT" => Insert(groups),
            "POINT" => groups.Point(10) is { } at
                ? new PointEntity
                {
                    Type = "POINT",
                    Layer = groups.Layer,
                    Line = groups.Line,
                    At = at,
                }
                : Bad(groups),
            "TEXT" or "MTEXT" => TextReader.Read(groups),
            "HATCH" or "SOLID" or "TRACE" or "MLINE" or "HELIX" => FillReader.Read(groups),
            _ => new OtherEntity
            {
                Type = groups.Type,
                Layer = groups.Layer,
                Line = groups.Line,
            },
        };

    public static Entity Bad(EntityGroups groups, string? why = null) =>
        new BadEntity
        {
            Type = groups.Type,
            Layer = groups.Layer,
            Line = groups.Line,
            Why = groups.Fault ?? why ?? "a coordinate is missing",
        };

    private static Entity Line(EntityGroups groups) =>
        groups.Point(10) is { } from && groups.Point(11) is { } to
            ? new LineEntity
            {
                Type = groups.Type,
                Layer = groups.Layer,
                Line = groups.Line,
                From = from,
                To = to,
            }
            : Bad(groups);

    private static Entity Arc(EntityGroups groups)
    {
        if (groups.Point(10) is not { } centre || groups.Number(40) is not { } radius)
        {
            return Bad(groups);
        }
        double start = 0;
        double sweep = 360;
        if (groups.Type == "ARC")
        {
            if (groups.Number(50) is not { } from || groups.Number(51) is not { } to)
            {
                return Bad(groups);
            }
            start = from % 360;
            sweep = Positive(to - from, 360);
        }
        Affine3 frame = groups.Frame();
        return new TurnEntity
        {
            Type = groups.Type,
            Layer = groups.Layer,
            Line = groups.Line,
            Centre = frame.Apply(centre),
            U = frame.Turn(new(radius, 0, 0)),
            V = frame.Turn(new(0, radius, 0)),
            Start = start * Degrees,
            Sweep = sweep * Degrees,
        };
    }

    private static Entity Ellipse(EntityGroups groups)
    {
        if (
            groups.Point(10) is not { } centre
            || groups.Point(11) is not { } major
            || groups.Number(40) is not { } ratio
            || groups.NumberOr(41, 0) is not { } from
            || groups.NumberOr(42, 2 * Math.PI) is not { } to
        )
        {
            return Bad(groups);
        }
        Affine3 frame = groups.Frame();
        Vec3 minor = frame.Z.Cross(major) * ratio;
        double sweep = Positive(to - from, 2 * Math.PI);
        return new TurnEntity
        {
            Type = groups.Type,
            Layer = groups.Layer,
            Line = groups.Line,
            Centre = centre,
            U = major,
            V = minor,
            Start = from,
            Sweep = sweep,
        };
    }

    // Ends that say the same angle mean a full turn; rounding in the file (6.283185) must not make a hair of it.
    private static double Positive(double sweep, double full)
    {
        double rest = sweep % full;
        rest = rest < 0 ? rest + full : rest;
        return rest <= 2e-7 * full || rest >= full * (1 - 2e-7) ? full : rest;
    }

    private static Entity LightPolyline(EntityGroups groups)
    {
        double elevation = groups.NumberOr(38, 0) ?? 0;
        var vertices = new List<Vertex>();
        bool wide = groups.NumberOr(43, 0) is not 0.0;
        double? x = null;
        foreach (Group group in groups.All)
        {
            switch (group.Code)
            {
                case 10 when x is not null:
                    return Bad(groups);
                case 10:
                    x = groups.Value(group);
                    if (x is null)
                    {
                        return Bad(groups);
                    }
                    break;
                case 20 when x is { } known && groups.Value(group) is { } y:
                    vertices.Add(new Vertex(new Vec3(known, y, elevation), 0));
                    x = null;
                    break;
                case 20:
                    return Bad(groups);
                case 42 when vertices.Count > 0:
                    if (groups.Value(group) is not { } bulge)
                    {
                        return Bad(groups);
                    }
                    vertices[^1] = vertices[^1] with { Bulge = bulge };
                    break;
                case 40 or 41:
                    wide |= groups.Value(group) is not 0.0;
                    break;
                default:
                    break;
            }
        }
        if (x is not null)
        {
            return Bad(groups);
        }
        bool closed = (groups.IntegerOr(70, 0) & 1) != 0;
        groups.Note(groups.IntegerOr(90, vertices.Count), vertices.Count);
        return new PolyEntity
        {
            Type = groups.Type,
            Layer = groups.Layer,
            Line = groups.Line,
            Frame = groups.Frame(),
            Vertices = vertices,
            Closed = closed,
            Wide = wide,
        };
    }

    private static double OneForZero(double scale) => scale == 0 ? 1 : scale;

    private static Entity Insert(EntityGroups groups)
    {
        if (
            groups.Point(10) is not { } at
            || groups.NumberOr(41, 1) is not { } sx
            || groups.NumberOr(42, 1) is not { } sy
            || groups.NumberOr(43, 1) is not { } sz
            || groups.NumberOr(50, 0) is not { } turn
            || groups.NumberOr(44, 0) is not { } columnStep
            || groups.NumberOr(45, 0) is not { } rowStep
        )
        {
            return Bad(groups);
        }
        Affine3 turned = groups.Frame().After(Affine3.Shift(at)).After(Affine3.TurnZ(turn * Degrees));
        // no program can draw a block at scale 0: it is a slip for 1, common in Z, where it means nothing
        if (sx == 0 || sy == 0)
        {
            groups.Oddity = "an insert of scale 0, read as 1";
        }
        Affine3 place = turned.After(Affine3.Scale(OneForZero(sx), OneForZero(sy), OneForZero(sz)));
        return new InsertEntity
        {
            Type = groups.Type,
            Layer = groups.Layer,
            Line = groups.Line,
            Block = groups.Text(2),
            Place = place,
            Columns = Math.Max(1, groups.IntegerOr(70, 1)),
            Rows = Math.Max(1, groups.IntegerOr(71, 1)),
            ColumnStep = turned.Turn(new(columnStep, 0, 0)),
            RowStep = turned.Turn(new(0, rowStep, 0)),
        };
    }
}
