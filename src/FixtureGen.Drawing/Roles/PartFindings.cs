using FixtureGen.Drawing.Chaining;
using FixtureGen.Drawing.Reading;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Roles;

/// <summary>Every sentence about making the part of a drawing.</summary>
internal static class PartFindings
{
    private const int MostPlaces = 8;

    public static Finding NoLoop(string file) =>
        Error("outline-missing", file, "The outline's layer holds no closed loop.", "close the outline end to end");

    public static Finding SeveralParts(string file, List<DrawnLoop> outer)
    {
        string sizes = string.Join(
            ", ",
            outer
                .Take(4)
                .Select(l =>
                    DxfFindings.Text(
                        $"{l.Bounds.Width:0.#} x {l.Bounds.Height:0.#} mm at ({l.Bounds.MinX:0.#}, {l.Bounds.MinY:0.#})"
                    )
                )
        );
        return Error(
            "outline-several",
            file,
            DxfFindings.Text($"The drawing holds {outer.Count} separate outlines: {sizes}."),
            "keep one part in a drawing"
        ) with
        {
            At = outer[1].Contour.Segments[0].Start,
        };
    }

    /// <summary>All of them as one finding at the first.</summary>
    public static Finding Island(string file, IReadOnlyList<DrawnLoop> loops)
    {
        DrawnLoop loop = loops[0];
        Point2 at = loop.Bounds.Middle;
        return Error(
            "outline-island",
            ChainFindings.Place(file, at),
            DxfFindings.Text(
                $"A loop of {loop.AreaMm2:0.##} mm2 lies inside a cutout: it would be a second part{More(loops)}"
            ),
            "delete it, or move it to the layer of its role"
        ) with
        {
            At = at,
        };
    }

    /// <summary>All of them as one finding at the first.</summary>
    public static Finding CutoutOutside(string file, IReadOnlyList<DrawnLoop> loops)
    {
        DrawnLoop loop = loops[0];
        Point2 at = loop.Bounds.Middle;
        return Error(
            "cutout-outside",
            ChainFindings.Place(file, at),
            DxfFindings.Text($"A cutout of {loop.AreaMm2:0.##} mm2 does not lie inside the outline{More(loops)}"),
            "move it inside, or delete it"
        ) with
        {
            At = at,
        };
    }

    private static string More(IReadOnlyList<DrawnLoop> loops)
    {
        IEnumerable<string> places = loops
            .Skip(1)
            .Take(MostPlaces)
            .Select(l => DxfFindings.Text($"({l.Bounds.Middle.X:0.###}, {l.Bounds.Middle.Y:0.###})"));
        string end = loops.Count - 1 > MostPlaces ? " ..." : ".";
        return loops.Count == 1
            ? end
            : DxfFindings.Text($"; {loops.Count - 1} more at {string.Join(", ", places)}{end}");
    }

    public static Finding CutoutTwice(string file, int count) =>
        new(
            "drawn-twice",
            Severity.Note,
            file,
            DxfFindings.Text(
                $"{count} cutouts are drawn on the outline's layer and on the cutouts'; one of each is kept."
            ),
            "nothing to do if the same hole is meant"
        );

    public static Finding FormUnstated(string file, DrawnLoop loop) =>
        Error(
            "form-unstated",
            ChainFindings.Place(file, loop.Bounds.Middle),
            $"A form is drawn on layer '{loop.Layer}' and the job does not state its height.",
            "add a [[form]] with layer, direction and height to the job"
        );

    public static Finding FormUndrawn(string file, FormSpec spec) =>
        Error(
            "form-undrawn",
            file,
            $"The job states a form on layer '{spec.Layer}' and the drawing has none left for it.",
            "draw the form's edge on that layer, or delete the [[form]]"
        );

    public static Finding NoMagnet(string file, DrawnCurve curve) =>
        new(
            "magnet-shape",
            Severity.Warning,
            ChainFindings.Place(file, curve.Path.Start),
            $"A {curve.Entity} on the magnet layer is neither a point nor a circle and is not used.",
            "mark a magnet by a point or a circle"
        )
        {
            At = curve.Path.Start,
        };

    public static Finding TextNotFromLeft(string file, DrawnText text) =>
        new(
            "text-alignment",
            Severity.Warning,
            ChainFindings.Place(file, text.At),
            $"The text '{text.Text}' is not left-aligned; engraving starts at its alignment point.",
            "align it left in the drawing"
        )
        {
            At = text.At,
        };

    private static Finding Error(string code, string where, string message, string remedy) =>
        new(code, Severity.Error, where, message, remedy);
}
