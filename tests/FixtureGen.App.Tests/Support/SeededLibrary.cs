using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace FixtureGen.App.Tests.Support;

/// <summary>
/// A library of any size made from the demo jobs: each outline put into a block and inserted at another scale and angle,
/// with other counts, shells and controls. The same seed gives the same library. Places a job states turn with its outline.
/// </summary>
public static partial class SeededLibrary
{
    private static readonly double[] Turns = [0, 90, 180, 270, 30, 45];

    // Controls with room for the numbers of a thousand jobs.
    private static readonly string[] Controls = ["inch-quadrant-arcs", "mm-canned-cycles", "mm-radius-arcs"];

    /// <summary>Writes templates/ and outlines/ below the folder; job names are v0000-OUTLINE and so on.</summary>
    public static void Write(string root, string folder, int jobs, int seed)
    {
        Random random = new(seed);
        Copy(Path.Combine(root, "templates"), Path.Combine(folder, "templates"));
        string outlines = Directory.CreateDirectory(Path.Combine(folder, "outlines")).FullName;
        string[] demo =
        [
            .. Directory.EnumerateFiles(Path.Combine(root, "outlines"), "*.toml").Order(StringComparer.Ordinal),
        ];
        for (int i = 0; i < jobs; i++)
        {
            string from = demo[i % demo.Length];
            string to = Path.Combine(
                outlines,
                string.Create(CultureInfo.InvariantCulture, $"v{i:0000}-{Path.GetFileName(from)}")
            );
            double scale = 0.94 + (0.09 * random.NextDouble());
            double turn = Turns[random.Next(Turns.Length)];
            string stated = Path.Combine(root, "tests", "stated", Path.GetFileName(from));
            File.WriteAllText(to, Job(File.ReadAllText(stated), scale, turn, random));
            string drawing = Inserted(File.ReadAllText(Path.ChangeExtension(from, ".dxf")), scale, turn);
            File.WriteAllText(Path.ChangeExtension(to, ".dxf"), drawing);
        }
    }

    private static string Job(string text, double scale, double turn, Random random)
    {
        double shell = Math.Round(1 + (0.8 * random.NextDouble()), 2);
        int more = random.Next(0, 2);
        string control = Controls[random.Next(Controls.Length)];
        StringBuilder job = new();
        bool inch = text.Contains("units = \"in\"", StringComparison.Ordinal);
        double unit = inch ? 25.4 : 1;
        foreach (string line in text.Split('\n'))
        {
            string key = line.Split('=')[0].Trim();
            string? changed = key switch
            {
                "program" => null,
                "control" => $"control = \"{control}\"",
                "thickness" => Number("thickness", shell / unit),
                "thickness_max" => Number("thickness_max", shell * 1.08 / unit),
                "pins" or "at" => Places().Replace(line, m => Turned(m, scale, turn)),
                "count" when !text.Contains("[[magnet]]", StringComparison.Ordinal) => Count(line, more),
                _ => line,
            };
            if (changed is not null)
            {
                job.Append(changed).Append('\n');
            }
        }
        return job.ToString();
    }

    private static string Number(string key, double value) =>
        string.Create(CultureInfo.InvariantCulture, $"{key} = {value:0.#####}");

    private static string Count(string line, int more)
    {
        int count = int.Parse(line.Split('=')[1].Split('#')[0].Trim(), CultureInfo.InvariantCulture);
        return string.Create(CultureInfo.InvariantCulture, $"count = {count + more}");
    }

    private static string Turned(Match place, double scale, double turn)
    {
        double x = double.Parse(place.Groups[1].ValueSpan, CultureInfo.InvariantCulture) * scale;
        double y = double.Parse(place.Groups[2].ValueSpan, CultureInfo.InvariantCulture) * scale;
        (double sin, double cos) = Math.SinCos(turn * Math.PI / 180);
        return string.Create(
            CultureInfo.InvariantCulture,
            $"[{(x * cos) - (y * sin):0.#####}, {(x * sin) + (y * cos):0.#####}]"
        );
    }

    /// <summary>The drawing with its entities in a block that is inserted once, scaled and turned about the origin.</summary>
    private static string Inserted(string drawing, double scale, double turn)
    {
        const string start = "  2\nENTITIES\n";
        const string end = "  0\nENDSEC\n";
        const string blocks = "  2\nBLOCKS\n";
        int from = drawing.IndexOf(start, StringComparison.Ordinal) + start.Length;
        int to = drawing.IndexOf(end, from, StringComparison.Ordinal);
        string block = "  0\nBLOCK\n  8\n0\n  2\nPART\n 70\n0\n 10\n0.0\n 20\n0.0\n 30\n0.0\n  3\nPART\n";
        string insert = string.Create(
            CultureInfo.InvariantCulture,
            $"  0\nINSERT\n  8\n0\n  2\nPART\n 10\n0.0\n 20\n0.0\n 30\n0.0\n 41\n{scale:R}\n 42\n{scale:R}\n 43\n{scale:R}\n 50\n{turn:R}\n"
        );
        int at = drawing.IndexOf(blocks, StringComparison.Ordinal) + blocks.Length;
        return drawing[..at]
            + block
            + drawing[from..to]
            + "  0\nENDBLK\n  8\n0\n"
            + drawing[at..from]
            + insert
            + drawing[to..];
    }

    private static void Copy(string from, string to)
    {
        Directory.CreateDirectory(to);
        foreach (string folder in Directory.EnumerateDirectories(from))
        {
            Copy(folder, Path.Combine(to, Path.GetFileName(folder)));
        }
        foreach (string file in Directory.EnumerateFiles(from))
        {
            File.Copy(file, Path.Combine(to, Path.GetFileName(file)));
        }
    }

    [GeneratedRegex(@"\[(-?[\d.]+), *(-?[\d.]+)\]")]
    private static partial Regex Places();
}
