using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using FixtureGen.Drawing.Roles;
using FixtureGen.Model;
using FixtureGen.Shop.Files;
using FixtureGen.Shop.Reading;

namespace FixtureGen.Shop.Jobs;

/// <summary>
/// What <c>new</c> knows of a drawing: its name, the unit it states (null where it states none), the outline's size mm
/// (drawing units where there is no unit), and which roles have curves on a layer of their own.
/// </summary>
public sealed record DrawingFacts(
    string Name,
    LengthUnit? Unit,
    double Width,
    double Height,
    bool HasForm,
    bool HasMagnets
)
{
    /// <summary>The end of the drawing's name, with its dot.</summary>
    public string Extension { get; init; } = ".dxf";

    /// <summary>What each layer without a role looks like; empty where none needs one.</summary>
    public ImmutableArray<SuggestedRole> Layers { get; init; } = [];

    /// <summary>The same by colour, where only the colours differ.</summary>
    public ImmutableArray<SuggestedRole> Colours { get; init; } = [];

    /// <summary>Line types that are not solid: no edge of the part unless the job gives them a role.</summary>
    public ImmutableArray<SuggestedRole> LineTypes { get; init; } = [];
}

/// <summary>The text of a fresh job: every choice the toolmaker must make, the rest as comments with their defaults.</summary>
public static class JobTemplate
{
    /// <summary>
    /// The job's TOML. Names are taken from the shop's own files: the first of each kind that fits by name order, the
    /// smallest blank that is larger than the outline both ways. Reads without an error where the shop has such files.
    /// </summary>
    public static string NewJob(DrawingFacts facts, ShopFiles files)
    {
        bool inch = facts.Unit is LengthUnit.Inch or LengthUnit.Foot or LengthUnit.Yard or LengthUnit.Mil;
        StringBuilder text = new();
        text.Append(Inv($"# {Title(facts.Name)}, from {facts.Name}{facts.Extension}: {Size(facts)}.\n"));
        text.Append(Inv($"units = \"{(inch ? "in" : "mm")}\"\n"));
        text.Append(Inv($"title = \"{Title(facts.Name)}\"\n"));
        text.Append(Inv($"fixture = \"{Initials(facts.Name)}-1\"\n"));
        text.Append(
            "revision = 1\n# program = 1000               # the next free number of the library where left out\n"
        );
        text.Append("quantity = 1\n# paper = \"A4\"                  # or \"Letter\"\n\n");
        text.Append("[shop]                          # names of files in templates/, without .toml\n");
        foreach ((string key, string value, string note) in ShopNames(facts, files))
        {
            text.Append(Inv($"{key} = \"{value}\"{(note.Length > 0 ? "    # " + note : "")}\n"));
        }
        text.Append(Inv($"# trim_tool = \"{TrimTool(files)}\"    # left out, up- or downcut is chosen by the hold\n"));
        text.Append(JobRoles.AsComments(facts));
        text.Append(inch ? ShellInch : ShellMm);
        text.Append(facts.HasForm ? LocatorForm : LocatorOpen);
        text.Append("[magnets]\ncount = 4\n");
        text.Append("# factor_target = 1.5           # in place of count: the fewest that reach it\n");
        text.Append(facts.HasMagnets ? "# the drawing's MAGNET places come first\n" : MagnetHint);
        text.Append(JobDefaults.AsComments(facts, files));
        return text.ToString();
    }

    private const string ShellMm = """

        [shell]
        thickness = 2.4
        thickness_max = 2.64            # the thickest that is formed: sheet is sold 10 % either way
        thickness_min = 2.16            # the thinnest, where the locator pins bear
        slack_max = 0.3                 # greatest looseness on the block
        # slack_min = 0                 # least looseness: nest and locator holes leave so much room
        # friction = 0.2                # on the block, measured; left out, the block material's own
        # friction_from = 0.1           # least, with dust or chips: the hold is judged with it
        # friction_to = 0.3             # greatest: printed on the sheet


        """;

    private const string ShellInch = """

        [shell]
        thickness = 0.093
        thickness_max = 0.103           # the thickest that is formed: sheet is sold 10 % either way
        thickness_min = 0.083           # the thinnest, where the locator pins bear
        slack_max = 0.012               # greatest looseness on the block
        # slack_min = 0                 # least looseness: nest and locator holes leave so much room
        # friction = 0.2                # on the block, measured; left out, the block material's own
        # friction_from = 0.1           # least, with dust or chips: the hold is judged with it
        # friction_to = 0.3             # greatest: printed on the sheet


        """;

    private const string LocatorForm = """
        [locator]
        by = "form"                     # the form nests in the block

        [[form]]
        layer = "FORM"
        direction = "down"              # or "up"
        height = "8 mm"
        draft_deg = 3


        """;

    private const string LocatorOpen = """
        # What finds the shell's place before the vacuum does must be said: "pins" in holes of the scrap, a "form", or "hand".
        [locator]
        by = "hand"
        # by = "pins"
        # pins = [[0, 0], [0, 0]]       # in the drawing's frame, clear of the trim
        # holes = "round-and-slot"      # of the shell: a slot lets a shell that shrank go on; or "round"


        """;

    private const string MagnetHint = """

        # [[magnet]]                    # a place you fix, in the drawing's frame
        # at = [0, 0]

        """;

    private static IEnumerable<(string Key, string Value, string Note)> ShopNames(DrawingFacts facts, ShopFiles files)
    {
        yield return ("plate", First(files, "plates"), "");
        yield return ("blank", BlankFor(facts, files), "");
        yield return ("shell", ShellFor(files), "the shell's material");
        yield return ("tools", First(files, "tools"), "");
        yield return ("magnet", First(files, "magnets"), "");
        yield return ("gasket", FirstWhere(files, "gaskets", GasketReader.Read, g => g.Kind == CordKind.Sponge), "");
        yield return ("bolt", FirstWhere(files, "fasteners", FastenerReader.ReadScrew, _ => true), "");
        yield return ("pin", FirstWhere(files, "fasteners", FastenerReader.ReadPin, _ => true), "");
        yield return ("control", First(files, "controls"), "");
    }

    internal static string BlankFor(DrawingFacts facts, ShopFiles files)
    {
        double least = Math.Min(facts.Width, facts.Height);
        double most = Math.Max(facts.Width, facts.Height);
        return All(files, "blanks", BlankReader.Read)
                .Where(b => Math.Min(b.Width, b.Height) > least && Math.Max(b.Width, b.Height) > most)
                .OrderBy(b => b.Width * b.Height)
                .ThenBy(b => b.Name, StringComparer.Ordinal)
                .FirstOrDefault()
                ?.Name
            ?? First(files, "blanks");
    }

    private static string ShellFor(ShopFiles files)
    {
        string[] blocks = [.. All(files, "blanks", BlankReader.Read).Select(b => b.Material)];
        return All(files, "materials", MaterialReader.Read)
                .FirstOrDefault(m => m.IsPlastic && !blocks.Contains(m.Name))
                ?.Name
            ?? First(files, "materials");
    }

    private static string TrimTool(ShopFiles files) =>
        First(files, "tools") is var rack
        && files.Find("tools", rack) is { } found
        && ToolReader.Read(found.Text, found.Path, rack).Value is { } tools
        && tools.Tools.FirstOrDefault(t => t is { Kind: ToolKind.EndMill, Flutes: 1 }) is { } tool
            ? tool.Name
            : "";

    internal static string FirstWhere<T>(
        ShopFiles files,
        string kind,
        Func<string, string, string, Stage<T>> read,
        Func<T, bool> wanted
    )
    {
        foreach (string name in files.List(kind).Order(StringComparer.Ordinal))
        {
            if (
                files.Find(kind, name) is { } f
                && read(f.Text, f.Path, name) is { Ok: true, Value: { } v }
                && wanted(v)
            )
            {
                return name;
            }
        }
        return "";
    }

    private static IEnumerable<T> All<T>(ShopFiles files, string kind, Func<string, string, string, Stage<T>> read)
        where T : class
    {
        foreach (string name in files.List(kind).Order(StringComparer.Ordinal))
        {
            if (files.Find(kind, name) is { } found && read(found.Text, found.Path, name).Value is { } value)
            {
                yield return value;
            }
        }
    }

    internal static string First(ShopFiles files, string kind) =>
        files.List(kind).Order(StringComparer.Ordinal).FirstOrDefault() ?? "";

    private static string Size(DrawingFacts facts) =>
        facts.Unit is null
            ? Inv($"{facts.Width:0.###} x {facts.Height:0.###} drawing units, unit not stated")
            : Inv($"{facts.Width:0.#} x {facts.Height:0.#} mm");

    private static string Title(string name)
    {
        string words = name.Replace('-', ' ').Replace('_', ' ').Replace('"', ' ').Replace('\\', ' ');
        return words.Length == 0 ? words : char.ToUpperInvariant(words[0]) + words[1..];
    }

    private static string Initials(string name)
    {
        IEnumerable<string> words = name.Split(['-', '_', ' '], StringSplitOptions.RemoveEmptyEntries);
        string letters = string.Concat(words.Select(w => char.ToUpperInvariant(w[0])).Where(char.IsAsciiLetterOrDigit));
        return letters.Length == 0 ? "FX" : letters;
    }

    private static string Inv(FormattableString s) => s.ToString(CultureInfo.InvariantCulture);
}
