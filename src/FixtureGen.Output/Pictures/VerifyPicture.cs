using System.Globalization;
using FixtureGen.Model;
using FixtureGen.Output.Reports;
using FixtureGen.Output.Scenes;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Output.Pictures;

/// <summary>
/// Where a program failed: the block as it was carved, in grey from straight above, the design's edges over it, and a
/// number at each finding that has a place, with its text below.
/// </summary>
public static class VerifyPicture
{
    /// <summary>A finding of the list, the number it bears in the picture (null without a place), and its wrapped text.</summary>
    private sealed record Row(Finding Finding, int? Number, IReadOnlyList<string> Lines);

    private const double PixelsPerMm = 6;
    private const int Listed = 20;
    private const int OfOneCode = 5;
    private const double Size = 3.6;

    /// <summary>PNG bytes. Findings without a place are listed without a number; errors come first.</summary>
    public static byte[] Png(FixtureDesign design, VerifyResult verdict)
    {
        using Pixels plan = BlockPicture.Plan(verdict.Block, new Tint(Colour.FromRgb(0xEDEDED)));
        Finding[] findings = [.. verdict.Programs.SelectMany(p => p.Findings.Select(f => OnTop(design, p.Setup, f)))];
        return SkiaDraw.Png(Draw(design, verdict.Block, plan, findings), PixelsPerMm);
    }

    internal static Scene Draw(FixtureDesign design, BlockGrid block, Pixels plan, Finding[] findings)
    {
        Finding[] sorted =
        [
            .. findings
                .OrderByDescending(f => f.Severity)
                .ThenBy(f => f.Line ?? int.MaxValue)
                .GroupBy(f => (f.Severity, f.Code))
                .SelectMany(g => g.Take(OfOneCode))
                .Take(Listed),
        ];
        double width = Math.Max(block.Box.Width + 20, 200);
        int number = 0;
        Row[] rows =
        [
            .. sorted.Select(f => new Row(
                f,
                f.At is null ? null : ++number,
                Typefaces.Wrap(Words(f), TypeStyle.Plain(Size), width - 36)
            )),
        ];
        double list =
            14 + rows.Sum(r => (r.Lines.Count * Size * 1.35) + 1.5) + (findings.Length > sorted.Length ? 6 : 0);
        Scene scene = new(width, block.Box.Height + 24 + list);
        View view = new(1, new Point2(10 - block.Box.MinX, list + 6 - block.Box.MinY), MirrorX: false);
        Point2 low = view.ToPage(new Point2(block.Box.MinX, block.Box.MinY));
        scene.Image(new Box2(low.X, low.Y, low.X + block.Box.Width, low.Y + block.Box.Height), plan);
        scene.Shape(view.ToPage(design.Part.Outer), Pen.Solid(0.3, Colour.FromRgb(0x14507A)));
        scene.Shape(design.Part.Cutouts.Select(view.ToPage), Pen.Solid(0.3, Colour.FromRgb(0x14507A)));
        Marks.Origin(scene, view.ToPage(new Point2(0, 0)), 14, 4, mirrorX: false);
        string title = findings.Length == 0 ? "Nothing found" : Figures.Count(findings.Length, "finding");
        scene.Text($"{title}: {design.Label}", new Point2(10, scene.Height - 10), TypeStyle.Strong(5));
        Pins(scene, view, rows);
        List(scene, rows, list - 8, findings.Length - sorted.Length);
        return scene;
    }

    /// <summary>A place the judge saw in the turned block's frame, back in the frame of the picture.</summary>
    internal static Finding OnTop(FixtureDesign design, Setup setup, Finding f) =>
        setup == Setup.Underside && f.At is { } at && design.Flip is { } flip
            ? f with
            {
                At = flip.Apply(at),
                Message = f.Message + " (in the underside's frame)",
            }
            : f;

    /// <summary>Markers in reverse, so that the worst lies on top where two meet.</summary>
    private static void Pins(Scene scene, View view, Row[] rows)
    {
        foreach ((Finding finding, int? number, _) in rows.Reverse())
        {
            if (finding.At is { } place)
            {
                Colour ink = Ink(finding.Severity);
                Point2 at = view.ToPage(place);
                Point2 tag = at + new Point2(5, 6);
                scene.Shape(Chain.Circle(at, 2.2), Pen.Solid(1.2, Colour.White));
                scene.Shape(Chain.Circle(at, 2.2), Pen.Solid(0.6, ink));
                scene.Line(at + new Point2(1.5, 1.7), tag, Pen.Solid(0.5, ink));
                Badge(scene, tag + new Point2(1.6, 1.6), number!.Value, finding.Severity);
            }
        }
    }

    private static void Badge(Scene scene, Point2 at, int number, Severity severity)
    {
        bool error = severity == Severity.Error;
        scene.Shape(Chain.Circle(at, 2.9), Pen.Solid(0.5, Ink(severity)), error ? Ink(severity) : Colour.White);
        scene.Text(
            N(number),
            at - new Point2(0, 1.3),
            new TypeStyle(Size, true, error ? Colour.White : Colour.Black),
            Anchor.Middle
        );
    }

    private static void List(Scene scene, Row[] rows, double top, int more)
    {
        double y = top;
        foreach ((Finding finding, int? number, IReadOnlyList<string> lines) in rows)
        {
            if (number is { } n)
            {
                Badge(scene, new Point2(14, y + 1.2), n, finding.Severity);
            }
            foreach (string line in lines)
            {
                scene.Text(line, new Point2(20, y), TypeStyle.Plain(Size));
                y -= Size * 1.35;
            }
            y -= 1.5;
        }
        if (more > 0)
        {
            scene.Text($"and {N(more)} more, most of the same kinds", new Point2(20, y), TypeStyle.Plain(Size));
        }
    }

    private static string Words(Finding f)
    {
        string line = f.Line is { } n ? $"line {N(n)}: " : "";
        string place =
            f.At is { } at && !f.Message.Contains(" at X ", StringComparison.Ordinal)
                ? $" at X {N(at.X)} Y {N(at.Y)} mm"
                : "";
        return $"{f.Severity.ToString().ToLowerInvariant()} {f.Code}, {line}{f.Message}{place}";
    }

    private static Colour Ink(Severity severity) =>
        severity == Severity.Error ? Colour.FromRgb(0xA01010) : Colour.Black;

    private static string N(double v) => v.ToString("0.##", CultureInfo.InvariantCulture);
}
