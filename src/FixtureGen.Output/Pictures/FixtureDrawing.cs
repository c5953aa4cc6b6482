using System.Collections.Immutable;
using FixtureGen.Design.Trim;
using FixtureGen.Drawing.Writing;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Output.Reports;

namespace FixtureGen.Output.Pictures;

/// <summary>
/// The fixture as a drawing: every feature on a layer of its kind, in the plate frame, mm, DXF 2000, arcs exact. Closed
/// curves are closed polylines or circles, so that another program measures the same areas; heights stand in a list beside it.
/// </summary>
public static class FixtureDrawing
{
    private const double Text = 3.5;

    private static readonly (string Layer, int Colour, FeatureKind Kind)[] Kinds =
    [
        ("SKIM", 9, FeatureKind.Skim),
        ("PLUG", 30, FeatureKind.Plug),
        ("PLUG_VENT", 140, FeatureKind.PlugVent),
        ("RELIEF", 8, FeatureKind.Relief),
        ("CUTOUT_RELIEF", 8, FeatureKind.CutoutRelief),
        ("FORM", 4, FeatureKind.FormPocket),
        ("GASKET_GROOVE", 5, FeatureKind.GasketGroove),
        ("NET", 140, FeatureKind.Net),
        ("CHANNEL", 150, FeatureKind.Channel),
        ("MAGNET", 1, FeatureKind.MagnetPocket),
        ("MAGNET_NOTCH", 12, FeatureKind.MagnetNotch),
        ("BOLT", 3, FeatureKind.BoltHole),
        ("COUNTERBORE", 3, FeatureKind.Counterbore),
        ("PIN", 6, FeatureKind.PinHole),
        ("PIN_SLOT", 6, FeatureKind.PinSlot),
        ("LOCATOR", 6, FeatureKind.LocatorHole),
        ("PORT", 30, FeatureKind.Port),
        ("LABEL", 32, FeatureKind.Label),
        ("MARK", 32, FeatureKind.Mark),
    ];

    private static readonly (string Layer, int Colour)[] Others =
    [
        ("BLANK", 7),
        ("PART_OUTLINE", 7),
        ("PART_CUTOUT", 7),
        ("PART_FORM", 4),
        ("KEEPOUT", 40),
        ("ZONE", 170),
        ("CORD", 5),
        ("CORD_JOINT", 5),
        ("TRIM_PATH", 20),
        ("TRIM_LEAD", 20),
        ("TRIM_ENGRAVE", 20),
        ("TAB", 2),
        ("PLATE_SEAL", 9),
        ("PLATE_OPENING", 9),
        ("HEIGHTS", 7),
    ];

    /// <summary>DXF bytes; the same for the same design.</summary>
    public static byte[] Dxf(FixtureDesign design, Job job)
    {
        ImmutableArray<DxfItem> items =
        [
            .. Block(design),
            .. Features(design),
            .. Part(design),
            .. Plate(job.Plate),
            .. Heights(design),
        ];
        ImmutableArray<DxfLayer> layers =
        [
            .. Kinds.Select(k => new DxfLayer(k.Layer, k.Colour)),
            .. Others.Select(o => new DxfLayer(o.Layer, o.Colour)),
        ];
        return DxfWriter.Write(new DxfSheet(LengthUnit.Millimetre, layers, items));
    }

    /// <summary>The layer a feature of <paramref name="kind"/> is drawn on.</summary>
    public static string Layer(FeatureKind kind) => Kinds.First(k => k.Kind == kind).Layer;

    private static IEnumerable<DxfItem> Block(FixtureDesign design)
    {
        yield return Loop("BLANK", Contours.Rectangle(design.Placement.BlankBox));
        foreach (Contour contour in design.Zones.SelectMany(z => z.Sealed).SelectMany(r => r.Contours))
        {
            yield return Loop("ZONE", contour);
        }
        foreach (CordLoop cord in design.AllCords)
        {
            yield return Loop("CORD", cord.Centre);
            yield return new DxfPoint("CORD_JOINT", cord.Joint);
        }
    }

