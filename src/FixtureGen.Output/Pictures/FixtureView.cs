using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Output.Scenes;

namespace FixtureGen.Output.Pictures;

/// <summary>
/// Draws a design's features from above (or, mirrored, from below) in the order that keeps each visible, and remembers
/// which kinds it used, for the legend. Text size is the em size on paper, mm; 0 leaves magnets unlettered.
/// </summary>
internal sealed class FixtureView(Scene scene, View view, double textSize, bool fromBelow = false)
{
    private static readonly FeatureKind[] BottomUp =
    [
        FeatureKind.Relief,
        FeatureKind.CutoutRelief,
        FeatureKind.FormPocket,
        FeatureKind.Net,
        FeatureKind.Channel,
        FeatureKind.PlugVent,
        FeatureKind.GasketGroove,
        FeatureKind.MagnetNotch,
        FeatureKind.MagnetPocket,
        FeatureKind.Counterbore,
        FeatureKind.BoltHole,
        FeatureKind.PinHole,
        FeatureKind.PinSlot,
        FeatureKind.LocatorHole,
        FeatureKind.Port,
        FeatureKind.Label,
        FeatureKind.Mark,
    ];

    private readonly List<LineKind> _used = [];

    public IReadOnlyList<LineKind> Used => _used;

    /// <summary>Block, features, part edge and trim path.</summary>
    public void Everything(FixtureDesign design, Job job)
    {
        Block(design);
        PlateSeal(job.Plate);
        Features(design, _ => true, zones: true);
        Part(design.Part);
        Trim(design);
    }

    /// <summary>What is cut from below, with the plate seal, for the underside's own picture.</summary>
    public void Underside(FixtureDesign design, Job job)
    {
        Block(design);
        PlateSeal(job.Plate);
        Features(design, f => f.Setup == Setup.Underside, zones: false);
    }

    private void Block(FixtureDesign design)
    {
        scene.Shape(view.ToPage(Chain.Box(design.Placement.BlankBox)), Use(LineKind.Blank).Pen, LineKind.Blank.Fill);
    }

    private void PlateSeal(Plate plate) => scene.Shape(view.ToPage(plate.SealLoop), Use(LineKind.PlateSeal).Pen);

    private void Features(FixtureDesign design, Func<Feature, bool> wanted, bool zones)
    {
        foreach (FeatureKind kind in BottomUp)
        {
            foreach (Feature feature in design.Features.Where(f => f.Kind == kind && wanted(f)))
            {
                Draw(feature);
            }
            if (kind == FeatureKind.CutoutRelief && zones)
            {
                Zones(design);
            }
            if (kind == FeatureKind.GasketGroove)
            {
                Joints(design, wanted);
            }
        }
    }

    private void Part(Part part)
    {
        foreach (Contour keepOut in part.KeepOuts)
        {
            Use(LineKind.KeepOut).Areas(scene, view, [Region.From(keepOut)]);
        }
        FormRegion[] domes = [.. part.Forms.Where(f => f.Direction == FormDirection.Up)];
        if (domes.Length > 0)
        {
            scene.Shape(domes.Select(f => view.ToPage(f.Edge)), Use(LineKind.Dome).Pen);
        }
        scene.Shape(view.ToPage(part.Outer), Use(LineKind.Edge).Pen);
        scene.Shape(part.Cutouts.Select(view.ToPage), LineKind.Edge.Pen);
        if (part.Engravings.Any(e => !e.Strokes.IsEmpty))
        {
            scene.Shape(part.Engravings.SelectMany(e => e.Strokes).Select(view.ToPage), Use(LineKind.ShellMark).Pen);
        }
    }

    private void Trim(FixtureDesign design)
    {
        foreach (TrimCut cut in design.TrimCuts)
        {
            scene.Shape(view.ToPage(cut.Path), Use(LineKind.Trim).Pen);
            scene.Shape(cut.Clearing.Select(view.ToPage), LineKind.Trim.Pen);
            scene.Shape([view.ToPage(cut.LeadIn), view.ToPage(cut.LeadOut)], LineKind.Trim.Pen! with { Dash = [] });
            Arrow(cut.LeadIn);
            foreach (Tab tab in cut.Tabs)
            {
                scene.Shape(view.ToPage(Bridge(cut, tab)), Use(LineKind.Tab).Pen);
            }
        }
    }

