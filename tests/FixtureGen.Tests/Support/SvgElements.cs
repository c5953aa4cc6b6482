using System.Text;
using System.Text.Json;

namespace FixtureGen.Tests.Support;

/// <summary>The system's python3-svgelements, an independent reader of SVG: box and length of each shape in pixels, y down, by four hundred points of each piece (its own boxes of turned arcs are not those of its points).</summary>
internal static class SvgElements
{
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

    private static readonly PythonOracle Oracle = new("svgelements", "python3-svgelements");

    public static JsonElement Read(string svg) => Oracle.Ask(Script, Encoding.UTF8.GetBytes(svg), ".svg");
}
