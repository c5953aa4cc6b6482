using System.Collections.Immutable;
using System.Globalization;
using FixtureGen.Model;
using FixtureGen.Shop.Files;
using FixtureGen.Shop.Reading;

namespace FixtureGen.Shop.Jobs;

/// <summary>What a job says besides the names of its shop files: all of it together, and its numbers of block, trim, magnets and places.</summary>
internal static class JobBody
{
    internal const double Reach = 2000;

    // A worn edge cuts with 1.5 to 2 times the force (common practice, no source).
    public const double DullFactor = 1.5;

    /// <summary>Farther off than this many tolerances a measured blank is no blank of that stock.</summary>
    private const double FarOff = 3;

    /// <summary>The whole job, or null where the shop files are not all there; all keys are read either way.</summary>
    public static Job? Read(TableReader top, JobShop? shop, JobHold hold, string name, ShopShelf shelf)
    {
        (Shell shell, Interval? shellFriction) = JobShell.Read(top, shop);
        (double thickness, bool measured) = BlockThickness(top.InnerOrNull("block"), shop);
        VacuumSupply vacuum = VacuumReader.Read(top.InnerOrNull("vacuum"), shop?.Plate.Vacuum ?? VacuumReader.House);
        HouseLimits limits = RulesReader.Limits(top.InnerOrNull("limits"));
        TableReader? rulesTable = top.InnerOrNull("rules");
        Rules? rules = shop is null ? null : RulesReader.Read(rulesTable, shop.Blank, shop.Gasket, shell.SlackMin);
        Words words = new(top, name);
        TableReader? drawing = top.InnerOrNull("drawing");
        SmallHoles small = JobDrawing.SmallHolesOf(top, drawing);
        bool mirror = top.FlagOr("mirror", false);
        InnerCorners corners = JobDrawing.InnerCornersOf(top, drawing);
        (LengthUnit? drawingUnit, DrawingRoles roles, double join) = JobDrawing.Read(drawing);
        ImmutableArray<FormSpec> forms = [.. top.Inners("form").Select(JobShell.Form)];
        (LocatorKind? locator, ImmutableArray<Point2> pins, LocatorHoles holes, OpenKeys openPins) = JobShell.Locator(
            top.InnerOrNull("locator"),
            forms
        );
        OpenKeys open = openPins;
        (double? trimFeed, double? trimRpm, int? passes, double dull) = TrimOf(top.InnerOrNull("trim"), ref open);
        (int magnetCount, double? target) = MagnetsOf(top.InnerOrNull("magnets"), ref open);
        SkirtHold skirt = JobShell.Skirt(top);
        ImmutableArray<MagnetWish> wishes = [.. top.Inners("magnet").Select(WishOf)];
        ImmutableArray<Point2> ports = [.. top.Inners("port").Select(PortOf)];
        Pose? placement = PoseOf(top.InnerOrNull("placement"));
        bool none = magnetCount == 0 && target is null && wishes.IsEmpty;
        hold.Contradict(top, none ? 0 : Math.Max(1, magnetCount), !ports.IsEmpty, skirt);
        if (shop is null || rules is null || top.Log.Failed)
        {
            return null;
        }
        CheckSkim(top, rules, thickness);
        CheckNumber(top, words.Program, shop.Control);
        return new Job
        {
            Name = name,
            Title = words.Title,
            FixtureId = words.Fixture,
            Revision = words.Revision,
            ProgramNumber = words.Program,
            DrawingUnit = drawingUnit,
            DisplayUnit = top.Log.Unit ?? LengthUnit.Millimetre,
            Roles = roles,
            Join = join,
            SmallHoles = small,
            Mirror = mirror,
            InnerCorners = corners,
            Plate = shop.Plate.Plate,
            Blank = shop.Blank,
            OtherBlanks = shop.OtherBlanks,
            BlankThickness = thickness,
            BlockMaterial = shop.BlockMaterial,
            ShellMaterial = shop.ShellMaterial,
            Shell = shell,
            Locator = locator,
            LocatorPins = pins,
            Skirt = skirt,
            Forms = forms,
            Tools = shop.Rack.Tools,
            Rack = shop.Rack,
            TrimTool = shop.TrimTool,
            TrimFeedMmPerMin = trimFeed,
            TrimRpm = trimRpm,
            Magnet = shop.Magnet,
            MagnetCount = magnetCount,
            Magnets = wishes,
            MagnetFactorTarget = target,
            Gasket = shop.Gasket,
            Bolt = shop.Bolt,
            Pin = shop.Pin,
            Control = shop.Control,
            Vacuum = vacuum,
            ShellFriction = shellFriction,
            DullFactor = dull,
            Limits = limits,
            Rules = rules,
            Placement = placement,
            Paper = words.Paper,
            Quantity = words.Quantity,
            Sources = [.. shelf.Used],
            Ports = ports,
            Open = shop.Open | open,
            TrimPasses = passes,
            HoldBy = hold.By,
            AcceptLowHold = hold.AcceptLow,
            BlockMeasured = measured,
            LocatorHoles = holes,
            OtherMagnets = shop.OtherMagnets,
            OtherGaskets = shop.OtherGaskets,
        };
    }

