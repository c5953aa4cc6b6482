using System.Diagnostics;
using System.Text.Json;
using Xunit;

namespace FixtureGen.Tests.Support;

/// <summary>The system's python3-svgelements, an independent reader of SVG: box and length of each shape in pixels, y down, by four hundred points of each piece (its own boxes of turned arcs are not those of its points).</summary>
internal static class SvgElements
{
    private const string Python = "/usr/bin/python3";

    private const string Script = """
        import sys, json, math
        from svgelements import SVG, Shape, Path, Move
        out = []
        for e in SVG.parse(sys.argv[1], ppi=96).elements():
            if isinstance(e, Shape):
                points = [s.point(t / 400) for s in abs(Path(e)) if not isinstance(s, Move) for t in range(401)]
                x, y = [p.x for p in points], [p.y for p in points]
                out.append(dict(box=[min(x), min(y), max(x), max(y)],
                    length=sum(math.dist(a, b) for a, b in zip(zip(x, y), zip(x[1:], y[1:])))))
        print(json.dumps(out))
        """;

    public static JsonElement Read(string svg)
    {
        Assert.SkipUnless(
            File.Exists(Python) && Run("-c", "import svgelements") is not null,
            "python3-svgelements is not installed: apt-get install python3-svgelements"
        );
        string file = Path.Combine(Path.GetTempPath(), $"fixturegen-{Guid.NewGuid():N}.svg");
        File.WriteAllText(file, svg);
        try
        {
            string? answer = Run("-c", Script, file);
            Assert.NotNull(answer);
            using var json = JsonDocument.Parse(answer);
            return json.RootElement.Clone();
        }
        finally
        {
            File.Delete(file);
        }
    }

    private static string? Run(params string[] arguments)
    {
        var start = new ProcessStartInfo(Python, arguments)
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        using Process process = Process.Start(start)!;
        Task<string> errors = process.StandardError.ReadToEndAsync();
        string text = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        Assert.True(process.ExitCode == 0 || arguments.Length == 2, errors.Result);
        return process.ExitCode == 0 ? text : null;
    }
}
