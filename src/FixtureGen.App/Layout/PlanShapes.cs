using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using FixtureGen.Model;

namespace FixtureGen.App.Layout;

/// <summary>The design as SVG path data in plate-frame mm, Y up; the page only draws it.</summary>
public static class PlanShapes
{
    public static JsonArray Of(FixtureDesign design, Job job)
    {
        JsonArray shapes = [];
        Box2 b = design.Placement.BlankBox;
        Add(shapes, "blank", "blank", [Rectangle(b)]);
        foreach (Feature f in design.Features)
        {
            Add(shapes, f);
        }
        Add(shapes, "part", "finished edge", [.. design.Part.Cutouts.Prepend(design.Part.Outer).Select(Data)]);
        foreach (SealedZone zone in design.Zones)
        {
            Add(shapes, "zone", "sealed zone", [.. zone.Sealed.SelectMany(r => r.Contours).Select(Data)]);
        }
        foreach (FormRegion form in design.Part.Forms)
        {
            Add(
                shapes,
                "form",
                form.Direction == FormDirection.Up ? "form, upwards" : "form, downwards",
                [Data(form.Edge)]
            );
        }
        foreach (Contour keep in design.Part.KeepOuts)
        {
            Add(shapes, "keep", "keep-out", [Data(keep)]);
        }
        foreach (PlateOpening o in job.Plate.Openings)
        {
            Add(shapes, "opening", "plate: " + o.Name, [Circle(o.At, Math.Max(o.Diameter, o.ReliefDiameter) / 2)]);
        }
        return shapes;
    }

    private static void Add(JsonArray shapes, Feature feature)
    {
        string kind = feature.Kind switch
        {
            FeatureKind.Skim
            or FeatureKind.MagnetPocket
            or FeatureKind.MagnetNotch
            or FeatureKind.Mark
            or FeatureKind.Label => "",
            FeatureKind.Relief or FeatureKind.CutoutRelief or FeatureKind.FormPocket => "relief",
            FeatureKind.GasketGroove => "groove",
            FeatureKind.Net or FeatureKind.Channel => "net",
            _ => "hole",
        };
        if (kind.Length == 0)
        {
            return;
        }
        Add(
            shapes,
            kind,
            feature.Name,
            [.. feature.Removals.SelectMany(r => r.Area).SelectMany(r => r.Contours).Select(Data)]
        );
    }

    private static void Add(JsonArray shapes, string kind, string name, ImmutableArray<string> data)
    {
        if (data.Length > 0)
        {
            shapes.Add(
                (JsonNode)
                    new JsonObject
                    {
                        ["kind"] = kind,
                        ["name"] = name,
                        ["d"] = string.Join(' ', data),
                    }
            );
        }
    }

    private static string Data(Contour contour)
    {
        StringBuilder d = new();
        d.Append(CultureInfo.InvariantCulture, $"M{N(contour.Segments[0].Start.X)} {N(contour.Segments[0].Start.Y)}");
        foreach (Segment s in contour.Segments)
        {
            if (s.IsArc)
            {
                int large = Math.Abs(s.Sweep) > Math.PI ? 1 : 0;
                int ccw = s.IsCcw ? 1 : 0;
                d.Append(
                    CultureInfo.InvariantCulture,
                    $"A{N(s.Radius)} {N(s.Radius)} 0 {large} {ccw} {N(s.End.X)} {N(s.End.Y)}"
                );
            }
            else
            {
                d.Append(CultureInfo.InvariantCulture, $"L{N(s.End.X)} {N(s.End.Y)}");
            }
        }
        return d.Append('Z').ToString();
    }

    private static string Rectangle(Box2 b) =>
        $"M{N(b.MinX)} {N(b.MinY)}L{N(b.MaxX)} {N(b.MinY)}L{N(b.MaxX)} {N(b.MaxY)}L{N(b.MinX)} {N(b.MaxY)}Z";

    private static string Circle(Point2 c, double r) =>
        $"M{N(c.X - r)} {N(c.Y)}A{N(r)} {N(r)} 0 1 1 {N(c.X + r)} {N(c.Y)}A{N(r)} {N(r)} 0 1 1 {N(c.X - r)} {N(c.Y)}Z";

    private static string N(double v) => Math.Round(v, 3).ToString(CultureInfo.InvariantCulture);
}
