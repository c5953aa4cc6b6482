using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Shop.Files;

namespace FixtureGen.Design.Forms;

/// <summary>
/// What the forms in the seal bear of all the vacuum that the pump can reach: caps by buckling, round walls as cones, other walls and
/// flat tops as plates that are at least as large as they are, so that the answer is on the safe side. Thinnest wall, softest sheet.
/// </summary>
internal static class FormStrength
{
    /// <summary>The thinnest place of a drawn wall over what an even stretch would leave (common practice, no source).</summary>
    private const double Thinnest = 0.8;

    /// <summary>How far a contour may be off a circle and pass for one, mm.</summary>
    private const double Round = 0.05;

    private const double Most = 999;

    /// <summary>
    /// One answer for each form that rises and that no cutout opens; with form-strength-unknown where the material states no sheet, and
    /// form-cap-not-round (errors).
    /// </summary>
    public static Stage<ImmutableArray<FormBearing>> Find(Part placed, Job job, Kernel kernel)
    {
        ImmutableArray<int> closed = Closed(placed, kernel);
        List<Finding> findings = [];
        var answers = ImmutableArray.CreateBuilder<FormBearing>();
        foreach (int i in closed)
        {
            FormRegion form = placed.Forms[i];
            if (form.Top == FormTop.Cap && Radius(form) is null)
            {
                findings.Add(FormFindings.CapNotRound(i + 1, Middle(form)));
            }
            else if (job.ShellMaterial.Sheet is not { } sheet)
            {
                findings.Add(FormFindings.Unknown(i + 1, Middle(form), job.ShellMaterial.Name));
            }
            else
            {
                answers.Add(Bearing(i, form, sheet, job, kernel));
            }
        }
        return Stage.Answer(answers.ToImmutable(), findings);
    }

    /// <summary>Numbers of the forms that rise and are not opened by a cutout.</summary>
    public static ImmutableArray<int> Closed(Part placed, Kernel kernel)
    {
        Region[] cutouts = [.. placed.Cutouts.Select(c => Region.From(Contours.Ccw(c)))];
        return
        [
            .. Enumerable
                .Range(0, placed.Forms.Length)
                .Where(i => placed.Forms[i].Direction == FormDirection.Up)
                .Where(i => kernel.Intersect([Region.From(Contours.Ccw(placed.Forms[i].Edge))], cutouts).IsEmpty),
        ];
    }

    /// <summary>Of those the forms over which a zone lies.</summary>
    public static ImmutableArray<FormBearing> Held(
        IEnumerable<FormBearing> bearings,
        Part placed,
        IReadOnlyList<SealedZone> zones
    ) =>
        [
            .. bearings.Where(b =>
                zones.Any(z => Inside.Contains(z.Boundary, placed.Forms[b.Form].Edge.Segments[0].Start))
            ),
        ];

    /// <summary>form-buckles or form-strained (errors) for those that need a plug and have none.</summary>
    public static IEnumerable<Finding> Judge(IEnumerable<FormBearing> bearings, Part placed, Job job) =>
        bearings.Where(b => !placed.Forms[b.Form].Plugged).SelectMany(b => Judge(b, placed.Forms[b.Form], job));

    /// <summary>What the pump reaches blanked off at the shop's altitude, N/mm2.</summary>
    public static double Pressure(Job job) =>
        Atmosphere.PumpLevelKPa(job.Vacuum.PumpRatedKPa, job.Vacuum.AltitudeM) / 1000;

    private static FormBearing Bearing(int number, FormRegion form, SheetStrength sheet, Job job, Kernel kernel)
    {
        Region foot = Region.From(Contours.Ccw(form.Edge));
        double t = form.ThicknessMin ?? Drawn(form, foot, job.Shell.ThicknessMin);
        Load load = new(t, Pressure(job), sheet);
        (double margin, double sag, double stress) =
            job.HoldBy == HoldBy.Magnets ? (Most, 0, 0)
            : form.Top == FormTop.Cap ? Cap(form, load)
            : FlatTopped(form, foot, load, kernel);
        return new FormBearing
        {
            Form = number,
            ProjectedMm2 = Measure.Area(foot),
            HeightMm = form.Height,
            ThicknessMm = t,
            BucklingMargin = Math.Min(Most, margin),
            TopSagMm = sag,
            StressMPa = stress,
        };
    }

