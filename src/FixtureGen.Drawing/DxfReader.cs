using System.Collections.Immutable;
using System.Text;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Drawing.Reading;
using FixtureGen.Drawing.Svg;
using FixtureGen.Model;

namespace FixtureGen.Drawing;

/// <summary>
/// The one door to drawings: DXF, text or binary, release 10 to 2018 (DXF Reference), and SVG (SVG 2). Never throws for bad input: what
/// cannot be trusted is refused by an error finding, what was put right is listed.
/// </summary>
public static class DxfReader
{
    /// <summary>Largest file read, bytes.</summary>
    public const int MostBytes = 64 << 20;

    /// <summary>The refusal of a file longer than <see cref="MostBytes"/>, for callers that look at the length before they read.</summary>
    public static Finding TooLarge(string file, long length) => DxfFindings.TooLarge(file, length, MostBytes);

    /// <summary>Reads a drawing. Lengths come out in mm when the unit is given here or in the drawing, else in drawing units with a finding.</summary>
    /// <param name="file">The name that findings show.</param>
    /// <param name="unitOverride">Counts before the drawing's own unit.</param>
    public static Stage<DrawingContent> Read(byte[] bytes, string file, LengthUnit? unitOverride, Tolerances t)
    {
        if (bytes.Length > MostBytes)
        {
            return Stage.Failed<DrawingContent>(TooLarge(file, bytes.Length));
        }
        if (Scan(bytes, file, unitOverride, out Finding? refusal) is not { } scanned)
        {
            return Stage.Failed<DrawingContent>(refusal!);
        }
        var findings = new List<Finding>(scanned.Findings);
        LengthUnit? unit = UnitQuestions.Resolve(scanned, unitOverride, file, findings);
        double scale = unit is { } known ? DxfUnits.Millimetres(known) : 1;
        var limits = ChainLimits.From(t, unit is not null);
        var unfolder = new Unfolder(scanned, file, scale, limits.Near);
        if (unfolder.Run() is { } bomb)
        {
            return Stage.Failed<DrawingContent>([.. findings, bomb]);
        }
        findings.AddRange(unfolder.Findings);
        Chained chained = Chainer.ChainLayers(unfolder.Strokes.Curves, limits, file);
        findings.AddRange(chained.Findings);
        var drawing = new DrawingContent
        {
            File = file,
            Tolerances = t,
            Version = scanned.Version,
            Unit = unit,
            UnitFromJob = unitOverride is not null,
            PixelMm = scanned.PixelMm,
            Entities = Counts(scanned),
            Paper = scanned.Paper.ToImmutableSortedDictionary(StringComparer.Ordinal),
            Curves = [.. unfolder.Strokes.Curves],
            Loops = chained.Loops,
            Open = chained.Open,
            Repairs = Repairs(scanned, unfolder.Strokes, chained),
            Texts = [.. unfolder.Strokes.Texts],
            Points = [.. unfolder.Strokes.Points],
        };
        findings.AddRange(UnitQuestions.Ask(drawing));
        findings.AddRange(drawing.Repairs.Select(r => UnitQuestions.Note(drawing, r)));
        return Stage.Answer(drawing, ChainFindings.AsDrawn(findings, file, unit));
    }

    private static DxfFile? Scan(byte[] bytes, string file, LengthUnit? unit, out Finding? refusal)
    {
        (byte[] text, int start) = Utf8(bytes);
        if (SvgScan.LooksLike(text.AsSpan(start).TrimStart(" \t\r\n\0"u8)))
        {
            return SvgScan.Read(bytes, file, unit, out refusal);
        }
        GroupReader? reader = Open(bytes, file, out refusal);
        if (reader is null || DxfScan.Read(reader, file, out refusal) is not { } scanned)
        {
            return null;
        }
        if (reader is TextGroups { Commas: > 0 } groups)
        {
            scanned.Odd("a number with a decimal comma", groups.Commas);
        }
        return scanned;
    }

    private static GroupReader? Open(byte[] bytes, string file, out Finding? refusal)
    {
        refusal = null;
        if (bytes.AsSpan().StartsWith(BinaryGroups.Sentinel))
        {
            return new BinaryGroups(bytes, file);
        }
        (byte[] text, int start) = Utf8(bytes);
        ReadOnlySpan<byte> head = text.AsSpan(start).TrimStart(" \t\r\n\0"u8);
        if (head.Length == 0)
        {
            refusal = DxfFindings.Empty(file);
            return null;
        }
        if (Foreign(head) is { } looksLike)
        {
            refusal = DxfFindings.NotADrawing(file, looksLike);
            return null;
        }
        return new TextGroups(text, start, file);
    }

    // UTF-16 is not in the format, but some programs save text files that way; it becomes UTF-8 here.
    private static (byte[] Text, int Start) Utf8(byte[] bytes)
    {
        if (bytes is [0xEF, 0xBB, 0xBF, ..])
        {
            return (bytes, 3);
        }
        Encoding? wide = bytes switch
        {
            [0xFF, 0xFE, ..] => Encoding.Unicode,
            [0xFE, 0xFF, ..] => Encoding.BigEndianUnicode,
            [0x20 or 0x30 or 0x39, 0, _, 0, ..] => Encoding.Unicode,
            [0, 0x20 or 0x30 or 0x39, 0, _, ..] => Encoding.BigEndianUnicode,
            _ => null,
        };
        return wide is null ? (bytes, 0) : (Encoding.Convert(wide, Encoding.UTF8, bytes), bytes[0] >= 0xFE ? 3 : 0);
    }

    private static string? Foreign(ReadOnlySpan<byte> head)
    {
        if (head.StartsWith("AC10"u8) || head.StartsWith("AC1."u8))
        {
            return "a DWG drawing";
        }
        if (head.StartsWith("%PDF"u8))
        {
            return "a PDF";
        }
        return char.IsAsciiDigit((char)head[0]) || head[0] is (byte)'-' ? null : "some other kind of file";
    }

    private static ImmutableSortedDictionary<string, int> Counts(DxfFile scanned) =>
        scanned
            .Entities.GroupBy(e => e.Type, StringComparer.Ordinal)
            .ToImmutableSortedDictionary(g => g.Key, g => g.Count(), StringComparer.Ordinal);

    private static ImmutableArray<Repair> Repairs(DxfFile scanned, Strokes strokes, Chained chained)
    {
        IEnumerable<Repair> odd = scanned.Oddities.Select(o => ChainFindings.OddlyWritten(o.Key, o.Value));
        IEnumerable<Repair> rest = chained.Repairs.Where(r => r.Code != "short-removed");
        int shorts = strokes.Empty + chained.Repairs.Where(r => r.Code == "short-removed").Sum(r => r.Count);
        return [.. odd, .. rest, .. shorts > 0 ? [ChainFindings.ShortRemoved(shorts)] : Array.Empty<Repair>()];
    }
}
