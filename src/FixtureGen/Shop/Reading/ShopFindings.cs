using System.Globalization;
using FixtureGen.Model;

namespace FixtureGen.Shop.Reading;

/// <summary>Every finding that shop files and jobs can raise: code, text and remedy in one place.</summary>
internal static class ShopFindings
{
    public static Finding Syntax(string file, int line, int column, string what) =>
        AtPlace(
            file,
            line,
            column,
            "toml-syntax",
            what.Replace("␤", "the end of the line", StringComparison.Ordinal) + ".",
            "Mend the line; text needs quotes, a number has a decimal point and no unit (or write \"6 mm\")."
        );

    public static Finding DuplicateKey(string file, int line, int column, string key, string firstLine) =>
        AtPlace(
            file,
            line,
            column,
            "toml-duplicate-key",
            $"'{key}' is given twice; the first is on line {firstLine}.",
            "Keep one of the two."
        );

    public static Finding UnknownKey(string file, TomlEntry entry, string path, string? nearest, string known) =>
        AtPlace(
            file,
            entry.Line,
            entry.Column,
            "toml-unknown-key",
            $"Unknown key '{path}'.",
            nearest is null ? $"Remove it; known here: {known}." : $"Did you mean '{nearest}'? Known here: {known}."
        );

    public static Finding MissingKey(string file, TomlTable table, string path, string wanted) =>
        AtPlace(
            file,
            table.Line,
            table.Column,
            "toml-missing-key",
            $"'{path}' is missing.",
            $"Add it to this table: {wanted}."
        );

    public static Finding Unanswered(string file, TomlEntry entry, string path, string answer) =>
        AtPlace(
            file,
            entry.Line,
            entry.Column,
            "key-unanswered",
            $"'{path}' is still to be answered: only the shop knows it.",
            answer
        );

    public static Finding NoRow(string file, string row) =>
        AtPlace(
            file,
            1,
            1,
            "toml-no-row",
            $"'{row}' is no table of its own in this file.",
            "Write each row as a table with its name in double brackets, or edit the file in an editor."
        );

    public static Finding EmptyFile(string file, string remedy) =>
        AtPlace(file, 1, 1, "toml-missing-key", "The file is empty.", remedy);

    public static Finding EmptyText(string file, TomlString value, string path) =>
        AtPlace(file, value.Line, value.Column, "toml-missing-key", $"'{path}' is empty.", "Write text in quotes.");

    public static Finding WrongType(string file, TomlValue value, string path, string wanted) =>
        AtPlace(
            file,
            value.Line,
            value.Column,
            "toml-wrong-type",
            $"'{path}' must be {wanted}, not {value.Kind}.",
            $"Write {wanted}."
        );

    public static Finding UnknownUnit(string file, TomlString value, string path, string units) =>
        AtPlace(
            file,
            value.Line,
            value.Column,
            "toml-unknown-unit",
            $"'{path}' is \"{value.Text}\": not a number with one of the units {units}.",
            $"Write a number, a blank and one of {units}, in quotes."
        );

    public static Finding NoUnit(string file, TomlNumber value, string path) =>
        AtPlace(
            file,
            value.Line,
            value.Column,
            "toml-no-unit",
            string.Create(
                CultureInfo.InvariantCulture,
                $"'{path}' is a bare {value.Value:0.#####} and the file states no units: mm and in differ by 25.4 times."
            ),
            "Write units = \"in\" or units = \"mm\" as the file's first line, or a unit with the number in quotes."
        );

    /// <param name="published">What is usual, with its source; empty where nothing is known.</param>
    public static Finding OutOfRange(
        string file,
        TomlValue value,
        string path,
        string given,
        string range,
        string published
    ) =>
        AtPlace(
            file,
            value.Line,
            value.Column,
            "toml-out-of-range",
            $"'{path}' is {given}; it must be {range}.",
            published.Length == 0 ? $"Give a value {range}." : $"Give a value {range}; usual is {published}."
        );

    /// <summary>Possible, but not what is published or common practice.</summary>
    public static Finding NotPractice(string file, TomlValue value, string path, string given, string published) =>
        OutsidePractice(
            file,
            value,
            $"'{path}' is {given}; usual is {published}.",
            "Check it; if it was measured, keep it and say so beside it in the file."
        );

    public static Finding KeyGone(string file, TomlEntry entry, string path, string why, string remedy) =>
        AtPlace(file, entry.Line, entry.Column, "toml-key-gone", $"'{path}' is no key any more: {why}.", remedy);

    /// <summary>What a file leaves open although a hold rests on it, and the numbers taken for it.</summary>
    public static Finding Assumed(string file, IEnumerable<string> assumed) =>
        new(
            "shop-range-assumed",
            Severity.Note,
            file,
            $"Not stated, so assumed: {string.Join(", ", assumed)}.",
            "Measure or look up these values and state them; until then the hold rests on the assumed ones."
        );

    public static Finding SheetUnstated(string material) =>
        new(
            "shop-sheet-unstated",
            Severity.Note,
            $"templates/materials/{material}.toml",
            $"'{material}' has no [sheet] table (yield, modulus, Poisson's ratio, shrinkage): locator pins, slots, tabs and nests count for nothing in the hold.",
            "Add [sheet] with yield, modulus_from, modulus_to, poisson, shrinkage_from and shrinkage_to of the shell's sheet."
        );

    public static Finding NotAChoice(string file, TomlString value, string path, string known, string? nearest) =>
        AtPlace(
            file,
            value.Line,
            value.Column,
            "toml-not-a-choice",
            $"'{path}' is \"{value.Text}\"; it must be one of {known}.",
            nearest is null ? $"Write one of {known}." : $"Did you mean \"{nearest}\"?"
        );

    public static Finding Contradiction(string file, TomlValue value, string message, string remedy) =>
        AtPlace(file, value.Line, value.Column, "shop-contradiction", message, remedy);

    public static Finding OutsidePractice(string file, TomlValue value, string message, string remedy) =>
        AtPlace(file, value.Line, value.Column, "shop-outside-practice", message, remedy) with
        {
            Severity = Severity.Warning,
        };

    public static Finding UnknownName(
        string file,
        TomlValue value,
        string kind,
        string name,
        string? nearest,
        IReadOnlyList<string> there
    ) =>
        AtPlace(
            file,
            value.Line,
            value.Column,
            "shop-name-unknown",
            $"There is no {kind}/{name}.toml.",
            (nearest is null ? "" : $"Did you mean \"{nearest}\"? ")
                + (there.Count == 0 ? $"The folder {kind}/ has no files." : $"There are: {string.Join(", ", there)}.")
        );

    private static Finding AtPlace(string file, int line, int column, string code, string message, string remedy) =>
        new(
            code,
            Severity.Error,
            string.Create(CultureInfo.InvariantCulture, $"{file}:{line}:{column}"),
            message,
            remedy
        )
        {
            Line = line,
        };
}
