using System.Globalization;
using System.Text;
using FixtureGen.Model;
using FixtureGen.Shop.Files;
using FixtureGen.Shop.Reading;

namespace FixtureGen.Shop.Jobs;

/// <summary>Every table that a job may leave out, as comments with what stands in for it in this shop.</summary>
internal static class JobDefaults
{
    private const int NoteColumn = 33;

    public static string AsComments(DrawingFacts facts, ShopFiles files)
    {
        StringBuilder text = new();
        text.Append(
            "\n# All below is chosen or has a default, shown here. Take the # from a table's name and from a key to change it.\n"
        );
        string corners = JobTemplate.CornerLeft(facts);
        foreach ((string table, (string Key, string Value, string Note)[] keys) in Tables(facts, files))
        {
            bool said = corners.Length > 0 && table == "[rules]";
            text.Append(said ? Inv($"\n{table}\n{corners}") : Inv($"\n# {table}\n"));
            text.Append(Lines(said ? [.. keys.Where(k => k.Key != "corner_left")] : keys));
        }
        return text.ToString();
    }

    /// <summary>Names of the shop that are chosen where they are left out.</summary>
    public static string Shop(DrawingFacts facts, ShopFiles files) =>
        Lines([
            (
                "blank",
                Quoted(JobTemplate.BlankFor(facts, files)),
                "these four are chosen for the least time of a batch"
            ),
            (
                "gasket",
                Quoted(JobTemplate.FirstWhere(files, "gaskets", GasketReader.Read, g => g.Kind == CordKind.Sponge)),
                ""
            ),
            ("magnet", Quoted(JobTemplate.First(files, "magnets")), ""),
            ("trim_tool", Quoted(JobTemplate.TrimTool(files)), "the cutter, and with it up- or downcut"),
        ]);

    /// <summary>What else may be said of a shell.</summary>
    public static string Shell(bool inch) =>
        Lines([
            ("thickness_max", inch ? "0.066" : "1.65", "the thickest that is formed: sheet is sold 10 % either way"),
            ("thickness_min", inch ? "0.054" : "1.35", "the thinnest, where the locator pins bear"),
            ("slack_min", "0", "least looseness: nest and locator holes leave so much room"),
            ("friction", "0.2", "on the block, measured; left out, the block material's own"),
            ("friction_from", "0.1", "least, with dust or chips: the hold is judged with it"),
            ("friction_to", "0.3", "greatest: printed on the sheet"),
        ]);

    /// <summary>What else may be said of what locates it.</summary>
    public static string Locator() =>
        Lines([
            ("pins", "[[0, 0], [0, 0]]", "places you fix, in the drawing's frame, clear of the trim"),
            ("holes", "\"round-and-slot\"", "of the shell: a slot lets a shell that shrank go on; or \"round\""),
        ]);

    /// <summary>For each key of those tables its default and what it is, by its path.</summary>
    public static IReadOnlyDictionary<string, (string Value, string Note)> ByKey(DrawingFacts facts, ShopFiles files) =>
        Tables(facts, files)
            .Where(t => !t.Item1.StartsWith("[[", StringComparison.Ordinal))
            .SelectMany(t => t.Item2.Select(k => (Path: $"{t.Item1.Trim('[', ']')}.{k.Item1}", k.Item2, k.Item3)))
            .ToDictionary(k => k.Path, k => (k.Item2, k.Item3), StringComparer.Ordinal);

    private static string Lines((string Key, string Value, string Note)[] keys)
    {
        StringBuilder text = new();
        foreach ((string key, string value, string note) in keys)
        {
            string line = Inv($"# {key} = {value}");
            text.Append(note.Length == 0 ? line : line.PadRight(NoteColumn - 1) + " # " + note).Append('\n');
        }
        return text.ToString();
    }

