using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design;

/// <summary>A label broken into lines and put on free face; Arrow stands after the last line. Plate frame, mm.</summary>
internal sealed record LabelLayout(ImmutableArray<OpenPath> Letters, ImmutableArray<OpenPath> Arrow)
{
    private const int MostLines = 6;

    /// <summary>The arrow's width and its gap from the text, in letter heights.</summary>
    private const double ArrowWidth = 0.6;
    private const double ArrowGap = 0.6;

    /// <summary>The first layout that fits: few lines first, level before upright; null where none does.</summary>
    public static LabelLayout? Find(string text, bool arrow, double height, FreeFace face)
    {
        for (int count = 1; count <= MostLines; count++)
        {
            string[] lines = Broken(text, count);
            double width = lines
                .Select(
                    (l, i) =>
                        Lettering.Width(l, height)
                        + (arrow && i == lines.Length - 1 ? (ArrowGap + ArrowWidth) * height : 0)
                )
                .Max();
            double tall = height + ((lines.Length - 1) * Lettering.LinePitch(height));
            if (face.Find(width, tall) is { } level)
            {
                return Write(lines, arrow, height, tall, new Pose(level.MinX, level.MinY, 0));
            }
            if (face.Find(tall, width) is { } upright)
            {
                return Write(lines, arrow, height, tall, new Pose(upright.MaxX, upright.MinY, 90));
            }
        }
        return null;
    }

    private static LabelLayout Write(string[] lines, bool arrow, double height, double tall, Pose pose)
    {
        List<OpenPath> letters = [];
        double baseline = tall - height;
        double end = 0;
        foreach (string line in lines)
        {
            Lettered lettered = Lettering.Strokes(line, height);
            letters.AddRange(lettered.Strokes.Select(s => Transform.Apply(new Pose(0, baseline, 0), s)));
            end = lettered.Width;
            baseline -= Lettering.LinePitch(height);
        }
        double half = Lettering.StrokeWidth(height) / 2;
        double x = end + ((ArrowGap + (ArrowWidth / 2)) * height);
        OpenPath[] strokes = arrow ? UpArrow(new(x, half), height - (2 * half), (ArrowWidth * height / 2) - half) : [];
        return new(
            [.. letters.Select(s => Transform.Apply(pose, s))],
            [.. strokes.Select(s => Transform.Apply(pose, s))]
        );
    }

    private static OpenPath[] UpArrow(Point2 foot, double height, double half)
    {
        Point2 tip = foot + new Point2(0, height);
        return
        [
            new([Segment.Line(foot, tip)]),
            new([
                Segment.Line(tip + new Point2(-half, -half * 1.5), tip),
                Segment.Line(tip, tip + new Point2(half, -half * 1.5)),
            ]),
        ];
    }

    /// <summary>Words in at most this many lines, as even as they come.</summary>
    private static string[] Broken(string text, int count)
    {
        string[] words = text.Split(' ');
        for (int most = (text.Length + count - 1) / count; ; most++)
        {
            List<string> lines = [];
            foreach (string word in words)
            {
                if (lines.Count > 0 && lines[^1].Length + 1 + word.Length <= most)
                {
                    lines[^1] += " " + word;
                }
                else
                {
                    lines.Add(word);
                }
            }
            if (lines.Count <= count)
            {
                return [.. lines];
            }
        }
    }
}
