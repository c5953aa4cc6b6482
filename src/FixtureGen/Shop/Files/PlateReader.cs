using System.Collections.Immutable;
using System.Globalization;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Shop.Reading;

namespace FixtureGen.Shop.Files;

/// <summary>What a plate file says: the plate with its machine, and the vacuum supply that a job may override.</summary>
public sealed record PlateFile(Plate Plate, VacuumSupply Vacuum);

/// <summary>templates/plates/*.toml: the master plate, its openings, its seal, its machine and its vacuum.</summary>
public static class PlateReader
{
    private const double Reach = 2000;

    /// <summary>A stop that does not say its size is a pin of 1/4 in, as high as it is thick (common practice, no source), mm.</summary>
    private const double PinLike = Units.MmPerInch / 4;

    /// <summary>The plate with its machine, mm, and its vacuum, kPa, or every mistake with line and column.</summary>
    /// <param name="text">TOML.</param>
    /// <param name="file">As findings name it.</param>
    /// <param name="name">The record's name: the file's without .toml.</param>
    public static Stage<PlateFile> Read(string text, string file, string name) =>
        ShopFile.Read(text, file, t => Body(t, name));

    internal static PlateFile Body(TableReader t, string name)
    {
        ImmutableArray<Point2> face = t.Points("face", Reach);
        if (face.Length != 2 || face[1].X <= face[0].X || face[1].Y <= face[0].Y)
        {
            t.Contradict("face", "'face' is not [[least x, least y], [greatest x, greatest y]].", "Give two corners.");
            face = [default, default];
        }
        TableReader? seal = t.Inner("seal");
        TableReader? machine = t.Inner("machine");
        Plate plate = new()
        {
            Name = name,
            Revision = t.Whole("revision", 1, 9999),
            Face = new Box2(face[0].X, face[0].Y, face[1].X, face[1].Y),
            Thickness = t.Length("thickness", 3, 300),
            Stops = [.. t.Inners("stop").Select(Stop)],
            PlacingTolerance = t.Within(PlateRanges.PlacingTolerance),
            Openings = Openings(t),
            Grooves = [.. t.Inners("groove").Select(Groove)],
            SealLoop = seal is null ? new Contour([]) : SealLoop(seal),
            SealGrooveWidth = seal?.Length("groove_width", 0.5, 30) ?? 0,
            SealReactionNPerMm = seal?.Within(PlateRanges.SealReaction) ?? 0,
            FrictionBlockOnPlate = t.Within(PlateRanges.BlockFriction),
            Skin = t.Length("skin", 0, 5),
            Machine = machine is null ? null! : Machine(machine),
            Description = t.TextOrNull("description") ?? "",
        };
        seal?.Close();
        if (!t.Log.Failed)
        {
            PlateCheck.All(t, plate);
        }
        return new PlateFile(plate, VacuumReader.OfPlate(t));
    }

    private static ImmutableArray<PlateOpening> Openings(TableReader t)
    {
        List<PlateOpening> all = [];
        One(t.Inner("pin_round"), OpeningKind.PinRound, "pin-round");
        One(t.Inner("pin_slot"), OpeningKind.PinSlot, "pin-slot");
        Many("bolt", OpeningKind.Bolt);
        Many("port", OpeningKind.Port);
        return [.. all];

        void Many(string key, OpeningKind kind)
        {
            int i = 0;
            foreach (TableReader row in t.Inners(key))
            {
                i++;
                One(row, kind, string.Create(CultureInfo.InvariantCulture, $"{key}-{i}"));
            }
        }

        void One(TableReader? row, OpeningKind kind, string fallbackName)
        {
            if (row is null)
            {
                return;
            }
            PlateOpening o = new(
                row.TextOr("name", fallbackName),
                kind,
                row.Point("at", Reach),
                row.Length("diameter", 0.5, 100),
                row.LengthOr("relief_diameter", 0, 0, 200),
                row.LengthOr("relief_depth", 0, 0, 300)
            );
            if (o.ReliefDiameter > 0 != o.ReliefDepth > 0)
            {
                row.Contradict(
                    "relief_depth",
                    $"'{o.Name}' has half a relief.",
                    "Give both diameter and depth, or none."
                );
            }
            if (all.Exists(x => x.Name == o.Name))
            {
                row.Contradict("name", $"Two openings are named '{o.Name}'.", "Give each its own name.");
            }
            all.Add(o);
            row.Close();
        }
    }