    private static IEnumerable<DxfItem> Features(FixtureDesign design)
    {
        foreach (Feature feature in design.Features)
        {
            string layer = Layer(feature.Kind);
            if (feature is EngravingFeature engraving)
            {
                foreach (OpenPath stroke in engraving.Strokes)
                {
                    yield return new DxfPath(layer, stroke);
                }
                continue;
            }
            foreach (Contour contour in feature.Removals.SelectMany(r => r.Area).SelectMany(r => r.Contours))
            {
                yield return Loop(layer, contour);
            }
        }
    }

    private static IEnumerable<DxfItem> Part(FixtureDesign design)
    {
        yield return Loop("PART_OUTLINE", design.Part.Outer);
        foreach (Contour cutout in design.Part.Cutouts)
        {
            yield return Loop("PART_CUTOUT", cutout);
        }
        foreach (FormRegion form in design.Part.Forms)
        {
            yield return Loop("PART_FORM", form.Edge);
        }
        foreach (Contour keepOut in design.Part.KeepOuts)
        {
            yield return Loop("KEEPOUT", keepOut);
        }
        foreach (OpenPath stroke in design.Part.Engravings.SelectMany(e => e.Strokes))
        {
            yield return new DxfPath("TRIM_ENGRAVE", stroke);
        }
        foreach (TrimCut cut in design.TrimCuts)
        {
            yield return Loop("TRIM_PATH", cut.Path);
            foreach (Contour ring in cut.Clearing)
            {
                yield return Loop("TRIM_PATH", ring);
            }
            foreach (Tab tab in cut.Tabs)
            {
                yield return new DxfPoint("TAB", Measure.PointAlong(cut.Path, tab.At));
            }
            foreach (OpenPath lead in (OpenPath[])[cut.LeadIn, cut.LeadOut])
            {
                if (!lead.Segments.IsDefaultOrEmpty)
                {
                    yield return new DxfPath("TRIM_LEAD", lead);
                }
            }
        }
    }

    private static IEnumerable<DxfItem> Plate(Plate plate)
    {
        yield return Loop("PLATE_SEAL", plate.SealLoop);
        foreach (PlateOpening opening in plate.Openings)
        {
            yield return new DxfCircle("PLATE_OPENING", opening.At, opening.Diameter / 2);
            yield return new DxfText("PLATE_OPENING", opening.Name, opening.At, Text, 0);
        }
    }

    /// <summary>One line for each height a kind of feature is cut to: top and floor Z, from which side.</summary>
    private static IEnumerable<DxfItem> Heights(FixtureDesign design)
    {
        Box2 blank = design.Placement.BlankBox;
        Point2 at = new(blank.MaxX + 15, blank.MaxY - Text);
        yield return new DxfText(
            "HEIGHTS",
            $"{design.Label}; Z0 PLATE FACE, SKIMMED TO Z {Figures.Mm(design.SkimmedZ)} MM",
            at,
            Text,
            0
        );
        string[] lines =
        [
            .. design
                .Removals.Select(r =>
                    $"{Layer(r.Kind)}: Z {Figures.Mm(r.TopZ)} TO {Figures.Mm(r.FloorZ)}, FROM {(r.Setup == Setup.Underside ? "BELOW" : "ABOVE")}"
                )
                .Distinct(StringComparer.Ordinal)
                .Order(StringComparer.Ordinal),
        ];
        foreach (string line in lines)
        {
            at -= new Point2(0, Text * 1.7);
            yield return new DxfText("HEIGHTS", line, at, Text, 0);
        }
    }

    /// <summary>A contour whose arcs share one centre and radius all round is a circle.</summary>
    private static DxfItem Loop(string layer, Contour contour)
    {
        Segment first = contour.Segments[0];
        return Circles.IsCircle(contour, 1e-9)
            ? new DxfCircle(layer, first.Centre, first.Radius)
            : new DxfLoop(layer, contour);
    }
}
