using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Holding.Sliding;
using FixtureGen.Model;

namespace FixtureGen.Holding.Stopping;

/// <summary>
/// What stops the shell once it slips: before the outline is cut, and while it is. Shift is how far it may then lie off its place, mm,
/// at the outline's farthest point; 0 without stops.
/// </summary>
internal sealed record StopSet(ImmutableArray<ShellStop> Before, ImmutableArray<ShellStop> Outline, double ShiftMm)
{
    public static StopSet None { get; } = new([], [], 0);
}

/// <summary>
/// The stops of a design. Pins stand in the scrap: while the outline is cut they reach the part through its bridges alone, so the
/// bridges are the stops then, each weakened so far that the pins and their holes bear the worst that all bridges together can
/// ask of them. A form that nests stops the part by its wall until the end. Without a stated strength of the sheet nothing counts.
/// </summary>
internal static class Stops
{
    /// <summary>Shear yield over tensile yield (von Mises).</summary>
    private const double ShearShare = 0.577;

    /// <summary>Bearing yield over tensile yield where plastics have no data of their own; metals have 1.5 (common practice, no source).</summary>
    private const double BearingShare = 1.0;

    /// <summary>Least distance from a hole's middle to the sheet's edge that the sheet asks for, in pin diameters (common practice, no source).</summary>
    private const double EdgeInDiameters = 2;

    /// <summary>What a plastic block bears under a pin for a moment: half of HDPE's least crushing strength, N/mm2 (common practice, no source).</summary>
    private const double PlasticBlockMPa = 10;

    /// <summary>Share of a nest wall's crushing strength that is counted: it is thin, drafted and round at its foot; the house's choice.</summary>
    private const double WallShare = 0.5;

    private const int WallPieces = 24;

    /// <summary>Pins are pressed this deep into the block, mm; what locators are cut to.</summary>
    private const double PressDepth = FixtureGen.Design.Forms.Locators.PressDepth;

    public static StopSet Find(FixtureDesign design, Job job) =>
        job.ShellMaterial.Sheet is not { } sheet ? StopSet.None
        : job.Locator == LocatorKind.Pins ? Pinned(design, job, sheet)
        : job.Locator == LocatorKind.Form ? Nested(design, job, sheet)
        : StopSet.None;

    private static StopSet Pinned(FixtureDesign design, Job job, SheetStrength sheet)
    {
        Point2[] at = [.. job.LocatorPins.Select(p => Transform.Apply(design.Placement.Pose, p))];
        if (at.Length < 2)
        {
            return StopSet.None;
        }
        Point2 line = at[1] - at[0];
        double apart = line.Length;
        Point2 across = line.Left * (1 / apart);
        double radial = job.Rules.LocatorHoleClearance / 2;
        double[] strengths = [.. at.Take(2).Select(p => PinStrength(p, design, job, sheet))];
        bool slotted = job.LocatorHoles == LocatorHoles.RoundAndSlot;
        ShellStop[] pins =
        [
            new(StopKind.Pin, "locator pin 1", at[0], default, radial, strengths[0]),
            slotted
                ? new(StopKind.Slot, "locator pin 2", at[1], across, radial, strengths[1])
                : new(StopKind.Pin, "locator pin 2", at[1], default, radial, strengths[1]),
        ];
        if (pins.Any(p => p.StrengthN <= 0))
        {
            return StopSet.None;
        }
        double farthest = Farthest(design, at[0]);
        double shift = radial * (1 + (2 * farthest / apart));
        return new StopSet([.. pins], [.. Bridges(design, job, sheet, at[0], apart, strengths)], shift);
    }

    /// <summary>Bridges of the outline, weakened to what the pins can take of them all at once; none where the scrap is held otherwise.</summary>
    private static IEnumerable<ShellStop> Bridges(
        FixtureDesign design,
        Job job,
        SheetStrength sheet,
        Point2 pin,
        double apart,
        double[] pinStrengths
    )
    {
        double one =
            ShearShare
            * sheet.YieldMPa
            * job.Rules.TabLength
            * Math.Min(job.Rules.TabThickness, job.Shell.ThicknessMin);
        (string Name, Point2 At)[] tabs =
        [
            .. design
                .TrimCuts.Where(c => c.Kind == TrimKind.Outline)
                .SelectMany(c => c.Tabs.Select((t, i) => ($"bridge {Count(i + 1)}", OnPath(c.Path, t.At)))),
        ];
        if (tabs.Length == 0)
        {
            yield break;
        }
        double all = one * tabs.Length;
        double reach = tabs.Max(t => t.At.DistanceTo(pin));
        double onSlot = all * reach / apart;
        double share = Math.Min(
            1,
            Math.Min(pinStrengths[0] / (all + onSlot), pinStrengths[1] / Math.Max(onSlot, 1e-9))
        );
        foreach ((string name, Point2 at) in tabs)
        {
            yield return new ShellStop(
                StopKind.Tab,
                name,
                at,
                default,
                job.Rules.LocatorHoleClearance / 2,
                one * share
            );
        }
    }

