using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Shop;

/// <summary>templates/materials/*.toml: what blocks and shells are made of, with the source of its figures.</summary>
public static class MaterialReader
{
    /// <summary>The material with its chip-load chart, or every mistake with line and column.</summary>
    /// <param name="text">TOML.</param>
    /// <param name="file">As findings name it.</param>
    /// <param name="name">The record's name: the file's without .toml.</param>
    public static Stage<Material> Read(string text, string file, string name) =>
        ShopFile.Read(text, file, t => Body(t, name));

    private static Material Body(TableReader t, string name)
    {
        (double slow, double fast) = Rising(
            t,
            "speed_from",
            "speed_to",
            k => t.Measure(k, Quantity.Speed, 5, 2000),
            "m/min"
        );
        (double low, double high) = Rising(
            t,
            "specific_force_from",
            "specific_force_to",
            k => t.Number(k, 1, 5000),
            "N/mm2"
        );
        ImmutableArray<ChipLoad> loads = [.. t.Inners("chip_load").Select(Load)];
        if (loads.IsEmpty)
        {
            t.Contradict("chip_load", "No [[chip_load]] row: feeds cannot be chosen.", "Add at least one row.");
        }
        for (int i = 1; i < loads.Length; i++)
        {
            if (loads[i].Diameter <= loads[i - 1].Diameter)
            {
                t.Contradict(
                    "chip_load",
                    $"Row {(i + 1).ToString(System.Globalization.CultureInfo.InvariantCulture)} of [[chip_load]] is for a cutter no larger than the row before.",
                    "Order the rows from the smallest cutter to the largest.",
                    i
                );
            }
        }
        return new Material(
            name,
            slow,
            fast,
            loads,
            low,
            high,
            t.Number("step_down_ratio", 0.01, 3),
            t.Number("step_over_ratio", 0.01, 1),
            t.Number("max_ramp_deg", 0.1, 30),
            t.Number("expansion_per_k", 0, 0.001),
            Friction(t),
            t.FlagOr("plastic", true),
            t.Text("source")
        )
        {
            Description = t.TextOrNull("description") ?? "",
            Sheet = Sheet(t.InnerOrNull("sheet")),
        };
    }

    // dust and chips halve a plastic's friction on a block (handbook ranges, from memory): what a file leaves open is taken so
    private static Interval Friction(TableReader t)
    {
        double nominal = t.Number("shell_friction", 0.01, 2);
        return t.Range("shell_friction", nominal, 0.5 * nominal, 1.5 * nominal, 0.01, 2);
    }

    private static SheetStrength? Sheet(TableReader? t)
    {
        if (t is null)
        {
            return null;
        }
        (double soft, double stiff) = Rising(t, "modulus_from", "modulus_to", k => t.Number(k, 10, 20000), "N/mm2");
        (double least, double most) = Rising(t, "shrinkage_from", "shrinkage_to", k => t.Number(k, 0, 0.1), "");
        SheetStrength sheet = new(
            t.Number("yield", 1, 500),
            Interval.Between(soft, stiff),
            t.Number("poisson", 0.05, 0.499),
            Interval.Between(least, most)
        );
        t.Close();
        return sheet;
    }

    private static ChipLoad Load(TableReader t)
    {
        double cutter = t.Length("cutter", 0.1, 50);
        (double from, double to) = Rising(t, "from", "to", k => t.Length(k, 0.001, 2), "mm");
        t.Close();
        return new ChipLoad(cutter, from, to);
    }

    private static (double From, double To) Rising(
        TableReader t,
        string from,
        string to,
        Func<string, double> read,
        string unit
    )
    {
        double a = read(from);
        double b = read(to);
        t.Rising(from, a, to, b, unit);
        return (a, b);
    }
}
