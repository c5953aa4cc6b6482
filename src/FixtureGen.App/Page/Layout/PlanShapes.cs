using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.App.Page.Layout;

/// <summary>One thing of the plan, plate frame mm, Y up. Key is the same for the same curves only, so that the page is sent what it lacks.</summary>
internal sealed record PlanShape(string Kind, string Name, ImmutableArray<Contour> Curves)
{
    /// <summary>96 bits of the SHA-256 of the curves' numbers, lower-case hex.</summary>
    public string Key { get; } = LayoutFacts.Key([.. Curves.SelectMany(c => c.Segments).SelectMany(Numbers)]);

    /// <summary>SVG path data.</summary>
    public string Data => string.Join(' ', Curves.Select(c => Path(c.Segments, closed: true)));

    private static double[] Numbers(Segment s) =>
        [s.Start.X, s.Start.Y, s.End.X, s.End.Y, s.Centre.X, s.Centre.Y, (double)s.Kind];

    /// <summary>SVG path data of segments one after the other, Y up; closed where they are a contour's.</summary>
    public static string Path(IReadOnlyList<Segment> segments, bool closed)
    {
        StringBuilder d = new();
        d.Append(CultureInfo.InvariantCulture, $"M{N(segments[0].Start.X)} {N(segments[0].Start.Y)}");
        foreach (Segment s in segments)
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
        return closed ? d.Append('Z').ToString() : d.ToString();
    }

    private static string N(double v) => Math.Round(v, 3).ToString(CultureInfo.InvariantCulture);
}

/// <summary>The design as the page draws it.</summary>
internal static class PlanShapes
{
    /// <summary>In the order of drawing: blank, features, finished edge, zones, forms, keep-outs, openings of the plate.</summary>
    public static ImmutableArray<PlanShape> Draw(FixtureDesign design, Job job)
    {
        var shapes = ImmutableArray.CreateBuilder<PlanShape>();
        shapes.Add(new("blank", "blank", [Contours.Rectangle(design.Placement.BlankBox)]));
        foreach (Feature f in design.Features)
        {
            ImmutableArray<Contour> cut = [.. f.Removals.SelectMany(r => r.Area).SelectMany(r => r.Contours)];
            if (KindOf(f) is { } kind && cut.Length > 0)
            {
                shapes.Add(new(kind, f.Name, cut));
            }
        }
        shapes.Add(new("part", "finished edge", [design.Part.Outer, .. design.Part.Cutouts]));
        foreach (SealedZone zone in design.Zones)
        {
            shapes.Add(new("zone", "sealed zone", [.. zone.Sealed.SelectMany(r => r.Contours)]));
        }
        foreach (FormRegion form in design.Part.Forms)
        {
            string way = form.Direction == FormDirection.Up ? "form, upwards" : "form, downwards";
            shapes.Add(new("form", way, [form.Edge]));
        }
        foreach (Contour keep in design.Part.KeepOuts)
        {
            shapes.Add(new("keep", "keep-out", [keep]));
        }
        foreach (PlateOpening o in job.Plate.Openings)
        {
            double radius = Math.Max(o.Diameter, o.ReliefDiameter) / 2;
            shapes.Add(new("opening", "plate: " + o.Name, [Contours.Circle(o.At, radius)]));
        }
        return shapes.ToImmutable();
    }

    /// <summary>All shapes in order by their keys.</summary>
    public static ShapeAnswer[] List(ImmutableArray<PlanShape> shapes) =>
        [.. shapes.Select(s => new ShapeAnswer(s.Kind, s.Name, s.Key))];

    /// <summary>The curves of the shapes that the page has not got, by key.</summary>
    public static Dictionary<string, string> Curves(ImmutableArray<PlanShape> shapes, IReadOnlySet<string> have)
    {
        Dictionary<string, string> curves = [];
        foreach (PlanShape s in shapes.Where(s => !have.Contains(s.Key)))
        {
            curves[s.Key] = s.Data;
        }
        return curves;
    }

    /// <summary>How a feature is drawn; null for what the page draws itself or leaves out.</summary>
    private static string? KindOf(Feature feature) =>
        feature.Kind switch
        {
            FeatureKind.Skim
            or FeatureKind.Plug
            or FeatureKind.PlugVent
            or FeatureKind.MagnetPocket
            or FeatureKind.MagnetNotch
            or FeatureKind.Mark
            or FeatureKind.Label => null,
            FeatureKind.Relief or FeatureKind.CutoutRelief or FeatureKind.FormPocket => "relief",
            FeatureKind.GasketGroove => "groove",
            FeatureKind.Net or FeatureKind.Channel => "net",
            FeatureKind.BoltHole
            or FeatureKind.Counterbore
            or FeatureKind.PinHole
            or FeatureKind.PinSlot
            or FeatureKind.LocatorHole
            or FeatureKind.Port => "hole",
        };
}