    private sealed record Load(double Thickness, double Pressure, SheetStrength Sheet)
    {
        public double Modulus => Sheet.ModulusMPa.Least;

        /// <summary>Of a plate: first yield is as far as it may go.</summary>
        public double Margin(double stress) => stress > 0 ? Sheet.YieldMPa / stress : Most;

        public ThinPlate Circle(double radius) => ThinPlate.Circle(radius, Thickness, Pressure, Modulus, Sheet.Poisson);

        public ThinPlate Rectangle(double a, double b) =>
            ThinPlate.Rectangle(a, b, Thickness, Pressure, Modulus, Sheet.Poisson);
    }

    private static (double Margin, double Sag, double Stress) Cap(FormRegion form, Load load)
    {
        double a = Radius(form)!.Value;
        double inner = ((a * a) + (form.Height * form.Height)) / (2 * form.Height);
        double half = Math.Min(Math.PI / 2, 2 * Math.Atan(form.Height / a));
        double mean = inner + (load.Thickness / 2);
        if (ShellBuckling.Cap(mean, half, load.Thickness, load.Modulus, load.Sheet.Poisson) is { } buckles)
        {
            return (buckles / load.Pressure, 0, 0);
        }
        ThinPlate plate = load.Circle(a);
        return (load.Margin(plate.StressMPa), plate.SagMm, plate.StressMPa);
    }

    private static (double Margin, double Sag, double Stress) FlatTopped(
        FormRegion form,
        Region foot,
        Load load,
        Kernel kernel
    )
    {
        double draft = form.DraftDeg * Math.PI / 180;
        double inward = form.Height * Math.Tan(draft);
        if (Radius(form) is { } radius)
        {
            double head = Math.Max(0, radius - inward);
            double tall = Math.Min(form.Height, draft > 0 ? radius / Math.Tan(draft) : form.Height);
            double buckles = ShellBuckling.Cone(radius, head, tall, draft, load.Thickness, load.Modulus);
            ThinPlate disc = load.Circle(head);
            return (Math.Min(buckles / load.Pressure, load.Margin(disc.StressMPa)), disc.SagMm, disc.StressMPa);
        }
        Box2 box = Measure.Bounds(foot.Outer);
        ThinPlate wall = load.Rectangle(Math.Max(box.Width, box.Height), form.Height / Math.Cos(draft));
        ImmutableArray<Region> flat = kernel.Offset([foot], -inward);
        ThinPlate top = flat.IsEmpty ? new ThinPlate(0, 0) : Bounding(flat, load);
        double worst = Math.Max(wall.StressMPa, top.StressMPa);
        return (load.Margin(worst), top.SagMm, worst);
    }

    private static ThinPlate Bounding(ImmutableArray<Region> flat, Load load)
    {
        Box2 box = Measure.Bounds(flat);
        return load.Rectangle(box.Width, box.Height);
    }

    /// <summary>The sheet over the form's edge goes into its wall and top: what an even stretch leaves, and less at the thinnest place.</summary>
    private static double Drawn(FormRegion form, Region foot, double sheet)
    {
        double area = Measure.Area(foot);
        double surface =
            form.Top == FormTop.Cap
                ? area + (Math.PI * form.Height * form.Height)
                : area + (Measure.Length(foot.Outer) * form.Height);
        return sheet * area / surface * Thinnest;
    }

    private static IEnumerable<Finding> Judge(FormBearing bearing, FormRegion form, Job job)
    {
        Point2 at = Middle(form);
        if (bearing.BucklingMargin < FormBearing.LeastMargin)
        {
            yield return FormFindings.Buckles(bearing, at, Pressure(job) * 1000);
        }
        else if (bearing.StressMPa > SheetStrength.MostBendingMPa)
        {
            yield return FormFindings.Strained(bearing, at, Pressure(job) * 1000);
        }
    }

    /// <summary>Of a round edge; null for any other.</summary>
    public static double? Radius(FormRegion form)
    {
        Point2 middle = Middle(form);
        double[] away = [.. Flatten.Points(form.Edge, Round / 10).Select(p => p.DistanceTo(middle))];
        return away.Max() - away.Min() <= Round ? away.Max() : null;
    }

    private static Point2 Middle(FormRegion form) => Measure.Bounds(form.Edge).Middle;
}
