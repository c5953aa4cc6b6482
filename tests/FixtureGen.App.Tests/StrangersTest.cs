using System.Diagnostics;
using System.Text.Json.Nodes;
using FixtureGen.App.Tests.Support;
using Xunit;

namespace FixtureGen.App.Tests;

/// <summary>
/// Outlines as strangers draw them, written by Debian's python3-ezdxf, each made with the job that <c>new</c> writes once its questions are
/// answered, in the shop that <c>new --shop</c> lays: a few kinds of those of which the larger share is measured from time to time.
/// </summary>
[Trait("Speed", "Slow")]
public sealed class StrangersTest
{
    private const string Python = "/usr/bin/python3";

    /// <summary>
    /// NAME FILE: one drawing. Its own lengths, layers and holes; a rounded rectangle's corners are arcs of polylines, with bulges.
    /// </summary>
    private const string Script = """
        import math, sys, ezdxf
        name, path = sys.argv[1:3]
        inch = name == "inch-plate"
        doc = ezdxf.new("R2010"); doc.header["$INSUNITS"] = 1 if inch else 4; doc.header["$MEASUREMENT"] = 0 if inch else 1
        m = doc.modelspace(); k = 1 / 25.4 if inch else 1
        def poly(points, bulges, layer="0"):
            m.add_lwpolyline([(x * k, y * k, b) for (x, y), b in zip(points, bulges)], format="xyb", close=True, dxfattribs={"layer": layer})
        def rounded(x, y, w, h, r, layer="0"):
            q = math.tan(math.pi / 8)
            poly([(x + r, y), (x + w - r, y), (x + w, y + r), (x + w, y + h - r), (x + w - r, y + h), (x + r, y + h), (x, y + h - r), (x, y + r)], [0, q] * 4, layer)
        def hole(x, y, d, layer="0"):
            m.add_circle((x * k, y * k), d / 2 * k, dxfattribs={"layer": layer})
        if name == "tray":
            rounded(0, 0, 140, 100, 10)
            for x in (12, 128):
                for y in (12, 88):
                    hole(x, y, 3)
        elif name == "inch-plate":
            rounded(0, 0, 127, 88.9, 6.35)
            for x in (12.7, 114.3):
                hole(x, 12.7, 3.175)
        elif name == "keyhole":
            rounded(0, 0, 130, 90, 12)
            R, h = 10, 1.75
            b = math.sqrt(R * R - h * h)
            poly([(65 - h, 40 + b), (65 + h, 40 + b), (65 + h, 65), (65 - h, 65)], [math.tan((2 * math.pi - 2 * math.asin(h / R)) / 4), 0, 1, 0])
        elif name == "ell":
            poly([(0, 0), (130, 0), (130, 50), (50, 50), (50, 120), (0, 120)], [0] * 6)
            hole(110, 25, 1.5)
        elif name == "window":
            rounded(0, 0, 130, 100, 10)
            rounded(40, 35, 50, 30, 1)
        else:
            for layer in ("EXT", "INT", "CENTER"):
                doc.layers.add(layer)
            rounded(0, 0, 130, 100, 14, "EXT")
            hole(65, 50, 30, "INT")
            hole(20, 20, 4.5, "INT")
            m.add_line((0, 50), (130, 50), dxfattribs={"layer": "CENTER"})
        doc.saveas(path)
        """;

    public static TheoryData<string, string> Outlines =>
        new()
        {
            { "tray", "" },
            { "inch-plate", "" },
            { "keyhole", "" },
            { "window", "inner-corners-second-cutter" },
            { "ell", "trim-corner-too-tight" },
            { "layers", "" },
        };

    /// <param name="told">A code that the answer must have; empty for none.</param>
    [Theory]
    [MemberData(nameof(Outlines))]
    public void An_outline_becomes_a_judged_fixture(string name, string told)
    {
        string folder = Directory.CreateTempSubdirectory("fixturegen-").FullName;
        try
        {
            string drawing = Path.Combine(folder, name + ".dxf");
            Draw(name, drawing);
            string[] answers = ["--shell", "hdpe", "--thickness", "1.5 mm", "--slack", "0.3 mm", "--locator", "auto"];
            string[] edges = name == "ell" ? ["--corner-left", "0.5 mm", "--small-holes", "spot"] : [];
            Ran ran = Cli.Run(folder, ["new", drawing, "--shop", .. answers, .. edges]);
            Assert.True(ran.Exit == 0, ran.Error);
            string job = Path.ChangeExtension(drawing, ".toml");
            string answered = Answered(File.ReadAllLines(job));
            // the rack's thinnest trim cutter follows these corners: with a thicker one asked for they need a second
            File.WriteAllText(
                job,
                name == "window" ? answered.Replace("# trim_tool =", "trim_tool =", StringComparison.Ordinal) : answered
            );
            ran = Cli.Run(folder, "make", job, "--json");
            Assert.True(ran.Exit == 0, ran.Error);
            JsonObject report = ran.Json;
            Assert.True((bool)report["ok"]! && (bool)report["verify"]!["ok"]!);
            string[] codes = [.. report["findings"]!.AsArray().Select(f => (string)f!["code"]!)];
            Assert.True(told.Length == 0 || codes.Contains(told), ran.Error);
            Assert.DoesNotContain("wall-conventional", codes);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>The roles that <c>new</c> suggests for layers, taken: the # goes from those lines.</summary>
    private static string Answered(IEnumerable<string> lines)
    {
        List<string> job = [];
        bool roles = false;
        foreach (string line in lines)
        {
            roles =
                line.StartsWith("# [drawing.layers]", StringComparison.Ordinal)
                || (roles && line.StartsWith("# ", StringComparison.Ordinal));
            bool ignored =
                line.StartsWith("# ignore", StringComparison.Ordinal)
                || line.StartsWith("# [drawing]", StringComparison.Ordinal);
            job.Add(roles || ignored ? line[2..] : line);
        }
        return string.Join('\n', job) + "\n";
    }

    private static void Draw(string name, string path)
    {
        Assert.SkipUnless(File.Exists(Python), "no python3 here");
        ProcessStartInfo start = new(Python, ["-c", Script, name, path]) { RedirectStandardError = true };
        using Process process = Process.Start(start)!;
        string error = process.StandardError.ReadToEnd();
        process.WaitForExit();
        Assert.SkipWhen(
            error.Contains("No module named 'ezdxf'", StringComparison.Ordinal),
            "python3-ezdxf is not installed: apt-get install python3-ezdxf"
        );
        Assert.True(process.ExitCode == 0, error);
    }
}
