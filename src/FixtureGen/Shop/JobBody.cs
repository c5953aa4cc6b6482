using System.Collections.Immutable;
using System.Globalization;
using FixtureGen.Model;

namespace FixtureGen.Shop;

/// <summary>What a job says besides the names of its shop files.</summary>
internal static class JobBody
{
    private const double Reach = 2000;

    // Thermoformed shells are 1.5 to 3.2 mm (common practice, no source); 0.093 in is the middle gauge.
    private const double ShellThickness = 2.36;

    // A worn edge cuts with 1.5 to 2 times the force (common practice, no source).
    public const double DullFactor = 1.5;

    /// <summary>The whole job, or null where the shop files are not all there; all keys are read either way.</summary>
    public static Job? Read(TableReader top, JobShop? shop, string name, ShopShelf shelf)
    {
        (Shell shell, double? shellFriction) = ShellOf(top.InnerOrNull("shell"), shop);
        double thickness = BlockThickness(top.InnerOrNull("block"), shop);
        VacuumSupply vacuum = VacuumReader.Read(top.InnerOrNull("vacuum"), shop?.Plate.Vacuum ?? VacuumReader.House);
        HouseLimits limits = RulesReader.Limits(top.InnerOrNull("limits"));
        TableReader? rulesTable = top.InnerOrNull("rules");
        Rules? rules = shop is null ? null : RulesReader.Read(rulesTable, shop.Blank, shop.Gasket);
        Words words = new(top, name);
        (LengthUnit? drawingUnit, LayerRoles layers) = DrawingOf(top.InnerOrNull("drawing"));
        (LocatorKind? locator, ImmutableArray<Point2> pins) = LocatorOf(top.InnerOrNull("locator"));
        (double? trimFeed, double? trimRpm, double dull) = TrimOf(top.InnerOrNull("trim"));
        (int magnetCount, double? target) = MagnetsOf(top.InnerOrNull("magnets"));
        SkirtHold skirt = SkirtOf(top);
        ImmutableArray<FormSpec> forms = [.. top.Inners("form").Select(FormOf)];
        ImmutableArray<MagnetWish> wishes = [.. top.Inners("magnet").Select(WishOf)];
        ImmutableArray<Point2> ports = [.. top.Inners("port").Select(PortOf)];
        Pose? placement = PoseOf(top.InnerOrNull("placement"));
        if (shop is null || rules is null || top.Log.Failed)
        {
            return null;
        }
        CheckSkim(top, rules, thickness);
        CheckNumber(top, words.Program, shop.Control);
        return new Job(
            Name: name,
            Title: words.Title,
            FixtureId: words.Fixture,
            Revision: words.Revision,
            ProgramNumber: words.Program,
            DrawingUnit: drawingUnit,
            DisplayUnit: top.Log.Unit ?? LengthUnit.Millimetre,
            Layers: layers,
            Plate: shop.Plate.Plate,
            Blank: shop.Blank,
            OtherBlanks: shop.OtherBlanks,
            BlankThickness: thickness,
            BlockMaterial: shop.BlockMaterial,
            ShellMaterial: shop.ShellMaterial,
            Shell: shell,
            Locator: locator,
            LocatorPins: pins,
            Skirt: skirt,
            Forms: forms,
            Tools: shop.Rack.Tools,
            TrimTool: shop.TrimTool,
            TrimFeedMmPerMin: trimFeed,
            TrimRpm: trimRpm,
            Magnet: shop.Magnet,
            MagnetCount: magnetCount,
            Magnets: wishes,
            MagnetFactorTarget: target,
            Gasket: shop.Gasket,
            Bolt: shop.Bolt,
            Pin: shop.Pin,
            Control: shop.Control,
            Vacuum: vacuum,
            ShellFriction: shellFriction,
            DullFactor: dull,
            Limits: limits,
            Rules: rules,
            Placement: placement,
            Paper: words.Paper,
            Quantity: words.Quantity,
            Sources: [.. shelf.Used]
        )
        {
            Ports = ports,
            TrimToolStated = shop.TrimToolStated,
        };
    }

    private static double BlockThickness(TableReader? t, JobShop? shop)
    {
        double nominal = shop?.Blank.Thickness ?? 0;
        double measured = t?.LengthOr("thickness", nominal, 3, 200) ?? nominal;
        t?.Close();
        return measured;
    }

    private static (LengthUnit? Unit, LayerRoles Layers) DrawingOf(TableReader? t)
    {
        LengthUnit? unit = UnitOf(t);
        LayerRoles layers = Layers(t?.InnerOrNull("layers"));
        t?.Close();
        return (unit, layers);
    }

    private static (LocatorKind? By, ImmutableArray<Point2> Pins) LocatorOf(TableReader? t)
    {
        LocatorKind? by = t?.Choice(
            "by",
            ("form", LocatorKind.Form),
            ("pins", LocatorKind.Pins),
            ("hand", LocatorKind.Hand)
        );
        ImmutableArray<Point2> pins = t?.Points("pins", Reach) ?? [];
        CheckLocator(t, by, pins);
        t?.Close();
        return (by, pins);
    }

