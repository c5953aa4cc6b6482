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
            "form it of thicker sheet, state the form's thickness_min as measured, or take a pump that reaches less"
        );

    public static Finding Strained(FormBearing b, Point2 at, double kPa) =>
        Form(
            "form-strained",
            b.Form + 1,
            at,
            $"at its thinnest, {Mm(b.ThicknessMm)}, the form's flat top or wall is strained by {Two(b.StressMPa)} N/mm2 under the {Two(kPa)} kPa that the pump can reach; more than {Two(SheetStrength.MostBendingMPa)} N/mm2 leaves a mark in time",
            "form it of thicker sheet, or state the form's thickness_min as measured"
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

    private static Finding Form(string code, int form, Point2 at, string message, string remedy) =>
        new(code, Severity.Error, $"form {Count(form)} at {Place(at)}", message, remedy) { At = at };

    private static string Two(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);
}
