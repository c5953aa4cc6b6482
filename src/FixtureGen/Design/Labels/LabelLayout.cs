using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Labels;

/// <summary>A label broken into lines and put on free face; Arrow stands after the last line. Plate frame, mm.</summary>
internal sealed record LabelLayout(ImmutableArray<OpenPath> Letters, ImmutableArray<OpenPath> Arrow)
{
    private const int MostLines = 6;

    /// <summary>The arrow's width and its gap from the text, in letter heights.</summary>
    private const double ArrowWidth = 0.6;
    private const double ArrowGap = 0.6;

    private const double UprightDeg = 90;

    /// <summary>The first layout that fits: few lines first, level before upright; null where none does.</summary>
    public static LabelLayout? Find(string text, bool arrow, double height, FreeFace face)
    {
        for (int count = 1; count <= MostLines; count++)
        {
            string[] lines = Broken(text, count);
            double tall = height + ((lines.Length - 1) * Lettering.LinePitch(height));
            if (face.Find(Width(lines, arrow ? ArrowWidth : null, height), tall) is { } level)
            {
                return Write(lines, arrow, height, tall, new Pose(level.MinX, level.MinY, 0));
            }
            if (face.Find(tall, Width(lines, arrow ? 1 : null, height)) is { } upright)
            {
                return Write(lines, arrow, height, tall, new Pose(upright.MaxX, upright.MinY, UprightDeg));
            }
        }
        return null;
    }

    /// <summary>The longest line, the last one with what the arrow takes along it; the arrow stands across an upright label.</summary>
    private static double Width(string[] lines, double? arrow, double height) =>
        lines
            .Select(
                (l, i) =>
                    Lettering.Width(l, height)
                    + (arrow is { } along && i == lines.Length - 1 ? (ArrowGap + along) * height : 0)
            )
            .Max();

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
        double along = pose.AngleDeg == 0 ? ArrowWidth : 1;
        Point2 middle = new(end + ((ArrowGap + (along / 2)) * height), height / 2);
        Pose up = new(Transform.Apply(pose, middle).X, Transform.Apply(pose, middle).Y, 0);
        OpenPath[] strokes = arrow ? UpArrow(height - (2 * half), (ArrowWidth * height / 2) - half) : [];
        return new(
            [.. letters.Select(s => Transform.Apply(pose, s))],
            [.. strokes.Select(s => Transform.Apply(up, s))]
        );
    }

    /// <summary>An arrow about the origin that points to the plate's +Y, whichever way the text beside it runs.</summary>
    private static OpenPath[] UpArrow(double height, double half)
    {
        Point2 foot = new(0, -height / 2);
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
