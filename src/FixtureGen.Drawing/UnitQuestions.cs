using FixtureGen.Drawing.Chaining;
using FixtureGen.Drawing.Reading;
using FixtureGen.Model;

namespace FixtureGen.Drawing;

/// <summary>What unit a drawing is in, and what is asked when that is not certain.</summary>
internal static class UnitQuestions
{
    /// <summary>A part whose larger side is below or above these, mm, is asked about (common practice, no source).</summary>
    public const double Small = 10;
    public const double Large = 1000;

    /// <summary>No part and no plate is larger, mm, whatever unit is stated; beyond it the work has no bound.</summary>
    public const double Largest = 10_000;

    private const string StateIt =
        "state the drawing's unit: [drawing] unit = \"mm\" or \"in\" in the job, --unit mm or in with check";

    /// <summary>The job's unit before the drawing's; null where neither says.</summary>
    public static LengthUnit? Resolve(DxfFile scanned, LengthUnit? unitOverride, string file, List<Finding> findings)
    {
        LengthUnit? drawn = scanned.InsUnits is { } code ? DxfUnits.FromCode(code) : null;
        if (unitOverride is { } stated)
        {
            if (drawn is { } other && other != stated)
            {
                findings.Add(OverrideDiffers(file, stated, other));
            }
            return stated;
        }
        if (drawn is null && scanned.InsUnits is { } odd && DxfUnits.Unusual(odd) is { } name)
        {
            findings.Add(UnusualUnit(file, name));
        }
        bool inch = drawn is LengthUnit.Inch or LengthUnit.Foot or LengthUnit.Yard or LengthUnit.Mil;
        if (drawn is { } unit && scanned.Measurement is { } measure && measure == (inch ? 1 : 0))
        {
            findings.Add(Contradiction(file, unit, measure));
        }
        return drawn;
    }

    /// <summary>The questions that the read drawing raises: no unit, an unlikely size.</summary>
    public static IEnumerable<Finding> Ask(DrawingContent drawing)
    {
        if (drawing.Unit is null)
        {
            yield return NoUnit(drawing, Severity.Warning);
        }
        else if (drawing.Extent is { } box && Unlikely(box))
        {
            yield return UnlikelySize(drawing.File, box, drawing.Unit.Value, Severity.Warning);
        }
    }

    public static bool Impossible(Box2 box) => Math.Max(box.Width, box.Height) > Largest;

    public static bool Unlikely(Box2 box) => Math.Max(box.Width, box.Height) is < Small or > Large;

    public static Finding NoUnit(DrawingContent drawing, Severity severity)
    {
        Box2? box = drawing.Extent ?? drawing.CurveBounds;
        string pixels =
            box is { } p && drawing.PixelMm is { } px
                ? DxfFindings.Text($", or {p.Width * px:0.###} x {p.Height * px:0.###} mm if in pixels, 96 to the inch")
                : "";
        string sizes = box is { } b
            ? DxfFindings.Text(
                $" It would be {b.Width:0.###} x {b.Height:0.###} mm, or {b.Width * Units.MmPerInch:0.###} x {b.Height * Units.MmPerInch:0.###} mm if drawn in inches{pixels}."
            )
            : "";
        return new Finding(
            "unit-missing",
            severity,
            drawing.File,
            $"The drawing does not say its unit.{sizes}",
            StateIt
        );
    }

    public static Finding UnlikelySize(string file, Box2 box, LengthUnit unit, Severity severity) =>
        new(
            "size-unlikely",
            severity,
            file,
            DxfFindings.Text(
                $"Read in {DxfUnits.Name(unit)}, the outline is {box.Width:0.###} x {box.Height:0.###} mm; {Small:0} to {Large:0} mm is usual."
            ),
            StateIt + "; stating it also confirms this size"
        );

    public static Finding TooLarge(string file, Box2 box) =>
        new(
            "size-impossible",
            Severity.Error,
            file,
            DxfFindings.Text(
                $"The part's curves take {box.Width:0.###} x {box.Height:0.###} mm; at most {Largest:0} mm are read."
            ),
            "look for a wrong unit, a stray curve far off, or an arc whose bulge is a slip; delete or mend it"
        );

    public static Finding Note(DrawingContent drawing, Repair repair) =>
        new(
            repair.Code,
            Severity.Note,
            drawing.File,
            repair.Message + ".",
            "nothing to do if the loops below are what was meant"
        );

    private static Finding OverrideDiffers(string file, LengthUnit stated, LengthUnit drawn) =>
        new(
            "unit-overridden",
            Severity.Warning,
            file,
            $"The drawing says {DxfUnits.Name(drawn)} and is read in {DxfUnits.Name(stated)} as stated.",
            "take the stated unit away if the drawing is right"
        );

    private static Finding UnusualUnit(string file, string name) =>
        new(
            "unit-unusual",
            Severity.Warning,
            file,
            $"The drawing says its unit is {name}; no part is drawn in that, so it is not used.",
            StateIt
        );

    private static Finding Contradiction(string file, LengthUnit unit, int measurement) =>
        new(
            "unit-contradiction",
            Severity.Warning,
            file,
            $"$INSUNITS says {DxfUnits.Name(unit)}, $MEASUREMENT says {(measurement == 1 ? "metric" : "inch")}; the first is used.",
            "compare the drawing's sizes with the part; if they are wrong, " + StateIt
        );
}
