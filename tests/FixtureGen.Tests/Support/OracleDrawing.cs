using System.Text.Json;

namespace FixtureGen.Tests.Support;

/// <summary>What the independent reader (ezdxf 0.18.1 with shapely) makes of a drawing; drawing units throughout.</summary>
internal sealed record OracleDrawing(
    bool Read,
    string? Version,
    IReadOnlyList<OracleLoop> Loops,
    IReadOnlyList<double> OpenLengths,
    int Branched,
    bool LoopsCross
)
{
    public static OracleDrawing Load(string path)
    {
        using var json = JsonDocument.Parse(File.ReadAllText(path));
        JsonElement root = json.RootElement;
        bool read = root.TryGetProperty("loops", out JsonElement loops);
        return new OracleDrawing(
            read,
            root.GetProperty("raw").TryGetProperty("$ACADVER", out JsonElement version) ? version.GetString() : null,
            read ? [.. loops.EnumerateArray().Select(OracleLoop.From)] : [],
            read
                ? [.. root.GetProperty("open_chains").EnumerateArray().Select(c => c.GetProperty("length").GetDouble())]
                : [],
            read ? root.GetProperty("branched").GetArrayLength() : 0,
            root.TryGetProperty("crossing_loop_pairs", out JsonElement pairs) && pairs.GetInt32() > 0
        );
    }
}

/// <summary>Best figures of one loop; closed form where lines and arcs alone make it.</summary>
internal sealed record OracleLoop(
    double Area,
    double Perimeter,
    bool ClosedForm,
    bool Valid,
    int? Depth,
    bool Duplicate,
    double[] Box
)
{
    public static OracleLoop From(JsonElement loop) =>
        new(
            loop.GetProperty("best_area").GetDouble(),
            loop.GetProperty("best_perimeter").GetDouble(),
            loop.GetProperty("closed_form").GetBoolean(),
            loop.GetProperty("valid").GetBoolean(),
            loop.TryGetProperty("depth", out JsonElement depth) ? depth.GetInt32() : null,
            loop.TryGetProperty("duplicate_of", out _),
            [.. loop.GetProperty("bbox").EnumerateArray().Select(v => v.GetDouble())]
        );
}
