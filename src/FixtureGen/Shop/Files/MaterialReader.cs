using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Shop.Reading;

namespace FixtureGen.Shop.Files;

/// <summary>templates/materials/*.toml: what blocks and shells are made of, with the source of its figures.</summary>
public static class MaterialReader
{
    /// <summary>The material with its chip-load chart, or every mistake with line and column.</summary>
    /// <param name="text">TOML.</param>
    /// <param name="file">As findings name it.</param>
    /// <param name="name">The record's name: the file's without .toml.</param>
    public static Stage<Material> Read(string text, string file, string name) =>
        ShopFile.Read(text, file, t => Body(t, name));

    internal static Material Body(TableReader t, string name)
    {
        bool plastic = t.FlagOr("plastic", true);
        (double slow, double fast) = Rising(
            t,
            MaterialRanges.Speed("speed_from", plastic),
            MaterialRanges.Speed("speed_to", plastic),
            "m/min"
        );
        (double low, double high) = Rising(
            t,
            MaterialRanges.ForceFrom(plastic),
            MaterialRanges.ForceTo(plastic),
            "N/mm2"
        );
        ImmutableArray<ChipLoad> loads = [.. t.Inners("chip_load").Select(row => Load(row, plastic))];
        if (loads.IsEmpty)
        {
            t.Contradict("chip_load", "No [[chip_load]] row: feeds cannot be chosen.", "Add at least one row.");
        }
        Ascending(t, "chip_load", "a cutter", "cutter", [.. loads.Select(l => l.Diameter)]);
        return new Material
        {
            Name = name,
            MinSpeedMPerMin = slow,
            MaxSpeedMPerMin = fast,
            ChipLoads = loads,
            SpecificForceMin = low,
            SpecificForceMax = high,
            StepDownRatio = t.Within(MaterialRanges.StepDown),
            StepOverRatio = t.Within(MaterialRanges.StepOver),
            MaxRampDeg = t.Within(MaterialRanges.Ramp(plastic)),
            ExpansionPerK = t.Within(MaterialRanges.Expansion(plastic)),
            ShellFriction = Friction(t, plastic),
            IsPlastic = plastic,
            Source = t.Text("source"),
            Description = t.TextOrNull("description") ?? "",
            Sheet = Sheet(t.InnerOrNull("sheet")),
            Drilling = Drilling(t, plastic),
            SustainedMPa = t.WithinOrNull(MaterialRanges.Sustained),
            Facing = Facing(t.InnerOrNull("face"), plastic),
        };
    }

    private static Interval Friction(TableReader t, bool plastic)
    {
        double nominal = t.Within(MaterialRanges.Friction("shell_friction", plastic));
        return Friction(t, "shell_friction", nominal, plastic);
    }

    /// <summary>
    /// The friction of a shell on a block about its nominal value. Dust and chips halve it (handbook ranges, from memory): what a
    /// file leaves open is taken so, with a note.
    /// </summary>
    internal static Interval Friction(TableReader t, string key, double nominal, bool plastic) =>
        t.Range(
            key,
            nominal,
            MaterialRanges.FrictionFrom(key, plastic),
            MaterialRanges.FrictionTo(key, plastic),
            0.5 * nominal,
            1.5 * nominal
        );

    private static SheetStrength? Sheet(TableReader? t)
    {
        if (t is null)
        {
            return null;
        }
        (double soft, double stiff) = Rising(t, MaterialRanges.ModulusFrom, MaterialRanges.ModulusTo, "N/mm2");
        (double least, double most) = Rising(t, MaterialRanges.ShrinkageFrom, MaterialRanges.ShrinkageTo, "");
        SheetStrength sheet = new(
            t.Within(MaterialRanges.Yield),
            Interval.Between(soft, stiff),
            t.Within(MaterialRanges.Poisson),
            Interval.Between(least, most)
        );
        t.Close();
        return sheet;
    }

    /// <summary>Speed without feeds or feeds without speed is half a chart: refused.</summary>
    private static DrillChart? Drilling(TableReader t, bool plastic)
    {
        TableReader? speed = t.InnerOrNull("drill");
        ImmutableArray<DrillFeed> feeds = [.. t.Inners("drill_feed").Select(row => DrillRow(row, plastic))];
        if (speed is null)
        {
            if (!feeds.IsEmpty)
            {
                t.Contradict(
                    "drill_feed",
                    "Feeds of drills without their speed.",
                    "Add [drill] with speed_from and speed_to."
                );
            }
            return null;
        }
        (double slow, double fast) = Rising(
            speed,
            MaterialRanges.DrillSpeed("speed_from", plastic),
            MaterialRanges.DrillSpeed("speed_to", plastic),
            "m/min"
        );
        speed.Close();
        if (feeds.IsEmpty)
        {
            t.Contradict("drill", "Speed of drills without their feeds.", "Add at least one [[drill_feed]] row.");
            return null;
        }
        Ascending(t, "drill_feed", "drills", "drill", [.. feeds.Select(f => f.UpTo)]);
        return new DrillChart(slow, fast, feeds);
    }

    private static FaceChart? Facing(TableReader? t, bool plastic)
    {
        if (t is null)
        {
            return null;
        }
        (double slow, double fast) = Rising(
            t,
            MaterialRanges.Speed("speed_from", plastic),
            MaterialRanges.Speed("speed_to", plastic),
            "m/min"
        );
        (double from, double to) = Rising(t, MaterialRanges.FaceFrom(plastic), MaterialRanges.FaceTo(plastic), "mm");
        t.Close();
        return new FaceChart(slow, fast, from, to);
    }

    private static DrillFeed DrillRow(TableReader t, bool plastic)
    {
        double upTo = t.Length("up_to", 0.1, 50);
        (double from, double to) = Rising(
            t,
            MaterialRanges.DrillFrom(plastic, upTo),
            MaterialRanges.DrillTo(plastic, upTo),
            "mm"
        );
        t.Close();
        return new DrillFeed(upTo, from, to);
    }

    private static ChipLoad Load(TableReader t, bool plastic)
    {
        double cutter = t.Length("cutter", 0.1, 50);
        (double from, double to) = Rising(
            t,
            MaterialRanges.ChipFrom(plastic, cutter),
            MaterialRanges.ChipTo(plastic, cutter),
            "mm"
        );
        t.Close();
        return new ChipLoad(cutter, from, to);
    }

    /// <summary>Rows of a chart stand from the smallest size to the largest.</summary>
    private static void Ascending(TableReader t, string key, string these, string one, double[] sizes)
    {
        for (int i = 1; i < sizes.Length; i++)
        {
            if (sizes[i] <= sizes[i - 1])
            {
                t.Contradict(
                    key,
                    $"Row {(i + 1).ToString(System.Globalization.CultureInfo.InvariantCulture)} of [[{key}]] is for {these} no larger than the row before.",
                    $"Order the rows from the smallest {one} to the largest.",
                    i
                );
            }
        }
    }

    private static (double From, double To) Rising(TableReader t, PlausibleRange from, PlausibleRange to, string unit)
    {
        double a = t.Within(from);
        double b = t.Within(to);
        t.Rising(from.Key, a, to.Key, b, unit);
        return (a, b);
    }
}
