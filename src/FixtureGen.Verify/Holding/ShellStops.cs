using FixtureGen.Model;
using FixtureGen.Verify.Shape;

namespace FixtureGen.Verify.Holding;

/// <summary>
/// What stops the shell once it has slipped: the locator pins in its holes and, while the outline is cut, the bridges through which
/// the pins in the scrap still reach the part. Strengths N from the sheet's yield: bearing 1.0 yield d t, shear-out
/// 2 x 0.577 yield t (e - d/2) with e from the hole to the nearest cut or the block's edge; a bridge 0.577 yield l t. Frictionless,
/// so that the limit theorems hold (ONR technical report 85, 1953). A form that nests stops the shell by its wall until the end: half
/// of the sheet's crushing strength a length, less what its draft lifts; round a closed wall what is pushed against and what
/// is left are the same for every rigid motion (divergence theorem), so each piece holds both ways with half of that. Without
/// figures for the sheet nothing counts.
/// </summary>
internal sealed class ShellStops
{
    /// <summary>Shear yield over tensile yield (von Mises).</summary>
    private const double ShearShare = 0.577;

    /// <summary>Share of a nest wall's crushing strength that counts: it is thin, drafted and round at its foot; the house's choice.</summary>
    private const double WallShare = 0.5;

    private const double WallStep = 5;

    private readonly List<Grip> _inPart = [];
    private readonly List<Grip> _inScrap = [];
    private readonly List<Grip> _tabs = [];

    public ShellStops(Job job, FixtureDesign design)
    {
        if (job.ShellMaterial.Sheet is not { } sheet)
        {
            return;
        }
        if (job.Locator == LocatorKind.Form)
        {
            _inPart.AddRange(
                design
                    .Part.Forms.Where(f => f.Direction == FormDirection.Down || f.Plugged)
                    .SelectMany(f => Wall(f, job, sheet))
            );
        }
        if (job.Locator != LocatorKind.Pins || job.LocatorPins.IsEmpty)
        {
            return;
        }
        Point2[] pins = [.. job.LocatorPins.Select(p => OnPlate(design.Placement.Pose, p))];
        Area part = new(Region.From(design.Part.Outer));
        for (int i = 0; i < pins.Length; i++)
        {
            bool inPart = part.Contains(pins[i]);
            double strength = Strength(job, design, sheet, pins[i], inPart);
            Point2 line = pins[i] - pins[0];
            bool slot = i > 0 && job.LocatorHoles == LocatorHoles.RoundAndSlot && line.Length > 1e-6;
            Grip grip = new(pins[i], 0, strength, slot ? line.Left * (1 / line.Length) : default);
            (inPart ? _inPart : _inScrap).Add(grip);
        }
        double thick = Math.Min(job.Rules.TabThickness, job.Shell.ThicknessMin);
        foreach (TrimCut cut in design.TrimCuts.Where(c => c.Kind == TrimKind.Outline))
        {
            foreach (Tab tab in cut.Tabs)
            {
                Point2 at = AlongPath(cut.Path, tab.At);
                _tabs.Add(new Grip(at, 0, ShearShare * sheet.YieldMPa * tab.Length * thick, default));
            }
        }
    }

    /// <summary>Before the outline is cut every pin holds the shell.</summary>
    public Grip[] Whole => [.. _inPart, .. _inScrap];

    /// <summary>While it is cut: the part may tear its bridges, or go with them and tear the scrap's pins; both must hold.</summary>
    public Grip[][] Cut =>
        _tabs.Count == 0 || _inScrap.Count == 0
            ?
            [
                [.. _inPart],
            ]
            :
            [
                [.. _inPart, .. _tabs],
                [.. _inPart, .. _inScrap],
            ];

    private static double Strength(Job job, FixtureDesign design, SheetStrength sheet, Point2 at, bool inPart)
    {
        double t = job.Shell.ThicknessMin;
        double d = job.Rules.LocatorPinDiameter;
        double edge = inPart ? double.MaxValue : ToBlockEdge(design.Placement.BlankBox, at);
        IEnumerable<Piece> cuts = inPart
            ? design.Part.Cutouts.Prepend(design.Part.Outer).SelectMany(c => c.Segments).Select(Piece.From)
            : design
                .TrimCuts.SelectMany(c => c.Sweep)
                .SelectMany(r => r.Contours)
                .SelectMany(c => c.Segments)
                .Select(Piece.From);
        foreach (Piece piece in cuts.Where(p => p.Length > 0))
        {
            edge = Math.Min(edge, Distance.To(piece, at));
        }
        double bearing = sheet.YieldMPa * d * t;
        double shearOut = 2 * ShearShare * sheet.YieldMPa * t * (edge - (d / 2));
        return Math.Max(0, Math.Min(bearing, shearOut));
    }

    private static IEnumerable<Grip> Wall(FormRegion form, Job job, SheetStrength sheet)
    {
        double climbs = Math.Max(0, 1 - Math.Tan(form.DraftDeg * Math.PI / 180));
        double perMm = WallShare * sheet.YieldMPa * job.Shell.ThicknessMin * climbs;
        foreach (Piece piece in form.Edge.Segments.Select(Piece.From).Where(p => p.Length > 0))
        {
            int parts = (int)Math.Max(1, Math.Ceiling(piece.Length / WallStep));
            for (int i = 0; i < parts; i++)
            {
                double t = (i + 0.5) / parts;
                yield return new Grip(piece.PointAt(t), 0, perMm * piece.Length / parts / 2, piece.Tangent(t).Left);
            }
        }
    }

    private static double ToBlockEdge(Box2 b, Point2 p) =>
        Math.Max(0, Math.Min(Math.Min(p.X - b.MinX, b.MaxX - p.X), Math.Min(p.Y - b.MinY, b.MaxY - p.Y)));

    private static Point2 OnPlate(Pose pose, Point2 p)
    {
        (double sin, double cos) = Math.SinCos(pose.AngleDeg * Math.PI / 180);
        return new Point2(pose.X + (cos * p.X) - (sin * p.Y), pose.Y + (sin * p.X) + (cos * p.Y));
    }

    private static Point2 AlongPath(Contour path, double distance)
    {
        Piece[] pieces = [.. path.Segments.Select(Piece.From)];
        foreach (Piece piece in pieces)
        {
            if (distance <= piece.Length && piece.Length > 0)
            {
                return piece.PointAt(Math.Max(0, distance / piece.Length));
            }
            distance -= piece.Length;
        }
        return pieces[^1].B;
    }
}
