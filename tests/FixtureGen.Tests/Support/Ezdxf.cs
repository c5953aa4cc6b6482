using System.Text.Json;

namespace FixtureGen.Tests.Support;

/// <summary>The system's python3-ezdxf, an independent reader of DXF: audits a drawing and measures its closed curves.</summary>
internal static class Ezdxf
{
    private const string Script = """
        import sys, json, math, ezdxf
        from ezdxf.math import bulge_to_arc
        from ezdxf.lldxf.encoding import decode_dxf_unicode
        doc = ezdxf.readfile(sys.argv[1])
        audit = doc.audit()
        areas = []; on = []
        for e in doc.modelspace():
            if e.dxftype() == 'CIRCLE':
                areas.append(math.pi * e.dxf.radius ** 2); on.append(e.dxf.layer)
            elif e.dxftype() == 'LWPOLYLINE' and e.closed:
                p = list(e.get_points('xyb')); a = 0
                for (x0, y0, b), (x1, y1, _) in zip(p, p[1:] + p[:1]):
                    a += (x0 * y1 - x1 * y0) / 2
                    if b:
                        r, w = bulge_to_arc((x0, y0), (x1, y1), b)[3], 4 * math.atan(b)
                        a += r * r / 2 * (w - math.sin(w))
                areas.append(abs(a)); on.append(e.dxf.layer)
        print(json.dumps(dict(errors=[e.message for e in audit.errors], fixes=[e.message for e in audit.fixes],
            version=doc.dxfversion, units=doc.header.get('$INSUNITS'), areas=areas, areaLayers=on,
            layers=[l.dxf.name for l in doc.layers], texts=[decode_dxf_unicode(e.dxf.text) for e in doc.modelspace().query('TEXT')],
            types=[e.dxftype() for e in doc.modelspace()])))
        """;

    private static readonly PythonOracle Oracle = new("ezdxf", "python3-ezdxf");

    public static JsonElement Read(byte[] drawing) => Oracle.Ask(Script, drawing, ".dxf");

    /// <summary>What a script of its own says of the files, as JSON.</summary>
    public static JsonElement Ask(string script, IEnumerable<string> files) => Oracle.Ask(script, files);
}
