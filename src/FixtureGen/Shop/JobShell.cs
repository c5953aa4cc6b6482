using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Shop;

/// <summary>What a job says of its shell: how thick, with which forms, what finds its place and what holds its skirt.</summary>
internal static class JobShell
{
    // Thermoformed shells are 1.5 to 3.2 mm (common practice, no source); 0.093 in is the middle gauge.
    private const double ShellThickness = 2.36;

    /// <summary>[shell]: thickness and slack; the friction only where it is stated.</summary>
    public static (Shell Shell, Interval? Friction) Read(TableReader? t, JobShop? shop)
    {
        double thickness = t?.LengthOr("thickness", ShellThickness, 0.2, 12) ?? ShellThickness;
        double greatest = t?.LengthOr("thickness_max", thickness * 1.1, 0.2, 15) ?? thickness * 1.1;
        double thinnest = t?.LengthOr("thickness_min", thickness * 0.9, 0.1, 12) ?? thickness * 0.9;
        double least = t?.LengthOr("slack_min", 0, 0, 5) ?? 0;
        double most = t?.LengthOr("slack_max", Math.Max(0.3, least), 0, 5) ?? 0.3;
        Interval? friction = t?.NumberOrNull("friction", 0.01, 2) is { } measured
            ? t.Range("friction", measured, 0.5 * measured, 1.5 * measured, 0.01, 2)
            : null;
        if (greatest < thickness)
        {
            t?.Contradict("thickness_max", "'thickness_max' is less than 'thickness'.", "Give the thickest shell.");
        }
        if (thinnest > thickness)
        {
            t?.Contradict("thickness_min", "'thickness_min' is more than 'thickness'.", "Give the thinnest shell.");
        }
        if (most < least)
        {
            t?.Contradict("slack_max", "'slack_max' is less than 'slack_min'.", "Exchange the two.");
        }
        t?.Close();
        Shell shell = new(shop?.ShellMaterial.Name ?? "", thickness, greatest, least, most) { ThicknessMin = thinnest };
        return (shell, friction);
    }

    /// <summary>[locator]: null where the job leaves it open; pins in the part frame.</summary>
    public static (LocatorKind? By, ImmutableArray<Point2> Pins, LocatorHoles Holes) Locator(TableReader? t)
    {
        LocatorKind? by = t?.Choice(
            "by",
            ("form", LocatorKind.Form),
            ("pins", LocatorKind.Pins),
            ("hand", LocatorKind.Hand)
        );
        ImmutableArray<Point2> pins = t?.Points("pins", JobBody.Reach) ?? [];
        LocatorHoles? holes = t?.ChoiceOrNull(
            "holes",
            ("round-and-slot", LocatorHoles.RoundAndSlot),
            ("round", LocatorHoles.Round)
        );
        CheckLocator(t, by, pins);
        t?.Close();
        return (by, pins, holes ?? LocatorHoles.RoundAndSlot);
    }

    private static void CheckLocator(TableReader? t, LocatorKind? kind, ImmutableArray<Point2> pins)
    {
        if (t is null || t.Log.Failed)
        {
            return;
        }
        if (kind == LocatorKind.Pins && pins.Length < 2)
        {
            t.Contradict(
                "pins",
                "Two pins or more locate a shell.",
                "Give pins = [[x, y], [x, y]] in the drawing's frame."
            );
        }
        if (kind != LocatorKind.Pins && !pins.IsEmpty)
        {
            t.Contradict(
                "pins",
                "Pins are given, but the shell is not located by pins.",
                "Write by = \"pins\", or drop them."
            );
        }
    }

    /// <summary>[skirt]: tabs unless it says otherwise.</summary>
    public static SkirtHold Skirt(TableReader top)
    {
        TableReader? t = top.InnerOrNull("skirt");
        SkirtHold? hold = t?.ChoiceOrNull(
            "hold",
            ("tabs", SkirtHold.Tabs),
            ("sealed-land", SkirtHold.SealedLand),
            ("clamps", SkirtHold.Clamps),
            ("none", SkirtHold.None)
        );
        t?.Close();
        return hold ?? SkirtHold.Tabs;
    }

    /// <summary>One [[form]].</summary>
    public static FormSpec Form(TableReader t)
    {
        FormSpec form = new(
            t.TextOr("layer", "FORM"),
            t.Choice("direction", ("up", FormDirection.Up), ("down", FormDirection.Down)),
            t.Length("height", 0.1, 200),
            t.NumberOr("draft_deg", 3, 0, 60)
        );
        t.Close();
        return form;
    }
}
