using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Shop.Files;
using FixtureGen.Shop.Reading;

namespace FixtureGen.Shop.Jobs;

/// <summary>What the [shop] names of a job stand for.</summary>
internal sealed record JobShop
{
    public required PlateFile Plate { get; init; }

    public required Blank Blank { get; init; }

    public required ImmutableArray<Blank> OtherBlanks { get; init; }

    public required Material BlockMaterial { get; init; }

    public required Material ShellMaterial { get; init; }

    public required ToolRack Rack { get; init; }

    public required Tool TrimTool { get; init; }

    /// <summary>Of the shop's names those that the job leaves open.</summary>
    public required OpenKeys Open { get; init; }

    public required MagnetSpec Magnet { get; init; }

    public required Gasket Gasket { get; init; }

    public required Screw Bolt { get; init; }

    public required DowelPin Pin { get; init; }

    public required Control Control { get; init; }

    public ImmutableArray<MagnetSpec> OtherMagnets { get; init; } = [];

    public ImmutableArray<Gasket> OtherGaskets { get; init; } = [];

    /// <summary>All of them, or null with findings.</summary>
    /// <param name="by">No cord is taken from the shop where no vacuum holds the shell.</param>
    public static JobShop? Read(TableReader top, ShopShelf shelf, ShopNames chosen, HoldBy by)
    {
        if (top.Inner("shop") is not { } t)
        {
            return null;
        }
        PlateFile? plate = shelf.Named(t, "plate", "plates", PlateReader.Read);
        Blank? blank = shelf.NamedOrOpen(t, "blank", "blanks", BlankReader.Read, chosen.Blank, chosen.Overrule);
        Material? block = blank is null ? null : shelf.MaterialOf(blank);
        Material? shell = shelf.Named(t, "shell", "materials", MaterialReader.Read);
        ToolRack? rack = shelf.Named(t, "tools", "tools", ToolReader.Read);
        Tool? trim = TrimToolOf(t, rack, chosen.TrimTool);
        MagnetSpec? magnet = shelf.NamedOrOpen(
            t,
            "magnet",
            "magnets",
            MagnetReader.Read,
            chosen.Magnet,
            chosen.Overrule
        );
        Gasket? gasket =
            by == HoldBy.Magnets && !t.Has("gasket")
                ? Gasket.None
                : shelf.NamedOrOpen(t, "gasket", "gaskets", GasketReader.Read, chosen.Gasket, chosen.Overrule);
        Screw? bolt = shelf.Named(t, "bolt", "fasteners", FastenerReader.ReadScrew);
        DowelPin? pin = shelf.Named(t, "pin", "fasteners", FastenerReader.ReadPin);
        Control? control = shelf.Named(t, "control", "controls", ControlReader.Read);
        ShopFit.All(t, plate?.Plate, bolt, pin);
        if (shell is { Sheet: null })
        {
            t.Log.Findings.Add(ShopFindings.SheetUnstated(shell.Name));
        }
        OpenKeys open = OpenOf(t) & (by == HoldBy.Magnets ? ~OpenKeys.Gasket : ~OpenKeys.None);
        t.Close();
        return
            plate is not null
            && blank is not null
            && block is not null
            && shell is not null
            && rack is not null
            && trim is not null
            && magnet is not null
            && gasket is not null
            && bolt is not null
            && pin is not null
            && control is not null
            ? new JobShop
            {
                Plate = plate,
                Blank = blank,
                OtherBlanks = [.. shelf.AllBut("blanks", blank.Name, BlankReader.Read, open.HasFlag(OpenKeys.Blank))],
                BlockMaterial = block,
                ShellMaterial = shell,
                Rack = rack,
                TrimTool = trim,
                Open = open,
                Magnet = magnet,
                Gasket = gasket,
                Bolt = bolt,
                Pin = pin,
                Control = control,
                OtherMagnets =
                [
                    .. shelf.AllBut("magnets", magnet.Name, MagnetReader.Read, open.HasFlag(OpenKeys.Magnet)),
                ],
                OtherGaskets =
                    by == HoldBy.Magnets
                        ? []
                        : [.. shelf.AllBut("gaskets", gasket.Name, GasketReader.Read, open.HasFlag(OpenKeys.Gasket))],
            }
            : null;
    }

    private static OpenKeys OpenOf(TableReader t)
    {
        OpenKeys open = OpenKeys.None;
        foreach (
            (string key, OpenKeys flag) in new[]
            {
                ("blank", OpenKeys.Blank),
                ("gasket", OpenKeys.Gasket),
                ("magnet", OpenKeys.Magnet),
                ("trim_tool", OpenKeys.TrimTool),
            }
        )
        {
            open |= t.Has(key) ? OpenKeys.None : flag;
        }
        return open;
    }

    private static Tool? TrimToolOf(TableReader t, ToolRack? rack, string? chosen)
    {
        string? name = t.Has("trim_tool") ? t.Text("trim_tool") : chosen;
        if (rack is null || name?.Length == 0)
        {
            return null;
        }
        if (name is null)
        {
            return Thinnest(t, rack);
        }
        Tool? tool = rack.Tools.FirstOrDefault(o => o.Name == name);
        string[] mills = [.. rack.Tools.Where(o => o.Kind == ToolKind.EndMill).Select(o => o.Name)];
        if (tool is null || tool.Kind != ToolKind.EndMill)
        {
            string? near = Nearest.Find(name, mills);
            t.Contradict(
                "trim_tool",
                tool is null ? $"'{rack.Name}' has no tool '{name}'." : $"'{name}' is no end mill.",
                (near is null ? "" : $"Did you mean \"{near}\"? ") + $"There are: {string.Join(", ", mills)}."
            );
            return null;
        }
        return tool;
    }

    /// <summary>
    /// The cutter of a job that names none: of the changer's single-flute end mills, which are kept for shells, the thinnest. It
    /// reaches the tightest corners and loads the hold least; up- or downcut is chosen later, by the hold.
    /// </summary>
    private static Tool? Thinnest(TableReader t, ToolRack rack)
    {
        Tool? tool = rack
            .Tools.Where(o => o is { Kind: ToolKind.EndMill, Flutes: 1 })
            .OrderBy(o => o.Diameter)
            .ThenBy(o => o.Number)
            .FirstOrDefault();
        if (tool is null)
        {
            t.Contradict(
                "trim_tool",
                $"The job names no trim_tool and '{rack.Name}' has no single-flute end mill to choose.",
                "Name an end mill as trim_tool, or put a single-flute one in the changer."
            );
        }
        return tool;
    }
}
