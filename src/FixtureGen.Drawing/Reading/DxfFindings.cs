using System.Globalization;
using System.Text;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Reading;

/// <summary>Every sentence that the drawing reader says.</summary>
internal static class DxfFindings
{
    private const string SaveAgain = "save the drawing again as DXF, 2000 or later, from the program that drew it";

    public static Finding NotADrawing(string file, string looksLike) =>
        new("drawing-not-dxf", Severity.Error, file, $"This is {looksLike}, not a DXF or SVG drawing.", SaveAgain);

    public static Finding BadXml(string file, int line, string why) =>
        AtLine(
            "drawing-not-xml",
            file,
            line,
            $"The SVG cannot be read as XML: {why.TrimEnd('.')}.",
            "save the drawing again as plain SVG from the program that drew it"
        );

    public static Finding TooDeep(string file, int line, int most) =>
        AtLine(
            "drawing-block-depth",
            file,
            line,
            Text($"More than {most} elements lie inside each other."),
            "ungroup the drawing"
        );

    public static Finding Empty(string file) =>
        new("drawing-empty", Severity.Error, file, "The file is empty.", SaveAgain);

    public static Finding TooLarge(string file, long bytes, long most) =>
        new(
            "drawing-too-large",
            Severity.Error,
            file,
            Text($"The drawing is {bytes / 1048576.0:F1} MB; at most {most / 1048576} MB are read."),
            "keep the part's outline and delete the rest of the drawing"
        );

    public static Finding LineTooLong(string file, int line, int most) =>
        AtLine(
            "drawing-line-too-long",
            file,
            line,
            Text($"Line {line} is longer than {most} bytes; no DXF value is."),
            SaveAgain
        );

    public static Finding BadCode(string file, int line, ReadOnlySpan<byte> code) =>
        AtLine(
            "drawing-group-code",
            file,
            line,
            Text($"Line {line} should be a group code and reads '{Shown(code)}'."),
            $"the file is damaged there; {SaveAgain}"
        );

    public static Finding BadBinaryCode(string file, int at, int code) =>
        AtLine(
            "drawing-group-code",
            file,
            at,
            Text($"Byte {at} should start a group and holds code {code}, which the format does not know."),
            $"the file is damaged there; {SaveAgain}"
        );

    public static Finding CutShort(string file, int line) =>
        AtLine(
            "drawing-cut-short",
            file,
            line,
            Text($"The file stops in the middle of a group at {line}: something may be missing."),
            $"copy the file again, or {SaveAgain}"
        );

    public static Finding NoEnd(string file) =>
        new(
            "drawing-no-end",
            Severity.Warning,
            file,
            "The file has no EOF mark: it may have been cut short.",
            "compare the loops below with the drawing; copy the file again if one is missing"
        );

    public static Finding TooMany(string file, string what, long count, long most) =>
        new(
            "drawing-too-many",
            Severity.Error,
            file,
            Text($"The drawing holds {count} {what}; at most {most} are read."),
            "keep the part's outline and delete the rest of the drawing"
        );

    public static Finding BlockBomb(string file, string block, int line, long most) =>
        AtLine(
            "drawing-block-bomb",
            file,
            line,
            Text($"The insert of block '{block}' unfolds to more than {most} pieces with what was read before."),
            "explode the block that is meant and delete the array or nesting around it"
        );

    public static Finding BlockInItself(string file, string block, int line) =>
        AtLine(
            "drawing-block-recursion",
            file,
            line,
            $"Block '{block}' contains itself.",
            "draw the block's content anew"
        );

    public static Finding BlockTooDeep(string file, string block, int line, int most) =>
        AtLine(
            "drawing-block-depth",
            file,
            line,
            Text($"Block '{block}' lies more than {most} blocks deep."),
            "explode the blocks in the drawing program"
        );

    public static Finding BlockMissing(string file, string block, int line, int count) =>
        AtLine(
            "drawing-block-missing",
            file,
            line,
            Text($"Block '{block}' is inserted {count} times and nowhere defined: what it shows is missing here."),
            "bind or explode the block, or delete its inserts"
        );

    public static Finding BlockOutside(string file, string block, int line) =>
        AtLine(
            "drawing-block-external",
            file,
            line,
            $"Block '{block}' lives in another drawing: what it shows is missing here.",
            "bind the external reference, or delete its inserts"
        );

    public static Finding Unreadable(string file, string entity, int line, string why) =>
        AtLine(
            "drawing-entity-unreadable",
            file,
            line,
            $"A {entity} cannot be read: {why}.",
            "draw it anew or explode it to lines and arcs"
        );

    public static Finding Tilted(string file, string entity, int line, int count) =>
        AtLine(
            "drawing-tilted",
            file,
            line,
            Text($"{count} pieces (the first a {entity}) do not lie flat; their view from above is used."),
            "flatten the drawing to Z 0 if the part is flat",
            Severity.Warning
        );

    public static Finding Wide(string file, int line, int count) =>
        AtLine(
            "drawing-wide-line",
            file,
            line,
            Text($"{count} polylines have a width; their centre line is used."),
            "set the width to 0, or outline the wide line if its edge is meant",
            Severity.Warning
        );

    public static Finding FitOnly(string file, int line, int count) =>
        AtLine(
            "drawing-spline-through-points",
            file,
            line,
            Text(
                $"{count} splines give only the points they pass through; a cubic of chord-length parameter stands for them."
            ),
            "look at the preview; where it matters, save the spline with its control points",
            Severity.Warning
        );

    public static Finding Short(string file, int line, int said, int found) =>
        AtLine(
            "drawing-vertices-missing",
            file,
            line,
            Text($"A polyline says {said} vertices and has {found}."),
            "compare it with the drawing",
            Severity.Warning
        );

    public static Finding PassedOver(string file, string list, bool shapes) =>
        new(
            "drawing-passed-over",
            shapes ? Severity.Warning : Severity.Note,
            file,
            $"Not used for outlines: {list}.",
            shapes
                ? "explode the solids, multilines or regions to lines and arcs if they are part of the outline"
                : "nothing to do if the part is lines, arcs, circles, ellipses, polylines and splines"
        );

    public static Finding Filled(string file, string list) =>
        new(
            "drawing-of-fills",
            Severity.Warning,
            file,
            $"The drawing has no curves of its own; the edges of {list} stand for them.",
            "look at the preview; where it matters, draw the outline as lines and arcs"
        );

    public static Finding AtLine(
        string code,
        string file,
        int line,
        string message,
        string remedy,
        Severity severity = Severity.Error
    ) => new(code, severity, Text($"{file}:{line}"), message, remedy) { Line = line };

    public static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private static string Shown(ReadOnlySpan<byte> raw)
    {
        string text = Encoding.Latin1.GetString(raw[..Math.Min(raw.Length, 40)]);
        return string.Concat(text.Select(c => char.IsControl(c) ? '?' : c));
    }
}
