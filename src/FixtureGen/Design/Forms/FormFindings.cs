using System.Globalization;
using FixtureGen.Model;
using static FixtureGen.Design.Block.FindingWords;

namespace FixtureGen.Design.Forms;

/// <summary>What is wrong with forms that rise from the flange: what they do not bear; lengths mm, pressures kPa.</summary>
internal static class FormFindings
{
    public static Finding Buckles(FormBearing b, Point2 at, double kPa) =>
        Form(
            "form-buckles",
            b.Form + 1,
            at,
            $"at its thinnest, {Mm(b.ThicknessMm)}, the form buckles or yields at {Two(b.BucklingMargin)} times the {Two(kPa)} kPa that the pump can reach; {Two(FormBearing.LeastMargin)} times are wanted",
            "let a plug carry it (plug = \"auto\"), form it of thicker sheet, state the form's thickness_min as measured, or take a pump that reaches less"
        );

    public static Finding Strained(FormBearing b, Point2 at, double kPa) =>
        Form(
            "form-strained",
            b.Form + 1,
            at,
            $"at its thinnest, {Mm(b.ThicknessMm)}, the form's flat top or wall is strained by {Two(b.StressMPa)} N/mm2 under the {Two(kPa)} kPa that the pump can reach; more than {Two(SheetStrength.MostBendingMPa)} N/mm2 leaves a mark in time",
            "let a plug carry it (plug = \"auto\"), form it of thicker sheet, or state the form's thickness_min as measured"
        );

    public static Finding Unknown(int form, Point2 at, string material) =>
        Form(
            "form-strength-unknown",
            form,
            at,
            $"the vacuum pulls on the form, and {material} states no [sheet]: whether the form bears it is not known",
            "state yield, modulus and Poisson's ratio of the material under [sheet]"
        );

    public static Finding CapNotRound(int form, Point2 at) =>
        Form(
            "form-cap-not-round",
            form,
            at,
            "the form's top is said to be a spherical cap, and its edge is not a circle",
            "draw the edge as a circle, or write top = \"flat\""
        );

    public static Finding TooTall(int form, Point2 at, double needed, double stock, string which) =>
        Form(
            "plug-too-tall",
            form,
            at,
            $"the plug under the form with its skim needs a blank of {Mm(needed)}, this one is {Mm(stock)} thick: {Mm(needed - stock)} short",
            which
        );

    public static Finding TooTight(int form, Point2 at, double clearance, double slack) =>
        Form(
            "nest-too-tight",
            form,
            at,
            $"the plug leaves {Mm(clearance)} to the form, less than the shell's least slack of {Mm(slack)}",
            $"state rules.running_clearance of {Mm(slack)} or more"
        );

    public static Finding CutoutOnForm(int form, int cutout, Point2 at, double height) =>
        Form(
            "cutout-on-form",
            form,
            at,
            $"cutout {Count(cutout)} lies in the form, {Mm(height)} above the flange: the trim cuts in the flange's plane",
            "leave it out of this drawing and cut it on a fixture of its own, or draw it beside the form"
        );

    public static Finding MarkOnSlope(int form, Point2 at) =>
        Form(
            "mark-on-slope",
            form,
            at,
            "a mark lies on the form's slope or runs over its edge: marks are cut on the flange or on a flat top",
            "move the mark onto the flat top or the flange, or make it smaller"
        );

    public static Finding ThicknessUnstated(int form, Point2 at) =>
        Form(
            "form-thickness-unstated",
            form,
            at,
            "a mark lies on the form's top, and how thick the shell is there is not stated: its height is not known",
            "measure a formed shell there and state the form's thickness_min"
        );

    public static Finding MarkTooDeep(int form, Point2 at, double depth, double most) =>
        Form(
            "mark-too-deep",
            form,
            at,
            $"marks {Mm(depth)} deep take {Mm(depth - most)} more than half of the form's top",
            $"state rules.engrave_depth of at most {Mm(most)}"
        );

    private static Finding Form(string code, int form, Point2 at, string message, string remedy) =>
        new(code, Severity.Error, $"form {Count(form)} at {Place(at)}", message, remedy) { At = at };

    private static string Two(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);
}
