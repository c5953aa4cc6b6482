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

    /// <summary>The fixture's id; empty for the drawing's initials and 1.</summary>
    public string Fixture { get; init; } = "";

    /// <summary>What only the shop knows, as far as it was answered.</summary>
    public JobAnswers Answers { get; init; } = JobAnswers.None;

    /// <summary>What the shop answered last, for comments beside what is still open.</summary>
    public JobAnswers Last { get; init; } = JobAnswers.None;

    /// <summary>What the shop's cutters do not reach.</summary>
    public EdgeFacts Edges { get; init; } = EdgeFacts.None;

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
    /// The job's TOML, as short as it can be: what the solver chooses is left out. Names of plate, changer, screw, pin and control are the
    /// shop's first by name order. What only the shop knows is written as it was answered, else as "?", which every reader refuses.
    /// </summary>
    public static string NewJob(DrawingFacts facts, ShopFiles files)
    {
        JobAnswers answers = facts.Answers;
        bool inch = InInches(facts);
        StringBuilder text = new();
        text.Append(Inv($"# {Title(facts.Name)}, from {facts.Name}{facts.Extension}: {Size(facts)}.\n"));
        text.Append(Inv($"units = \"{(inch ? "in" : "mm")}\"\n"));
        text.Append(Inv($"title = \"{Title(facts.Name)}\"\n"));
        text.Append(Inv($"fixture = \"{(facts.Fixture.Length > 0 ? facts.Fixture : FirstId(facts.Name))}\"\n"));
        text.Append("revision = 1\n");
        text.Append(SmallHoles(facts));
        text.Append("# program = 1000               # the next free number of the library where left out\n");
        text.Append("quantity = 1                    # shells in a batch: what is left open is chosen for it\n");
        text.Append("# mirror = false               # true makes the drawing's twin: X counted the other way\n");
        text.Append("# paper = \"A4\"                  # or \"Letter\"\n\n");
        text.Append("[shop]                          # names of files in templates/, without .toml\n");
        text.Append(Asked("shell", answers.Shell, facts.Last.Shell, string.Join(", ", Shells(files))));
        foreach ((string key, string value) in ShopNames(files))
        {
            text.Append(Inv($"{key} = \"{value}\"\n"));
        }
        text.Append(JobDefaults.Shop(facts, files));
        text.Append(JobRoles.AsComments(facts));
        text.Append("\n[shell]                         # as formed, in the job's unit or like \"1.5 mm\"\n");
        text.Append(
            Asked("thickness", answers.Thickness, facts.Last.Thickness, "at the edge that is trimmed, measured")
        );
        text.Append(
            Asked("slack_max", answers.Slack, facts.Last.Slack, "how far a shell can be pushed about on the block")
        );
        text.Append(JobDefaults.Shell(inch));
        text.Append("\n[locator]                       # what finds the shell's place before the vacuum does\n");
        text.Append(Asked("by", answers.Locator, facts.Last.Locator, "auto, pins, form or hand"));
        text.Append(JobDefaults.Locator());
        text.Append(facts.HasForm ? LocatorForm : "");
        text.Append(facts.HasMagnets ? "\n# The drawing's MAGNET places come first.\n" : "");
        text.Append(JobDefaults.AsComments(facts, files));
        return text.ToString();
    }

    /// <summary>Whether the job's lengths are in inches: as the drawing's, else as it was answered.</summary>
    public static bool InInches(DrawingFacts facts) =>
        facts.Unit is LengthUnit.Inch or LengthUnit.Foot or LengthUnit.Yard or LengthUnit.Mil
        || (facts.Unit is null && facts.Answers.Unit == "in");

    /// <summary>The materials that a shell may be of: the plastics of the shop, by name.</summary>
    public static IEnumerable<string> Shells(ShopFiles files) =>
        All(files, "materials", MaterialReader.Read).Where(m => m.IsPlastic).Select(m => m.Name);

    /// <summary>A fixture's id that no job of the folder has: the drawing's initials with the least number that is free.</summary>
    public static string FreeId(string name, IReadOnlySet<string> taken)
    {
        int number = 1;
        while (taken.Contains(Inv($"{Initials(name)}-{number}")))
        {
            number++;
        }
        return Inv($"{Initials(name)}-{number}");
    }

    private static string FirstId(string name) => FreeId(name, ImmutableHashSet<string>.Empty);

    /// <summary>What becomes of small cutouts: as answered, as the rack can, else asked; nothing where there is nothing to say.</summary>
    private static string SmallHoles(DrawingFacts facts)
    {
        EdgeFacts edges = facts.Edges;
        string answer = facts.Answers.SmallHoles;
        return answer.Length == 0 && edges.AsksHoles
                ? Asked("small_holes", "", facts.Last.SmallHoles, edges.HolesInWords())
            : answer.Length > 0 ? Asked("small_holes", answer, "", "what becomes of cutouts under the trim cutter")
            : edges.SmallHoles > 0
                ? Asked(
                    "small_holes",
                    "second-cutter",
                    "",
                    Inv($"{edges.SmallHoles} cutouts, the narrowest {edges.Narrowest:0.##} mm, by a thinner end mill")
                )
            : "";
    }

    /// <summary>What may stay in inner corners, as answered or asked; empty where there is nothing to say.</summary>
    internal static string CornerLeft(DrawingFacts facts) =>
        facts.Edges.AsksCorners
            ? Asked("corner_left", facts.Answers.CornerLeft, facts.Last.CornerLeft, facts.Edges.CornersInWords())
        : facts.Answers.CornerLeft.Length > 0
            ? Asked("corner_left", facts.Answers.CornerLeft, "", "what the trim cutter may leave in a corner")
        : "";

    private static string Asked(string key, string answer, string last, string note)
    {
        string said = answer.Length > 0 || last.Length == 0 ? note : $"{note}; last answer here: {last}";
        string line = $"{key} = {(answer.Length > 0 ? Literal(key, answer) : $"\"{Unanswered.Mark}\"")}";
        return line.PadRight(31) + $" # {said}\n";
    }

    /// <summary>A bare number stays one, everything else is text.</summary>
    private static string Literal(string key, string answer) =>
        key is "thickness" or "slack_max" or "corner_left"
        && double.TryParse(answer, NumberStyles.Float, CultureInfo.InvariantCulture, out double number)
            ? Inv($"{number:0.####}")
            : $"\"{answer.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\"", "\\\"", StringComparison.Ordinal)}\"";

    private const string LocatorForm = """

        [[form]]
        layer = "FORM"
        direction = "?"                 # "down" for a bowl that sinks into the block, "up" for a dome
        height = "?"                    # how deep or how high, measured
        draft_deg = 3

        """;

    private static IEnumerable<(string Key, string Value)> ShopNames(ShopFiles files)
    {
        yield return ("plate", First(files, "plates"));
        yield return ("tools", First(files, "tools"));
        yield return ("bolt", FirstWhere(files, "fasteners", FastenerReader.ReadScrew, _ => true));
        yield return ("pin", FirstWhere(files, "fasteners", FastenerReader.ReadPin, _ => true));
        yield return ("control", First(files, "controls"));
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

    internal static string TrimTool(ShopFiles files) =>
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
