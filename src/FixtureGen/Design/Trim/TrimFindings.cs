using System.Collections.Immutable;
using System.Globalization;
using FixtureGen.Geometry;
using FixtureGen.Model;
using static FixtureGen.Design.Block.FindingWords;

namespace FixtureGen.Design.Trim;

/// <summary>All findings of the trim planner.</summary>
internal static class TrimFindings
{
    private const int MostPlaces = 8;

    /// <summary>The most that a job may leave in a corner, mm, the end of the rule's own range.</summary>
    private const double MostLeft = 5;

    /// <summary>The corners of one edge that the cutter does not reach, as one finding at the worst of them.</summary>
    /// <param name="allowed">What a corner may keep, mm: more is an error, less a warning.</param>
    /// <param name="thinner">The thinnest change of cutter that was tried and reaches, in words; empty where none of the rack does.</param>
    public static Finding Standing(
        string name,
        IReadOnlyList<(Point2 At, double Left)> corners,
        Tool tool,
        double allowed,
        string thinner
    )
    {
        (Point2 At, double Left) worst = corners.MaxBy(c => c.Left);
        bool kept = worst.Left <= allowed;
        string cutter = thinner.Length > 0 ? $", or {thinner}" : "; no end mill of the rack reaches it";
        string round = $"round the corner to at least {Mm(tool.Radius)} mm{cutter}";
        string rule =
            worst.Left <= MostLeft
                ? $"If the part may keep it, say so: [rules] corner_left = \"{Mm(Math.Ceiling(worst.Left * 10) / 10)} mm\"; else {round}."
                : $"The bay is narrower than the cutter: widen it to at least {Mm(tool.Diameter)} mm{cutter}.";
        string count =
            corners.Count == 1
                ? ""
                : $" ({corners.Count.ToString(CultureInfo.InvariantCulture)} corners, this one is the worst)";
        return new(
            "trim-corner-too-tight",
            kept ? Severity.Warning : Severity.Error,
            $"{name} at {Place(worst.At)}",
            $"The {Mm(tool.Diameter)} mm trim cutter leaves {Mm(worst.Left)} mm standing in a corner of the {name}; {Mm(allowed)} mm may stay{count}.",
            kept ? $"Nothing to do where the part may keep it; else {round}." : rule
        )
        {
            At = worst.At,
        };
    }

    /// <param name="drill">What would let it be drilled, in words; empty where nothing would.</param>
    public static Finding CutoutTooSmall(
        string name,
        Region hole,
        Tool tool,
        Kernel kernel,
        string thinner,
        string drill
    )
    {
        double width = 2 * WidestDisc(hole, tool.Radius, kernel);
        Point2 at = Measure.Bounds(hole.Outer).Middle;
        return new(
            "cutout-smaller-than-cutter",
            Severity.Error,
            $"{name} at {Place(at)}",
            $"The {name} is {Mm(width)} mm wide, {Mm(tool.Diameter - width)} mm less than the trim cutter.",
            $"Widen it to at least {Mm(tool.Diameter)} mm{(drill.Length > 0 ? ", " + drill : "")}{Otherwise(thinner)}"
        )
        {
            At = at,
        };
    }

    public static Finding CutoutNeck(string name, ImmutableArray<Region> parts, Tool tool, string thinner)
    {
        Point2 at = Measure.Bounds(parts[1].Outer).Middle;
        return new(
            "cutout-neck-too-narrow",
            Severity.Error,
            $"{name} at {Place(at)}",
            $"The {name} has a neck narrower than the {Mm(tool.Diameter)} mm trim cutter: it falls into {parts.Length.ToString(CultureInfo.InvariantCulture)} pieces.",
            $"Widen the neck, draw separate cutouts{Otherwise(thinner)}"
        )
        {
            At = at,
        };
    }

    /// <param name="smaller">A radius of the leads that was tried and has room, mm; null where none has.</param>
    public static Finding NoLead(string name, Contour line, double? smaller) =>
        new(
            "trim-no-lead",
            Severity.Error,
            $"{name} near {Place(line.Segments[0].Start)}",
            $"Nowhere along the {name} is there room in the scrap for a lead-in arc.",
            smaller is { } radius
                ? $"State [rules] lead_radius = \"{Mm(radius)} mm\", which was tried and has room."
                : "Open the outline's narrow bays: no smaller lead radius that was tried has room."
        )
        {
            At = line.Segments[0].Start,
        };

    public static Finding NoTabRoom(string name, Contour path, double length, double cutter) =>
        new(
            "trim-no-room-for-tabs",
            Severity.Warning,
            name,
            $"The {name} is cut along {Mm(Measure.Length(path))} mm; two tabs need {Mm(4 * (length + cutter))} mm. The scrap is cut loose without tabs.",
            (Measure.Length(path) / 4) - cutter is > 0.1 and var shorter
                ? $"State [rules] tab_length of at most {Mm(Math.Floor(shorter * 10) / 10)} mm, which leaves room for two, or another hold of the skirt ([skirt] hold)."
                : "State another hold of the skirt ([skirt] hold): no tab is so short."
        );

