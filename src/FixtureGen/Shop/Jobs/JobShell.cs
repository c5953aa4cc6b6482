using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Shop.Files;
using FixtureGen.Shop.Reading;

namespace FixtureGen.Shop.Jobs;

/// <summary>What a job says of its shell: how thick, with which forms, what finds its place and what holds its skirt.</summary>
internal static class JobShell
{
    // Thermoformed shells are 1.5 to 3.2 mm (common practice, no source); 0.093 in is the middle gauge.
    private const double ShellThickness = 2.36;

    // Sheet is sold 10 % either way (trade pages).
    private const double Thicker = 1.1;
    private const double Thinner = 0.9;

    // mm, of a shell on its block (common practice, no source).
    private const double Slack = 0.3;

    /// <summary>[shell]: thickness and slack; the friction only where it is stated. What is left open is assumed, with a note.</summary>
    public static (Shell Shell, Interval? Friction) Read(TableReader top, JobShop? shop)
    {
        string name = shop?.ShellMaterial.Name ?? "";
        if (top.InnerOrNull("shell") is not { } t)
        {
            double assumed = top.Assumed("shell.thickness", ShellThickness, "mm");
            double thick = top.Assumed("shell.thickness_max", Thicker * assumed, "mm");
            double slack = top.Assumed("shell.slack_max", Slack, "mm");
            double thin = top.Assumed("shell.thickness_min", Thinner * assumed, "mm");
            return (new Shell(name, assumed, thick, 0, slack) { ThicknessMin = thin }, null);
        }
        double thickness = t.WithinOrAssumed(JobRanges.ShellThickness, ShellThickness);
        double greatest = t.WithinOrAssumed(JobRanges.ThicknessMax(thickness), Thicker * thickness);
        double thinnest = t.WithinOrAssumed(JobRanges.ThicknessMin(thickness), Thinner * thickness);
        double least = t.WithinOrNull(JobRanges.SlackMin) ?? 0;
        double most = t.WithinOrAssumed(JobRanges.SlackMax, Math.Max(Slack, least));
        t.Rising("slack_min", least, "slack_max", most, "mm");
        Interval? friction = Friction(t, shop?.BlockMaterial.IsPlastic ?? true);
        t.Close();
        return (new Shell(name, thickness, greatest, least, most) { ThicknessMin = thinnest }, friction);
    }

    /// <summary>Measured on this job's own block, in place of the block material's.</summary>
    private static Interval? Friction(TableReader t, bool plastic) =>
        t.WithinOrNull(MaterialRanges.Friction("friction", plastic)) is { } nominal
            ? MaterialReader.Friction(t, "friction", nominal, plastic)
            : Unasked(t, plastic);

    /// <summary>A range without its middle says nothing.</summary>
    private static Interval? Unasked(TableReader t, bool plastic)
    {
        PlausibleRange[] ends =
        [
            MaterialRanges.FrictionFrom("friction", plastic),
            MaterialRanges.FrictionTo("friction", plastic),
        ];
        foreach (PlausibleRange end in ends.Where(e => t.WithinOrNull(e) is not null))
        {
            t.Contradict(end.Key, $"'{end.Key}' is given without 'friction'.", "Give friction, the usual value, too.");
        }
        return null;
    }

    /// <summary>
    /// [locator]: null where the job leaves it open; pins in the part frame. "auto" is the nest of a form that goes down, else pins
    /// whose places are proposed, as they are where "pins" states none.
    /// </summary>
    public static (LocatorKind? By, ImmutableArray<Point2> Pins, LocatorHoles Holes, OpenKeys Open) Locator(
        TableReader? t,
        ImmutableArray<FormSpec> forms
    )
    {
        bool nests = forms.Any(f => f.Direction == FormDirection.Down);
        LocatorKind? by = t?.Choice(
            "by",
            ("auto", nests ? LocatorKind.Form : LocatorKind.Pins),
            ("form", LocatorKind.Form),
            ("pins", LocatorKind.Pins),
            ("hand", LocatorKind.Hand)
        );
        bool stated = t?.Has("pins") ?? false;
        ImmutableArray<Point2> pins = t?.Points("pins", JobBody.Reach) ?? [];
        LocatorHoles? holes = t?.ChoiceOrNull(
            "holes",
            ("round-and-slot", LocatorHoles.RoundAndSlot),
            ("round", LocatorHoles.Round)
        );
        CheckLocator(t, by, pins, stated);
        t?.Close();
        OpenKeys open = by == LocatorKind.Pins && !stated ? OpenKeys.Pins : OpenKeys.None;
        return (by, pins, holes ?? LocatorHoles.RoundAndSlot, open);
    }

    private static void CheckLocator(TableReader? t, LocatorKind? kind, ImmutableArray<Point2> pins, bool stated)
    {
        if (t is null || t.Log.Failed)
        {
            return;
        }
        if (kind == LocatorKind.Pins && stated && pins.Length < 2)
        {
            t.Contradict(
                "pins",
                "Two pins or more locate a shell.",
                "Give pins = [[x, y], [x, y]] in the drawing's frame, or leave pins out and have them proposed."
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
        )
        {
            Top = t.ChoiceOrNull("top", ("flat", FormTop.Flat), ("cap", FormTop.Cap)) ?? FormTop.Flat,
            Plug =
                t.ChoiceOrNull("plug", ("auto", PlugWish.Auto), ("always", PlugWish.Always), ("never", PlugWish.Never))
                ?? PlugWish.Auto,
            ThicknessMin = t.MeasureOrNull("thickness_min", Quantity.Length, 0.05, 12),
        };
        if (form is { Direction: FormDirection.Down, Plug: PlugWish.Always })
        {
            t.Contradict("plug", "A form that goes down lies in its pocket and takes no plug.", "Leave plug out.");
        }
        t.Close();
        return form;
    }
}
