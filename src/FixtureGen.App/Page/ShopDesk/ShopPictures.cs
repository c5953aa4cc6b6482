using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Shop.Files;

namespace FixtureGen.App.Page.ShopDesk;

/// <summary>Shop files drawn from their values, to scale: what stands wrong in a file shows at once.</summary>
internal static class ShopPictures
{
    /// <summary>The file's picture first, then one for each row that has one.</summary>
    public static ShopPicture[] Draw(object record) =>
        record switch
        {
            PlateFile p => [Plate(p.Plate)],
            Blank b => [Blank(b)],
            ToolRack r => ToolPictures.Rack(r),
            Gasket g => [Cord(g)],
            MagnetSpec m => [Magnet(m)],
            Screw s => [ToolPictures.Screw(s)],
            DowelPin p => [ToolPictures.Pin(p)],
            Control c => [Words(c)],
            Material m => [Chart(m)],
            _ => [],
        };

    private static ShopPicture Plate(Plate plate)
    {
        List<Sketched> parts =
        [
            Sketch.Part("block", "face", Contours.Rectangle(plate.Face)),
            Sketch.Part("seal", "seal", plate.SealLoop),
        ];
        foreach (PlateGroove g in plate.Grooves)
        {
            parts.AddRange(
                g.Run.Segments.Select(s =>
                    Sketch.Part("groove", $"groove to {g.Port}", Contours.Slot(s.Start, s.End, g.Width / 2))
                )
            );
        }
        foreach (PlateOpening o in plate.Openings)
        {
            if (o.ReliefDiameter > 0)
            {
                parts.Add(Sketch.Part("relief", $"relief of {o.Name}", Contours.Circle(o.At, o.ReliefDiameter / 2)));
            }
            string kind = o.Kind is OpeningKind.PinRound or OpeningKind.PinSlot ? "pin" : "opening";
            parts.Add(Sketch.Part(kind, o.Name, Contours.Circle(o.At, o.Diameter / 2)));
        }
        foreach (EdgeStop s in plate.Stops)
        {
            Point2 centre = s.At - (s.Normal * (s.Diameter / 2));
            parts.Add(Sketch.Part("pin", "stop", Contours.Circle(centre, s.Diameter / 2)));
        }
        return Sketch.Picture("", "plan of the face", parts);
    }

    /// <summary>Plan, and the edge below it with the tolerance of its thickness.</summary>
    private static ShopPicture Blank(Blank b)
    {
        double low = -b.Thickness - (b.Height * 0.06);
        return Sketch.Picture(
            "",
            "plan, and the edge below it",
            [
                Sketch.Part("block", "plan", Contours.Rectangle(new Box2(0, 0, b.Width, b.Height))),
                Sketch.Part(
                    "relief",
                    "thickest",
                    Sketch.Bar(0, low - b.ThicknessTolerance, b.Width, low + b.Thickness)
                ),
                Sketch.Part("block", "thinnest", Sketch.Bar(0, low, b.Width, low + b.Thickness - b.ThicknessTolerance)),
            ]
        );
    }

    /// <summary>The groove's section with the cord that stands in it before the shell presses it, and where the shell lies then.</summary>
    private static ShopPicture Cord(Gasket g)
    {
        double wide = g.GrooveWidth + (2 * g.Section);
        double low = -g.GrooveDepth - g.Section;
        return Sketch.Picture(
            "",
            "section of the groove with the cord, free and squeezed",
            [
                Sketch.Part(
                    "block",
                    "block",
                    Contours.FromPoints([
                        new(-wide / 2, low),
                        new(wide / 2, low),
                        new(wide / 2, 0),
                        new(g.GrooveWidth / 2, 0),
                        new(g.GrooveWidth / 2, -g.GrooveDepth),
                        new(-g.GrooveWidth / 2, -g.GrooveDepth),
                        new(-g.GrooveWidth / 2, 0),
                        new(-wide / 2, 0),
                    ])
                ),
                Sketch.Part(
                    "cord",
                    "cord",
                    Contours.Circle(new Point2(0, (g.Section / 2) - g.GrooveDepth), g.Section / 2)
                ),
                Sketch.Part(
                    "shell",
                    "where the shell presses it to",
                    Sketch.Bar(-wide / 2, 0, wide / 2, 0.15 * g.Section)
                ),
            ]
        );
    }

    private static ShopPicture Magnet(MagnetSpec m)
    {
        double r = m.Diameter / 2;
        return Sketch.Picture(
            "",
            "section: the disc, and its partner in the jacket",
            [
                Sketch.Part("metal", "disc in the block", Sketch.Bar(-r, -m.Thickness - 2, r, -2)),
                Sketch.Part(
                    "holder",
                    "jacket",
                    Sketch.Bar(-m.JacketDiameter / 2, 0, m.JacketDiameter / 2, m.JacketHeight)
                ),
                Sketch.Part("metal", "loose disc", Sketch.Bar(-r, m.JacketFloor, r, m.JacketFloor + m.Thickness)),
            ]
        );
    }

    private static ShopPicture Words(Control c) =>
        new(
            "",
            c.Unit == LengthUnit.Inch ? "programs in inches" : "programs in mm",
            [0, 0, 1, 1],
            [],
            [.. c.SafeStart, .. c.ToolChange, c.SpindleStart, c.VacuumOn, c.End, .. c.Home]
        );

    /// <summary>The chip load's range by the cutter's diameter: a bar for each row.</summary>
    private static ShopPicture Chart(Material m)
    {
        double most = m.ChipLoads.Max(l => l.MaxMm);
        double wide = m.ChipLoads.Max(l => l.Diameter) * 1.2;
        double scale = 0.6 * wide / most;
        return Sketch.Picture(
            "",
            Sketch.Inv($"chip load by cutter: up to {most:0.###} mm a tooth at {m.ChipLoads[^1].Diameter:0.##} mm"),
            [
                Sketch.Part("relief", "", Sketch.Bar(0, 0, wide, 0.62 * wide)),
                .. m.ChipLoads.Select(l =>
                    Sketch.Part(
                        "cutting",
                        Sketch.Inv($"cutter {l.Diameter:0.##} mm: {l.MinMm:0.###} to {l.MaxMm:0.###} mm a tooth"),
                        Sketch.Bar(
                            l.Diameter - (0.02 * wide),
                            l.MinMm * scale,
                            l.Diameter + (0.02 * wide),
                            l.MaxMm * scale
                        )
                    )
                ),
            ]
        );
    }
}