    public static Finding NotAnEndMill(Tool tool) =>
        new(
            "trim-tool-kind",
            Severity.Error,
            tool.Name,
            $"The trim tool {tool.Name} is no end mill.",
            "Name an end mill as the trim tool."
        );

    /// <param name="longer">Cutters of the rack whose flutes are long enough.</param>
    /// <param name="tip">How far the tip may stand below the shell with these flutes, mm; not above 0 where they do not go through it.</param>
    public static Finding FlutesTooShort(Tool tool, double deep, IReadOnlyList<string> longer, double tip) =>
        new(
            "trim-flutes-too-short",
            Severity.Error,
            tool.Name,
            $"The trim cut is {Mm(deep)} mm deep, {Mm(deep - tool.FluteLength)} mm more than the flutes of {tool.Name}.",
            (
                longer.Count > 0
                    ? $"Name trim_tool = \"{longer[0]}\""
                        + (longer.Count > 1 ? $" or {string.Join(", ", longer.Skip(1).Select(n => $"\"{n}\""))}" : "")
                        + ", whose flutes are long enough"
                    : "Put a cutter with longer flutes in the rack, since none has them"
            ) + (tip > 0 ? $", or state [rules] tip_below_shell of at most {Mm(Math.Floor(tip * 100) / 100)} mm." : ".")
        );

    public static Finding TabTooThick(double tab, double shell) =>
        new(
            "tab-thicker-than-shell",
            Severity.Error,
            "rules",
            $"Tabs of {Mm(tab)} mm are not thinner than the {Mm(shell)} mm shell: it would not be cut through.",
            $"State a tab thickness below {Mm(shell)} mm."
        );

    public static Finding NoEngraver() =>
        new(
            "no-engraver",
            Severity.Error,
            "tools",
            "The drawing has marks to engrave and the job names no engraver.",
            "Add an engraver to the job's tools, or take the marks off the engraving layer."
        );

    public static Finding ClearanceShort(double clearance, double slack, double runOut, double needed) =>
        new(
            "side-clearance-short",
            Severity.Warning,
            "rules",
            $"The relief's wall stands {Mm(clearance)} mm inside the cut; the shell's slack of {Mm(slack)} mm and the cutter's run-out of {Mm(runOut)} mm take {Mm(needed)} mm, {Mm(needed - clearance)} mm more.",
            $"Set side_clearance to {Mm(Math.Ceiling(needed * 100) / 100)} mm or more, or hold the shell closer."
        );

    public static Finding EngravedTooDeep(double depth, double most) =>
        new(
            "mark-too-deep",
            Severity.Error,
            "rules",
            $"Marks {Mm(depth)} mm deep take {Mm(depth - most)} mm more than half the shell.",
            $"State an engraving depth of at most {Mm(most)} mm."
        );

    /// <summary>One finding for all edges of which the same is said with the same remedy, at the first, with the others' places.</summary>
    public static IEnumerable<Finding> Alike(IEnumerable<Finding> findings)
    {
        foreach (
            IGrouping<(string, Severity, string), Finding> cause in findings.GroupBy(f =>
                (f.Code, f.Severity, f.Remedy)
            )
        )
        {
            Finding first = cause.First();
            int more = cause.Count() - 1;
            string places = string.Join(", ", cause.Skip(1).Take(MostPlaces).Select(f => f.Where));
            yield return more == 0
                ? first
                : first with
                {
                    Message =
                        $"{first.Message} The same of {more.ToString(CultureInfo.InvariantCulture)} more: {places}{(more > MostPlaces ? " ..." : "")}.",
                };
        }
    }

    /// <summary>The ways that there are for a cutout under the cutter.</summary>
    private static string Otherwise(string thinner) =>
        thinner.Length > 0
            ? $", or {thinner}; or state small_holes = \"second-cutter\" (it cuts these alone), \"spot\" (round holes are marked, to be drilled by hand) or \"leave\"."
            : "; no end mill of the rack goes through. Or state small_holes = \"spot\" (round holes are marked, to be drilled by hand) or \"leave\".";

    /// <summary>A refused corner, with what a second cutter does to it.</summary>
    /// <param name="reaches">Whether the job may state it as it is.</param>
    public static Finding WithSecond(Finding refused, Tool second, double left, bool reaches) =>
        refused with
        {
            Remedy =
                refused.Remedy.TrimEnd('.')
                + (
                    reaches
                        ? $"; or state inner_corners = \"second-cutter\": {second.Name} was tried in the corners alone and reaches."
                        : $". A second cutter in the corners alone, {second.Name}, was tried and leaves {Mm(left)} mm"
                            + (
                                left <= MostLeft
                                    ? $": [rules] corner_left = \"{Mm(Math.Ceiling(left * 10) / 10)} mm\" lets it."
                                    : "."
                            )
                ),
        };

    /// <summary>Corners that the job did not speak of and that a second cutter cuts.</summary>
    public static Finding CornersBySecondCutter(ImmutableArray<TrimCut> cuts)
    {
        TrimCut[] corners = [.. cuts.Where(c => c.Kind == TrimKind.Corner)];
        string count = corners.Length.ToString(CultureInfo.InvariantCulture);
        string tools = string.Join(", ", corners.Select(c => c.Tool.Name).Distinct());
        return new(
            "inner-corners-second-cutter",
            Severity.Note,
            "inner corners",
            $"The trim cutter leaves too much in {count} inner corners or bays: {tools} cuts them first, with a tool change more.",
            "Nothing to do; inner_corners = \"refuse\" refuses such a job, a larger [rules] corner_left lets the corners keep more."
        );
    }

    /// <summary>A cutout that the job wants drilled and that no drill makes.</summary>
    /// <param name="nearest">The rack's drill nearest in size; null where none reaches through the shell.</param>
    public static Finding NoDrill(string name, Contour cutout, Tool? nearest, Job job)
    {
        Box2 box = Measure.Bounds(cutout);
        string why =
            !DrillChoice.IsRound(cutout) ? "is no round hole"
            : job.ShellMaterial.Drilling is null ? $"cannot be drilled: {job.ShellMaterial.Name} has no drilling chart"
            : nearest is null ? "finds no drill in the rack that reaches through the shell"
            : $"is {Mm(DrillChoice.Diameter(cutout))} mm, {Mm(Math.Abs(nearest.Diameter - DrillChoice.Diameter(cutout)))} mm off the nearest drill of the rack, {nearest.Name}; {Mm(DrillChoice.SizeOff)} mm may be";
        string put =
            DrillChoice.IsRound(cutout) && job.ShellMaterial.Drilling is not null
                ? $"Put a drill of {Mm(DrillChoice.Diameter(cutout))} mm in the rack, or state"
                : "State";
        return new(
            "small-hole-no-drill",
            Severity.Error,
            $"{name} at {Place(box.Middle)}",
            $"The {name} {why}.",
            $"{put} small_holes = \"second-cutter\", \"spot\" or \"leave\"."
        )
        {
            At = box.Middle,
        };
    }

    public static Finding SpotNotRound(Box2 hole, Tool tool) =>
        new(
            "small-hole-not-round",
            Severity.Error,
            $"cutout at {Place(hole.Middle)} of the drawing",
            $"A cutout of {Mm(hole.Width)} x {Mm(hole.Height)} mm is too narrow for the {Mm(tool.Diameter)} mm trim cutter and is no round hole: there is no middle to mark for a drill.",
            "State small_holes = \"second-cutter\" or \"leave\", or draw it round."
        )
        {
            At = hole.Middle,
        };

    public static Finding SmallHolesNotCut(ImmutableArray<Contour> holes, bool marked)
    {
        IEnumerable<string> all = holes
            .Select(h => Measure.Bounds(h))
            .Select(b => $"{Mm(Math.Max(b.Width, b.Height))} mm at {Place(b.Middle)}");
        string places = string.Join(", ", all.Take(MostPlaces)) + (holes.Length > MostPlaces ? " ..." : "");
        string count = holes.Length.ToString(CultureInfo.InvariantCulture);
        return new(
            marked ? "small-holes-marked" : "small-holes-left",
            marked ? Severity.Note : Severity.Warning,
            "cutouts",
            marked
                ? $"{count} round holes under the trim cutter are marked on the shell and not cut: {places} of the drawing."
                : $"{count} cutouts under the trim cutter are not cut: {places} of the drawing.",
            marked
                ? "Drill them by hand after the trim."
                : "Cut them some other way, or state small_holes = \"second-cutter\"."
        );
    }

    private static double WidestDisc(Region hole, double tooBig, Kernel kernel)
    {
        double fits = 0;
        double not = tooBig;
        for (int k = 0; k < 24; k++)
        {
            double tried = (fits + not) / 2;
            (fits, not) = kernel.Offset(hole, -tried).IsEmpty ? (fits, tried) : (tried, not);
        }
        return fits;
    }

    private static string Mm(double value) => value.ToString("0.###", CultureInfo.InvariantCulture);

    public static Finding ReliefNarrow(double by) =>
        new(
            "relief-narrow",
            Severity.Note,
            "relief",
            $"the blank has no room for a relief that one pass cuts: it is {Mm(by)} mm narrower and takes longer",
            "nothing to do, or take a larger blank"
        );

    public static Finding NoBreakOut(double width, double wall) =>
        new(
            "no-break-out",
            Severity.Error,
            "relief",
            $"no straight channel {Mm(width)} mm wide leads from the relief to the block's edge with {Mm(wall)} mm of wall to bolts and pins: chips would stay",
            "move or turn the part on the blank, or take a larger blank"
        );
}
