using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Shop.Reading;

namespace FixtureGen.Shop.Files;

/// <summary>templates/tools/*.toml: one file is one changer; every [[tool]] in it has its own name and number.</summary>
public static class ToolReader
{
    /// <summary>No wider face mill hangs in a spindle that cuts such blocks, mm (common practice, no source).</summary>
    private const double WidestFace = 160;

    /// <summary>The tools, mm and degrees, or every mistake with line and column; no two share a name or a number.</summary>
    /// <param name="text">TOML.</param>
    /// <param name="file">As findings name it.</param>
    /// <param name="name">The record's name: the file's without .toml.</param>
    public static Stage<ToolRack> Read(string text, string file, string name) =>
        ShopFile.Read(text, file, t => Body(t, name));

    internal static ToolRack Body(TableReader t, string name)
    {
        ImmutableArray<TableReader> rows = t.Inners("tool");
        if (rows.IsEmpty)
        {
            t.Contradict("tool", "The changer has no [[tool]].", "Add the tools that stand in it.");
        }
        List<Tool> tools = [];
        foreach (TableReader row in rows)
        {
            Tool tool = Tool(row);
            if (tools.Find(o => o.Name == tool.Name) is not null)
            {
                row.Contradict("name", $"Two tools are named '{tool.Name}'.", "Give each tool its own name.");
            }
            if (tools.Find(o => o.Number == tool.Number) is { } other)
            {
                row.Contradict(
                    "number",
                    $"'{tool.Name}' and '{other.Name}' both have number {tool.Number.ToString(System.Globalization.CultureInfo.InvariantCulture)}.",
                    "Give each tool the number of its own place in the changer."
                );
            }
            tools.Add(tool);
        }
        return new ToolRack
        {
            Name = name,
            Tools = [.. tools],
            Description = t.TextOrNull("description") ?? "",
        };
    }

    private static Tool Tool(TableReader t)
    {
        ToolKind kind = t.Choice(
            "kind",
            ("end-mill", ToolKind.EndMill),
            ("ball-mill", ToolKind.BallMill),
            ("face-mill", ToolKind.FaceMill),
            ("drill", ToolKind.Drill),
            ("engraver", ToolKind.Engraver)
        );
        bool pointed = kind is ToolKind.Drill or ToolKind.Engraver;
        double widest = kind == ToolKind.FaceMill ? WidestFace : 50;
        double diameter = t.Length("diameter", 0.1, widest);
        double fluteLength = t.Length("flute_length", 0.1, 200);
        HelixDirection helix =
            t.ChoiceOrNull(
                "helix",
                ("straight", HelixDirection.Straight),
                ("up", HelixDirection.Up),
                ("down", HelixDirection.Down)
            ) ?? (kind == ToolKind.FaceMill ? HelixDirection.Straight : HelixDirection.Up);
        double holder = t.LengthOr("holder_diameter", 40, 1, 200);
        t.Gone(
            "holder_length",
            "a holder counts as endlessly long, since the spindle follows it",
            "Take the line out; holder_diameter and stick_out say all that counts."
        );
        Tool tool = new()
        {
            Name = t.Text("name"),
            Number = t.Whole("number", 1, 999),
            Kind = kind,
            Diameter = diameter,
            Flutes = t.Whole("flutes", 1, 12),
            FluteLength = fluteLength,
            ShankDiameter = t.LengthOr("shank_diameter", diameter, 0.1, widest),
            StickOut = t.Length("stick_out", 1, 300),
            HolderDiameter = holder,
            TipAngleDeg = pointed ? t.Number("tip_angle_deg", 10, 179) : t.NumberOr("tip_angle_deg", 180, 180, 180),
            TipDiameter =
                kind == ToolKind.Engraver ? t.Length("tip_diameter", 0, 5) : t.LengthOr("tip_diameter", 0, 0, 0),
            Helix = helix,
            HelixAngleDeg =
                helix == HelixDirection.Straight
                    ? t.NumberOr("helix_angle_deg", 0, 0, 0)
                    : t.WithinOrNull(ToolRanges.Helix) ?? 30,
            CentreCutting = t.FlagOr("centre_cutting", kind is not (ToolKind.Drill or ToolKind.FaceMill)),
            MaxStepDown = t.LengthOr("max_step_down", fluteLength, 0.01, 200),
            MaxRampDeg = t.NumberOr("max_ramp_deg", 5, 0, 90),
            RunOut = t.WithinOrNull(ToolRanges.RunOut) ?? 0.02,
            MaxRpm = t.NumberOr("max_rpm", 60000, 100, 200000),
            ChipLoads = [.. t.Inners("chip_load").Select(Own)],
        };
        Check(t, tool);
        t.Close();
        return tool;
    }

    private static OwnChipLoad Own(TableReader t)
    {
        bool plastic = t.Choice("in", ("plastic", Stuff.Plastic), ("metal", Stuff.Metal)) == Stuff.Plastic;
        double from = t.Length("from", 0.001, 2);
        double to = t.Length("to", 0.001, 2);
        t.Rising("from", from, "to", to, "mm");
        t.Close();
        return new OwnChipLoad(plastic, from, to);
    }

    private enum Stuff
    {
        Plastic,
        Metal,
    }

    private static void Check(TableReader t, Tool tool)
    {
        if (tool.StickOut < tool.FluteLength)
        {
            t.Contradict(
                "stick_out",
                FormattableString.Invariant(
                    $"'{tool.Name}' stands out {tool.StickOut:0.###} mm, less than its flutes of {tool.FluteLength:0.###} mm."
                ),
                "Measure stick_out from the tip to the holder's face."
            );
        }
        if (tool.Kind == ToolKind.Engraver && tool.ChipLoads.IsEmpty)
        {
            t.Contradict(
                "chip_load",
                $"'{tool.Name}' is an engraver without its own chip load: no material's chart reaches down to a point.",
                "Add [[tool.chip_load]] with in = \"plastic\", from and to; the same for metal if it is used there."
            );
        }
        if (tool.ChipLoads.DistinctBy(c => c.InPlastic).Count() < tool.ChipLoads.Length)
        {
            t.Contradict("chip_load", $"'{tool.Name}' has two chip loads for the same stuff.", "Leave one of them.");
        }
        if (tool is { Kind: ToolKind.FaceMill, CentreCutting: true })
        {
            t.Contradict(
                "centre_cutting",
                $"'{tool.Name}' is a face mill: between its teeth it cuts nothing.",
                "Leave centre_cutting out; it is brought in from beside the block."
            );
        }
        if (tool.TipDiameter >= tool.Diameter)
        {
            t.Contradict(
                "tip_diameter",
                FormattableString.Invariant(
                    $"The tip of '{tool.Name}' of {tool.TipDiameter:0.###} mm is no smaller than its diameter of {tool.Diameter:0.###} mm."
                ),
                "Give the width of the flat at the point."
            );
        }
    }
}