    private void Zones(FixtureDesign design)
    {
        foreach (SealedZone zone in design.Zones)
        {
            if (!zone.Plugs.IsEmpty)
            {
                Use(LineKind.Plug).Areas(scene, view, zone.Plugs);
            }
            Use(LineKind.Zone).Areas(scene, view, zone.Sealed);
        }
    }

    private void Joints(FixtureDesign design, Func<Feature, bool> wanted)
    {
        if (!design.Features.Any(f => f.Kind == FeatureKind.GasketGroove && wanted(f)))
        {
            return;
        }
        foreach (CordLoop cord in design.AllCords)
        {
            Point2 at = view.ToPage(cord.Joint);
            Point2 half = new(1.1, 1.1);
            scene.Line(at - half, at + half, LineKind.Gasket.Pen! with { Width = 1.5 });
            scene.Line(at - half, at + half, Use(LineKind.Joint).Pen!);
        }
    }

    private void Draw(Feature feature)
    {
        bool hidden = (feature.Setup == Setup.Underside) != fromBelow;
        LineKind kind = Use(hidden ? LineKind.Below : LineKind.For(feature.Kind));
        if (feature is EngravingFeature text)
        {
            Pen pen = kind.Pen! with { Width = Math.Max(0.18, text.Width * view.Scale) };
            scene.Shape(text.Strokes.Select(view.ToPage), pen);
            return;
        }
        foreach (Removal removal in feature.Removals)
        {
            kind.Areas(scene, view, removal.Area);
        }
        if (kind.Cross && feature.Kind is FeatureKind.MagnetPocket or FeatureKind.BoltHole)
        {
            Cross(feature);
        }
        if (textSize > 0 && feature.Kind == FeatureKind.MagnetPocket && Middle(feature) is { } at)
        {
            scene.Text(
                "M",
                view.ToPage(at) - new Point2(0, textSize * 0.34),
                new TypeStyle(textSize, true, LineKind.Magnet.Pen!.Colour),
                Anchor.Middle
            );
        }
    }

    private void Cross(Feature feature)
    {
        if (feature.Kind == FeatureKind.MagnetPocket || Middle(feature) is not { } at)
        {
            return;
        }
        Box2 b = Measure.Bounds(feature.Removals[0].Area[0].Outer);
        double reach = (b.Width / 2 * view.Scale) + 1.5;
        Point2 c = view.ToPage(at);
        Pen centre = new(0.13, Colour.Black, [1.5, 0.5, 0.3, 0.5]);
        scene.Line(c - new Point2(reach, 0), c + new Point2(reach, 0), centre);
        scene.Line(c - new Point2(0, reach), c + new Point2(0, reach), centre);
    }

    private static Point2? Middle(Feature feature) =>
        feature switch
        {
            HoleFeature hole => hole.At,
            PocketFeature { Area.IsEmpty: false } pocket => Measure.Bounds(pocket.Area[0].Outer).Middle,
            _ => null,
        };

    /// <summary>An arrow head in the middle of the lead-in: the way the cutter goes.</summary>
    private void Arrow(OpenPath lead)
    {
        if (lead.Segments.IsDefaultOrEmpty)
        {
            return;
        }
        Segment last = lead.Segments[^1];
        Point2 way = last.IsArc ? (last.IsCcw ? 1 : -1) * (last.End - last.Centre).Left : last.End - last.Start;
        Point2 tip = view.ToPage(last.End);
        Point2 dir = view.ToPage(last.End + way) - tip;
        dir *= 1 / Math.Max(dir.Length, 1e-9);
        Point2 foot = tip - (dir * 2.6);
        scene.Shape(
            Chain.Polygon(tip, foot + (dir.Left * 0.75), foot - (dir.Left * 0.75)),
            null,
            LineKind.Trim.Pen!.Colour
        );
    }

    private static OpenPath Bridge(TrimCut cut, Tab tab)
    {
        double whole = Measure.Length(cut.Path);
        Point2[] points =
        [
            .. Enumerable.Range(0, 9).Select(i => On(cut.Path, tab.At + (tab.Length * ((i / 8.0) - 0.5)), whole)),
        ];
        return new OpenPath([.. points.Zip(points.Skip(1), Segment.Line)]);
    }

    private static Point2 On(Contour path, double at, double whole) =>
        Measure.PointAlong(path, ((at % whole) + whole) % whole);

    private LineKind Use(LineKind kind)
    {
        if (!_used.Contains(kind))
        {
            _used.Add(kind);
        }
        return kind;
    }
}