    /// <summary>[block]: the stock's nominal thickness, or what was measured, which must be of that stock.</summary>
    private static (double Thickness, bool Measured) BlockThickness(TableReader? t, JobShop? shop)
    {
        double nominal = shop?.Blank.Thickness ?? 0;
        bool measured = t?.Has("thickness") ?? false;
        double thickness = t?.LengthOr("thickness", nominal, 3, 200) ?? nominal;
        if (t is not null && measured && shop is not null && !t.Log.Failed)
        {
            CheckMeasured(t, shop.Blank, thickness);
        }
        t?.Close();
        return (thickness, measured);
    }

    private static void CheckMeasured(TableReader t, Blank stock, double thickness)
    {
        double off = thickness - stock.Thickness;
        double beyond = Math.Abs(off) - stock.ThicknessTolerance;
        if (beyond <= 1e-9)
        {
            return;
        }
        string message = string.Create(
            CultureInfo.InvariantCulture,
            $"A measured thickness of {thickness:0.###} mm is {Math.Abs(off):0.###} mm {(off > 0 ? "over" : "under")} the {stock.Thickness:0.###} mm of '{stock.Name}', whose tolerance is {stock.ThicknessTolerance:0.###} mm: {beyond:0.###} mm beyond it."
        );
        if (beyond > (FarOff - 1) * stock.ThicknessTolerance)
        {
            t.Contradict("thickness", message, "Measure again, or name the blank that it is.");
        }
        else
        {
            t.Unusual("thickness", message, "Measure again; if it is so, correct the stock's tolerance in its file.");
        }
    }

    private static (double? Feed, double? Rpm, int? Passes, double Dull) TrimOf(TableReader? t, ref OpenKeys open)
    {
        double? feed = t?.MeasureOrNull("feed", Quantity.Rate, 10, 50000);
        double? rpm = t?.NumberOrNull("rpm", 100, 200000);
        int? passes = t?.WholeOrNull("passes", 1, 100);
        double dull = t?.WithinOrNull(JobRanges.Dull) ?? DullFactor;
        open |= passes is null ? OpenKeys.Passes : OpenKeys.None;
        open |= feed is null ? OpenKeys.Feed : OpenKeys.None;
        open |= rpm is null ? OpenKeys.Rpm : OpenKeys.None;
        t?.Close();
        return (feed, rpm, passes, dull);
    }

    private static (int Count, double? Target) MagnetsOf(TableReader? t, ref OpenKeys open)
    {
        int count = t?.WholeOr("count", 4, 0, 100) ?? 4;
        double? target = t?.NumberOrNull("factor_target", 0.1, 100);
        open |= target is null && t?.Has("count") != true ? OpenKeys.Count : OpenKeys.None;
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
