using System.Globalization;
using FixtureGen.Model;
using FixtureGen.Shop.Reading;

namespace FixtureGen.Shop.Files;

/// <summary>
/// templates/gaskets/*.toml: cord by its measured section. Squeeze and groove are checked against each other, fill for
/// solid cord only: sponge has room in its cells.
/// </summary>
public static class GasketReader
{
    /// <summary>
    /// The cord, mm, or every mistake with line and column: groove and squeeze that contradict each other, a groove
    /// narrower than the cord, solid cord that overfills it.
    /// </summary>
    /// <param name="text">TOML.</param>
    /// <param name="file">As findings name it.</param>
    /// <param name="name">The record's name: the file's without .toml.</param>
    public static Stage<Gasket> Read(string text, string file, string name) =>
        ShopFile.Read(text, file, t => Body(t, name));

    internal static Gasket Body(TableReader t, string name)
    {
        CordKind kind = t.Choice("kind", ("sponge", CordKind.Sponge), ("solid", CordKind.Solid));
        bool solid = kind == CordKind.Solid;
        double section = t.Within(GasketRanges.Section);
        Gasket cord = new()
        {
            Name = name,
            Kind = kind,
            Section = section,
            SectionTolerance = t.Within(GasketRanges.SectionTolerance(section)),
            SqueezeRatio = t.Within(GasketRanges.Squeeze(solid)),
            GrooveWidth = t.Length("groove_width", 0.5, 30),
            GrooveDepth = t.Length("groove_depth", 0.3, 15),
            InsideBendRadius = t.WithinOrNull(GasketRanges.BendRadius(section)) ?? 3 * section,
            ShoreA = solid ? t.Within(GasketRanges.Shore) : t.NumberOr("shore_a", 0, 0, 0),
            P25MinKPa = solid ? t.NumberOr("p25_min_kpa", 0, 0, 0) : t.Within(GasketRanges.P25Min),
            P25MaxKPa = solid ? t.NumberOr("p25_max_kpa", 0, 0, 0) : t.Within(GasketRanges.P25Max),
            CutAllowanceRatio = t.WithinOrNull(GasketRanges.CutAllowance) ?? 0.015,
            FrictionShellOnCord = Friction(t),
            Source = t.Text("source"),
            Description = t.TextOrNull("description") ?? "",
            GrooveDepthTolerance = t.WithinOrAssumed(GasketRanges.DepthTolerance, 0.1),
            HardnessTolerance = solid ? t.WithinOrAssumed(GasketRanges.ShoreTolerance, 5) : 0,
        };
        if (!t.Log.Failed)
        {
            Check(t, cord);
        }
        return cord;
    }

    /// <summary>Dusty or wet it is less than half of clean and dry (from memory): what a file leaves open is taken so, with a note.</summary>
    private static Interval Friction(TableReader t)
    {
        double nominal = t.WithinOrAssumed(GasketRanges.Friction, 0.5);
        return t.Range(
            GasketRanges.Friction.Key,
            nominal,
            GasketRanges.FrictionFrom,
            GasketRanges.FrictionTo,
            0.4 * nominal,
            2 * nominal
        );
    }

    private static void Check(TableReader t, Gasket g)
    {
        double depth = g.Section * (1 - g.SqueezeRatio);
        if (Math.Abs(depth - g.GrooveDepth) > 0.1)
        {
            t.Contradict(
                "groove_depth",
                Inv(
                    $"A groove {g.GrooveDepth:0.###} mm deep squeezes a {g.Section:0.###} mm cord by {1 - (g.GrooveDepth / g.Section):P0}, not {g.SqueezeRatio:P0}."
                ),
                Inv($"For that squeeze the depth is {depth:0.###} mm.")
            );
        }
        if (g.GrooveWidth < g.Section)
        {
            t.Contradict(
                "groove_width",
                Inv($"A groove of {g.GrooveWidth:0.###} mm is narrower than the cord of {g.Section:0.###} mm."),
                "Widen it: 1.15 to 1.3 sections for sponge."
            );
        }
        double fill = Fill(g.Section, g.GrooveDepth, g.GrooveWidth);
        if (g.Kind == CordKind.Solid && fill > 0.93)
        {
            t.Contradict(
                "groove_width",
                Inv($"Solid cord would fill {fill:P0} of the groove; 93 % is the most."),
                Inv($"Widen it to at least {g.GrooveWidth * fill / 0.85:0.###} mm (85 %).")
            );
        }
        t.Rising("p25_min_kpa", g.P25MinKPa, "p25_max_kpa", g.P25MaxKPa, "kPa");
        if (g.Kind == CordKind.Sponge)
        {
            SpongeGrades.Check(t, g.P25MinKPa, g.P25MaxKPa);
        }
    }

    /// <summary>Share of the groove's section that a round cord fills, (pi W^2 / 4) / (L G): means something for solid cord only.</summary>
    internal static double Fill(double section, double grooveDepth, double grooveWidth) =>
        Math.PI * section * section / 4 / (grooveDepth * grooveWidth);

    private static string Inv(FormattableString s) => s.ToString(CultureInfo.InvariantCulture);
}
