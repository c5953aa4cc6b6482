using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.App.Page.ShopDesk;

/// <summary>Cutters, screws and pins from the side, drawn from their values to scale.</summary>
internal static class ToolPictures
{
    private const double Gap = 1.5;
    private const double HolderShown = 12;
    private const int Most = 8;

    /// <summary>All side by side, then each by itself.</summary>
    public static ShopPicture[] Rack(ToolRack rack) =>
        [
            SideBySide(rack),
            .. rack.Tools.Select((t, i) => Sketch.Picture(Sketch.Row("tool", i), Says(t), Cutter(t, 0))),
        ];

    private static ShopPicture SideBySide(ToolRack rack)
    {
        List<Sketched> parts = [];
        double x = 0;
        foreach (Tool t in rack.Tools.Take(Most))
        {
            double half = Math.Max(t.Diameter, Math.Max(t.ShankDiameter, t.HolderDiameter)) / 2;
            parts.AddRange(Cutter(t, x + half));
            x += (2 * half) + (2 * Gap);
        }
        string more = rack.Tools.Length > Most ? Sketch.Inv($", the first {Most}") : "";
        return Sketch.Picture("", Sketch.Inv($"{rack.Tools.Length} cutters, tips down{more}"), parts);
    }

    private static string Says(Tool t) => Sketch.Inv($"T{t.Number} {t.Name}");

    /// <summary>From the side, its tip at zero: what cuts, the shank, the beginning of the holder.</summary>
    private static List<Sketched> Cutter(Tool t, double x)
    {
        double r = t.Diameter / 2;
        double tip = t.TipDiameter / 2;
        double cone = t.TipAngleDeg is > 0 and < 180 ? (r - tip) / Math.Tan(t.TipAngleDeg * Math.PI / 360) : 0;
        List<Point2> side = [];
        if (t.Kind == ToolKind.BallMill)
        {
            side.AddRange(
                Enumerable
                    .Range(0, 9)
                    .Select(i => i * Math.PI / 16)
                    .Select(a => new Point2(r * Math.Sin(a), r - (r * Math.Cos(a))))
            );
        }
        else
        {
            side.AddRange(cone > 0 ? [new Point2(tip, 0), new Point2(r, cone)] : [new Point2(r, 0)]);
        }
        double cuts = Math.Max(t.FluteLength, side[^1].Y);
        side.Add(new Point2(r, cuts));
        double shank = Math.Max(cuts, t.StickOut);
        return
        [
            Sketch.Part("cutting", $"{t.Name}: cuts", Turned(side, x)),
            Sketch.Part(
                "metal",
                "shank",
                Sketch.Bar(x - (t.ShankDiameter / 2), cuts, x + (t.ShankDiameter / 2), shank)
            ),
            Sketch.Part(
                "holder",
                "holder",
                Sketch.Bar(x - (t.HolderDiameter / 2), shank, x + (t.HolderDiameter / 2), shank + HolderShown)
            ),
        ];
    }

    /// <summary>A screw from the side.</summary>
    public static ShopPicture Screw(Screw s)
    {
        double shown = 3 * s.Body;
        List<Sketched> parts =
        [
            Sketch.Part("metal", "body", Sketch.Bar(-s.Body / 2, -shown, s.Body / 2, 0)),
            Sketch.Part("cutting", "head", Sketch.Bar(-s.HeadDiameter / 2, 0, s.HeadDiameter / 2, s.HeadHeight)),
            Sketch.Part(
                "relief",
                "key",
                Sketch.Bar(-s.Body / 3, s.HeadHeight - s.KeyEngagement, s.Body / 3, s.HeadHeight)
            ),
        ];
        if (s.WasherThickness > 0)
        {
            parts.Add(
                Sketch.Part(
                    "holder",
                    "washer",
                    Sketch.Bar(-s.WasherDiameter / 2, -s.WasherThickness, s.WasherDiameter / 2, 0)
                )
            );
        }
        return Sketch.Picture("", "from the side, its length cut short", parts);
    }

    /// <summary>A pin from the side, with its bush.</summary>
    public static ShopPicture Pin(DowelPin p)
    {
        List<Sketched> parts = [];
        if (p.BushDiameter > 0)
        {
            parts.Add(
                Sketch.Part("holder", "bush", Sketch.Bar(-p.BushDiameter / 2, 0, p.BushDiameter / 2, p.BushLength))
            );
        }
        parts.Add(
            Sketch.Part("metal", "pin", Sketch.Bar(-p.Diameter / 2, -p.Projection / 2, p.Diameter / 2, p.Projection))
        );
        return Sketch.Picture("", "from the side; the plate's face is at the bush's foot", parts);
    }

    private static Contour Turned(List<Point2> side, double x) =>
        Contours.FromPoints([
            .. side.Select(p => new Point2(x + p.X, p.Y)),
            .. side.AsEnumerable().Reverse().Where(p => p.X > 0).Select(p => new Point2(x - p.X, p.Y)),
        ]);
}