    /// <summary>The weakest of the hole's edge crushed, the sheet torn out to the trim cut or its own edge, and the block under the pin, N.</summary>
    private static double PinStrength(Point2 at, FixtureDesign design, Job job, SheetStrength sheet)
    {
        double d = job.Rules.LocatorPinDiameter;
        double t = job.Shell.ThicknessMin;
        double toCut = design
            .TrimCuts.SelectMany(c => c.Sweep)
            .SelectMany(r => r.Contours)
            .Select(c => Measure.Distance(at, c))
            .DefaultIfEmpty(double.MaxValue)
            .Min();
        double edge = Math.Min(EdgeInDiameters * d, toCut);
        double bearing = BearingShare * sheet.YieldMPa * d * t;
        double tearing = 2 * ShearShare * sheet.YieldMPa * t * (edge - (d / 2));
        double block = job.BlockMaterial.IsPlastic ? PlasticBlockMPa * d * PressDepth / 4 : double.MaxValue;
        return Math.Max(0, Math.Min(bearing, Math.Min(tearing, block)));
    }

    private static StopSet Nested(FixtureDesign design, Job job, SheetStrength sheet)
    {
        List<ShellStop> walls = [];
        double shift = 0;
        foreach (FormRegion form in design.Part.Forms.Where(f => f.Direction == FormDirection.Down || f.Plugged))
        {
            Contour edge = Contours.Ccw(form.Edge);
            double length = Measure.Length(edge);
            double piece = length / WallPieces;
            double strength =
                WallShare
                * sheet.YieldMPa
                * job.Shell.ThicknessMin
                * piece
                * (1 - Math.Tan(form.DraftDeg * Math.PI / 180));
            foreach (ContactPiece p in ContactQuadrature.AlongLines([edge], piece))
            {
                (Point2 at, Point2 along) = Nearest(edge, p.At);
                walls.Add(
                    new ShellStop(StopKind.Wall, "nest wall", at, along.Left, job.Rules.RunningClearance, strength)
                );
            }
            Box2 box = Measure.Bounds(edge);
            double half = Math.Max(box.Width, box.Height) / 2;
            double turned = Farthest(design, box.Middle) / half;
            shift = Math.Max(shift, job.Rules.RunningClearance * (1 + turned));
        }
        return walls.Count == 0 || walls.Any(w => w.StrengthN <= 0)
            ? StopSet.None
            : new StopSet([.. walls], [.. walls], shift);
    }

    private static (Point2 At, Point2 Along) Nearest(Contour edge, Point2 p)
    {
        Segment s = edge.Segments.MinBy(o => Measure.Closest(p, new OpenPath([o])).DistanceTo(p));
        Point2 at = Measure.Closest(p, new OpenPath([s]));
        Point2 from = s.Start - s.Centre;
        Point2 to = at - s.Centre;
        double share = s.IsArc
            ? Math.Clamp(Math.IEEERemainder(Math.Atan2(from.Cross(to), from.Dot(to)), 2 * Math.PI) / s.Sweep, 0, 1)
            : 0.5;
        return (at, Measure.TangentAt(s, share));
    }

    private static double Farthest(FixtureDesign design, Point2 from) =>
        design.Part.Outer.Segments.Max(s =>
            Math.Max(s.Start.DistanceTo(from), Measure.PointAt(s, 0.5).DistanceTo(from))
        );

    private static Point2 OnPath(Contour path, double along)
    {
        double from = 0;
        foreach (Segment s in path.Segments)
        {
            if (along <= from + s.Length)
            {
                return Measure.PointAt(s, (along - from) / s.Length);
            }
            from += s.Length;
        }
        return path.Segments[^1].End;
    }

    private static string Count(int n) => n.ToString(System.Globalization.CultureInfo.InvariantCulture);
}