    private static (double? Feed, double? Rpm, double Dull) TrimOf(TableReader? t)
    {
        double? feed = t?.MeasureOrNull("feed", Quantity.Rate, 10, 50000);
        double? rpm = t?.NumberOrNull("rpm", 100, 200000);
        double dull = t?.NumberOr("dull_factor", DullFactor, 1, 5) ?? DullFactor;
        t?.Close();
        return (feed, rpm, dull);
    }

    private static (int Count, double? Target) MagnetsOf(TableReader? t)
    {
        int count = t?.WholeOr("count", 4, 0, 100) ?? 4;
        double? target = t?.NumberOrNull("factor_target", 0.1, 100);
        t?.Close();
        return (count, target);
    }

    private sealed class Words(TableReader top, string name)
    {
        public string Title { get; } = top.TextOr("title", name);

        public string Fixture { get; } = top.TextOr("fixture", name.ToUpperInvariant());

        public int Revision { get; } = top.WholeOr("revision", 1, 1, 9999);

        public int? Program { get; } = top.WholeOrNull("program", 0, 99999999);

        public string Paper { get; } =
            top.ChoiceOrNull("paper", ("A4", PaperSize.A4), ("Letter", PaperSize.Letter)) == PaperSize.Letter
                ? "Letter"
                : "A4";

        public int Quantity { get; } = top.WholeOr("quantity", 1, 1, 1000000);
    }

    private enum PaperSize
    {
        A4,
        Letter,
    }

    private static (Shell Shell, double? Friction) ShellOf(TableReader? t, JobShop? shop)
    {
        double thickness = t?.LengthOr("thickness", ShellThickness, 0.2, 12) ?? ShellThickness;
        double greatest = t?.LengthOr("thickness_max", thickness * 1.1, 0.2, 15) ?? thickness * 1.1;
        double least = t?.LengthOr("slack_min", 0, 0, 5) ?? 0;
        double most = t?.LengthOr("slack_max", Math.Max(0.3, least), 0, 5) ?? 0.3;
        double? friction = t?.NumberOrNull("friction", 0.01, 2);
        if (greatest < thickness)
        {
            t?.Contradict("thickness_max", "'thickness_max' is less than 'thickness'.", "Give the thickest shell.");
        }
        if (most < least)
        {
            t?.Contradict("slack_max", "'slack_max' is less than 'slack_min'.", "Exchange the two.");
        }
        t?.Close();
        return (new Shell(shop?.ShellMaterial.Name ?? "", thickness, greatest, least, most), friction);
    }

    private static LengthUnit? UnitOf(TableReader? t) =>
        t?.ChoiceOrNull(
            "unit",
            ("mm", LengthUnit.Millimetre),
            ("in", LengthUnit.Inch),
            ("cm", LengthUnit.Centimetre),
            ("m", LengthUnit.Metre),
            ("ft", LengthUnit.Foot),
            ("mil", LengthUnit.Mil),
            ("um", LengthUnit.Micrometre)
        );

    private static LayerRoles Layers(TableReader? t)
    {
        string Role(string key) => t?.TextOr(key, key.ToUpperInvariant()) ?? key.ToUpperInvariant();
        LayerRoles roles = new(
            Role("outline"),
            Role("cutout"),
            Role("engrave"),
            Role("form"),
            Role("magnet"),
            Role("keepout")
        );
        string[] all = [roles.Outline, roles.Cutout, roles.Engrave, roles.Form, roles.Magnet, roles.KeepOut];
        if (t is not null && all.Distinct(StringComparer.OrdinalIgnoreCase).Count() < all.Length)
        {
            t.Contradict("outline", "Two roles have the same layer.", "Give each role a layer of its own.");
        }
        t?.Close();
        return roles;
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

    private static SkirtHold SkirtOf(TableReader top)
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

    private static FormSpec FormOf(TableReader t)
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

    private static MagnetWish WishOf(TableReader t)
    {
        MagnetWish wish = new(t.Point("at", Reach), t.FlagOr("locked", true));
        t.Close();
        return wish;
    }

    private static Point2 PortOf(TableReader t)
    {
        Point2 at = t.Point("at", Reach);
        t.Close();
        return at;
    }

    private static Pose? PoseOf(TableReader? t)
    {
        if (t is null)
        {
            return null;
        }
        Point2 at = t.Point("at", Reach);
        Pose pose = new(at.X, at.Y, t.NumberOr("angle_deg", 0, -360, 360));
        t.Close();
        return pose;
    }

    private static void CheckSkim(TableReader top, Rules rules, double thickness)
    {
        double skim = thickness - rules.FixtureHeight;
        if (skim < rules.LeastSkim - 1e-9)
        {
            top.Contradict(
                "block",
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"The blank is {thickness:0.###} mm thick and the fixture height {rules.FixtureHeight:0.###} mm: {skim:0.###} mm to skim, {rules.LeastSkim:0.###} mm needed."
                ),
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"Take a blank of at least {rules.FixtureHeight + rules.LeastSkim:0.###} mm, or lower rules.fixture_height."
                )
            );
        }
    }

    private static void CheckNumber(TableReader top, int? number, Control control)
    {
        if (number is { } n && (n < control.ProgramNumberMin || n > control.ProgramNumberMax))
        {
            top.Contradict(
                "program",
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"Program {n} is outside {control.ProgramNumberMin} to {control.ProgramNumberMax} of control '{control.Name}'."
                ),
                "Choose a number in that range."
            );
        }
    }
}