    private static IEnumerable<(string, (string, string, string)[])> Tables(DrawingFacts facts, ShopFiles files)
    {
        Blank? blank = Value(files, "blanks", JobTemplate.BlankFor(facts, files), BlankReader.Read);
        VacuumSupply vacuum =
            Value(files, "plates", JobTemplate.First(files, "plates"), PlateReader.Read)?.Vacuum ?? VacuumReader.House;
        string cord = JobTemplate.FirstWhere(files, "gaskets", GasketReader.Read, g => g.Kind == CordKind.Sponge);
        Gasket? gasket = Value(files, "gaskets", cord, GasketReader.Read);
        yield return (
            "[magnets]",
            [
                ("count", "4", "left out, as few as hold"),
                ("factor_target", "1.5", "in place of count: the fewest that reach it"),
            ]
        );
        yield return ("[[magnet]]", [("at", "[0, 0]", "a place you fix, in the drawing's frame")]);
        if (blank is not null)
        {
            yield return (
                "[block]",
                [("thickness", Mm(blank.Thickness), "write what you measured; left out, the stock's tolerance counts")]
            );
        }
        yield return ("[skirt]", [("hold", "\"tabs\"", "the scrap round the part: tabs, sealed-land, clamps or none")]);
        yield return (
            "[trim]",
            [
                ("dull_factor", Number(JobBody.DullFactor), "a worn edge's force over a sharp one's"),
                ("passes", "1", "through the shell; left out, by the material's step-down"),
                ("feed", "\"1000 mm/min\"", "left out, chosen by chip load"),
                ("rpm", "20000", "left out, chosen by cutting speed"),
            ]
        );
        yield return (
            "[placement]",
            [("at", "[0, 0]", "the drawing's origin on the plate; left out, chosen"), ("angle_deg", "0", "")]
        );
        yield return ("[[port]]", [("at", "[0, 0]", "a vacuum hole you fix, in the drawing's frame")]);
        yield return ("[vacuum]", Vacuum(vacuum));
        yield return (
            "[hold]",
            [
                ("by", "\"vacuum\"", "what holds the shell; \"magnets\" alone where no cord finds room"),
                ("accept_low_hold", "\"reason\"", "make it below a house limit; the reason stands on every paper"),
            ]
        );
        yield return (
            "[limits]",
            [
                ("vacuum_factor", "2", "staying put on what holds it, worst case (common practice, no source)"),
                ("magnet_factor", "1", "while the machine stops, with the stops"),
                ("block_factor", "2", "the block while it is cut"),
            ]
        );
        if (blank is not null && gasket is not null)
        {
            yield return ("[rules]", Rules(RulesReader.Defaults(blank, gasket)));
        }
    }

    private static string Quoted(string name) => $"\"{name}\"";

    private static (string, string, string)[] Vacuum(VacuumSupply v) =>
        [
            ("altitude", Inv($"\"{v.AltitudeM:0.#} m\""), "of the shop: it caps the vacuum"),
            ("pump", Inv($"\"{v.PumpRatedKPa / Units.KPaPerInHg:0.##} inHg\""), "what the pump reaches"),
            ("alarm", Inv($"\"{v.AlarmKPa / Units.KPaPerInHg:0.##} inHg\""), "below this nothing may run"),
            ("alarm_tolerance", Inv($"\"{v.AlarmToleranceKPa:0.##} kPa\""), "how far below it the switch may trip"),
            ("flow_l_per_min", Number(v.PumpFlowLPerMin), "free air"),
            ("leak_hole", Mm(v.LeakHoleMm), "the leak that counts"),
        ];

    private static (string, string, string)[] Rules(Rules r) =>
        [
            ("fixture_height", Mm(r.FixtureHeight), "skimmed face above the plate"),
            ("least_skim", Mm(r.LeastSkim), ""),
            ("side_clearance", Mm(r.SideClearance), "relief wall inside the finished edge"),
            ("tip_below_shell", Mm(r.TipBelowShell), "of the trim cutter"),
            ("relief_floor_below_tip", Mm(r.ReliefFloorBelowTip), ""),
            ("land", Mm(r.Land), "beside a gasket groove"),
            ("wall", Mm(r.Wall), "between other cuts"),
            ("least_floor", Mm(r.LeastFloor), ""),
            ("net_depth", Mm(r.NetDepth), "of the distribution grooves"),
            ("net_reach", Mm(r.NetReach), "no sealed point is farther from one"),
            ("magnet_recess", Mm(r.MagnetRecess), "disc below the block's face"),
            ("magnet_glue", Mm(r.MagnetGlue), ""),
            ("magnet_pocket_clearance", Mm(r.MagnetPocketClearance), "on the diameter, over the largest disc"),
            ("jacket_clearance", Mm(r.JacketClearance), "from cutter, shank and holder"),
            ("slug_milled_below", Mm(r.SlugMilledBelow), "smaller slugs are milled away whole"),
            ("tab_length", Mm(r.TabLength), ""),
            ("tab_thickness", Mm(r.TabThickness), ""),
            ("corner_left", Mm(r.CornerLeft), "what the trim cutter may leave in a corner"),
            ("lead_radius", Mm(r.LeadRadius), "of the trim's way in and out"),
            ("engrave_depth", Mm(r.EngraveDepth), ""),
            ("letter_height", Mm(r.LetterHeight), ""),
            ("temperature_swing_k", Number(r.TemperatureSwingK), "for the length of the pin slot"),
            ("locator_pin_diameter", Mm(r.LocatorPinDiameter), "pins in the scrap"),
            ("locator_hole_clearance", Mm(r.LocatorHoleClearance), "the shell's hole over the pin, on the diameter"),
            ("locator_pin_projection", Mm(r.LocatorPinProjection), "above the thickest shell"),
            ("running_clearance", Mm(r.RunningClearance), "round a form that nests"),
        ];

    private static T? Value<T>(ShopFiles files, string kind, string name, Func<string, string, string, Stage<T>> read)
        where T : class => files.Find(kind, name) is { } f ? read(f.Text, f.Path, name).Value : null;

    private static string Mm(double value) => Inv($"\"{value:0.###} mm\"");

    private static string Number(double value) => Inv($"{value:0.###}");

    private static string Inv(FormattableString s) => s.ToString(CultureInfo.InvariantCulture);
}
