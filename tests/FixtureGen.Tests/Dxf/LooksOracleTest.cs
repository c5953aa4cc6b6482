using System.Text.Json;
using FixtureGen.Drawing;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Dxf;

/// <summary>Layer, line type, colour and what hides each curve of the drawings of other programs, as python3-ezdxf reads them.</summary>
public sealed class LooksOracleTest
{
    private const string Script = """
        import sys, json, ezdxf
        out = {}
        for name in sys.argv[1:]:
            try:
                doc = ezdxf.readfile(name)
            except Exception:
                continue
            rows = []
            for e in doc.modelspace():
                if e.dxftype() == 'INSERT':
                    rows = None
                    break
                if e.dxftype() not in ('LINE', 'ARC', 'CIRCLE', 'ELLIPSE', 'LWPOLYLINE'):
                    continue
                layer = doc.layers.get(e.dxf.layer) if doc.layers.has_entry(e.dxf.layer) else None
                lt = e.dxf.get('linetype', 'BYLAYER')
                if lt.upper() == 'BYLAYER':
                    lt = layer.dxf.linetype if layer else 'CONTINUOUS'
                if lt.upper() == 'BYBLOCK':
                    lt = 'CONTINUOUS'
                aci = e.dxf.get('color', 256)
                rgb = e.rgb
                if rgb is None and aci == 256 and layer:
                    rgb, aci = layer.rgb, layer.color
                colour = '%02x%02x%02x' % tuple(rgb) if rgb else str(7 if aci in (0, 256) else aci)
                hidden = [bool(layer and layer.is_off()), bool(layer and layer.is_frozen()),
                    bool(layer and (not layer.dxf.plot or layer.dxf.name.upper() == 'DEFPOINTS')), bool(e.dxf.get('invisible', 0))]
                rows.append([e.dxftype(), e.dxf.layer.upper(), lt.upper(), colour, hidden])
            if rows:
                out[name] = rows
        print(json.dumps(out))
        """;

    [Fact]
    public void Looks_agree_with_the_independent_reader()
    {
        Drawings.Need();
        JsonElement theirs = Ezdxf.Ask(Script, Drawings.Files);
        var wrong = new List<string>();
        int curves = 0;
        foreach (JsonProperty file in theirs.EnumerateObject())
        {
            DrawingContent? drawing = DxfReader.Read(File.ReadAllBytes(file.Name), "x", null, Tolerances.House).Value;
            string[] own =
            [
                .. (drawing?.Curves ?? [])
                    .Where(c => c.Entity is "LINE" or "ARC" or "CIRCLE" or "ELLIPSE" or "LWPOLYLINE")
                    .Select(Own)
                    .Distinct()
                    .Order(StringComparer.Ordinal),
            ];
            string[] other = [.. file.Value.EnumerateArray().Select(Other).Distinct().Order(StringComparer.Ordinal)];
            curves += file.Value.GetArrayLength();
            // ours may lack what has no length
            if (own.Except(other).Any() || other.Except(own).Count() > other.Length / 2)
            {
                wrong.Add(
                    $"{Path.GetFileName(file.Name)}: {string.Join(", ", own.Except(other))} for {string.Join(", ", other.Except(own))}"
                );
            }
        }
        Assert.True(curves > 200, FormattableString.Invariant($"{curves} curves"));
        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
    }

    private static string Own(DrawnCurve c) =>
        FormattableString.Invariant(
            $"{c.Entity} {c.Layer.ToUpperInvariant()} {c.Look.LineType} {c.Look.Colour} {(int)c.Look.Hidden}"
        );

    private static string Other(JsonElement row)
    {
        string colour = row[3].GetString()!;
        bool[] hidden = [.. row[4].EnumerateArray().Select(h => h.GetBoolean())];
        int bits = hidden.Select((h, i) => h ? 1 << i : 0).Sum();
        string spelled = colour.Length == 6 ? DrawingColour.Parse("#" + colour)! : DrawingColour.Parse(colour)!;
        return FormattableString.Invariant(
            $"{row[0].GetString()} {row[1].GetString()} {row[2].GetString()} {spelled} {bits}"
        );
    }
}