    private static EdgeStop Stop(TableReader t)
    {
        Point2 normal = t.ChoiceOrNull(
            "pushes",
            ("up", Side.Up),
            ("right", Side.Right),
            ("down", Side.Down),
            ("left", Side.Left)
        ) switch
        {
            Side.Right => new Point2(1, 0),
            Side.Down => new Point2(0, -1),
            Side.Left => new Point2(-1, 0),
            _ => new Point2(0, 1),
        };
        if (!t.Has("pushes"))
        {
            t.Contradict(
                "pushes",
                "A stop does not say which way it pushes the blank.",
                "Add pushes = \"up\" or \"right\"."
            );
        }
        EdgeStop stop = new(t.Point("at", Reach), normal)
        {
            Diameter = t.LengthOr("diameter", PinLike, 1, 100),
            Height = t.LengthOr("height", PinLike, 0, 100),
        };
        t.Close();
        return stop;
    }

    private enum Side
    {
        Up,
        Right,
        Down,
        Left,
    }

    private static PlateGroove Groove(TableReader t)
    {
        ImmutableArray<Point2> points = t.Points("points", Reach);
        if (points.Length < 2)
        {
            t.Contradict("points", "A groove needs two points or more.", "Add the ends of its centre line.");
            points = [default, new Point2(1, 0)];
        }
        PlateGroove groove = new(
            t.Text("port"),
            new OpenPath([.. points.Zip(points.Skip(1), Segment.Line)]),
            t.Length("width", 0.5, 100),
            t.Length("depth", 0.5, 100)
        );
        t.Close();
        return groove;
    }

    private static Contour SealLoop(TableReader t)
    {
        ImmutableArray<Point2> c = t.Points("corners", Reach);
        double r = t.Length("corner_radius", 0.5, 500);
        if (c.Length == 2 && c[1].X - c[0].X > 2 * r && c[1].Y - c[0].Y > 2 * r)
        {
            return Contours.RoundedRectangle(new(c[0].X, c[0].Y, c[1].X, c[1].Y), r);
        }
        t.Contradict(
            "corners",
            "'corners' is not [[least x, least y], [greatest x, greatest y]] with room for the corner radius.",
            "Give two corners of the seal groove's centre line, or a smaller corner_radius."
        );
        return new Contour([]);
    }

    private static Machine Machine(TableReader t)
    {
        Point2 x = Span(t, "travel_x");
        Point2 y = Span(t, "travel_y");
        Point2 z = Span(t, "travel_z");
        double slow = t.Number("min_rpm", 0, 100000);
        Machine machine = new()
        {
            Travel = new Box3(x.X, y.X, z.X, x.Y, y.Y, z.Y),
            RapidMmPerMin = t.Measure("rapid", Quantity.Rate, 10, 200000),
            MaxFeedMmPerMin = t.Measure("max_feed", Quantity.Rate, 10, 100000),
            AccelerationMmPerS2 = t.Within(PlateRanges.Acceleration),
            MinSpindleRpm = slow,
            MaxSpindleRpm = t.Number("max_rpm", Math.Max(100, slow), 200000),
            SpindlePowerKw = t.Number("spindle_power_kw", 0.05, 100),
            ToolChangeSeconds = t.Number("tool_change_seconds", 0, 600),
            FeedHoldDistance = t.Within(PlateRanges.FeedHold),
            VacuumReactionSeconds = t.Within(PlateRanges.Reaction),
        };
        t.Close();
        return machine;
    }

    private static Point2 Span(TableReader t, string key)
    {
        Point2 span = t.Point(key, Reach);
        if (t.Has(key) && span.Y <= span.X)
        {
            t.Contradict(key, $"'{key}' is not [least, greatest].", "Give the lower end first.");
        }
        return span;
    }
}
