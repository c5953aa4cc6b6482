using FixtureGen.Model;

namespace FixtureGen.Shop.Reading;

/// <summary>Reads one shop file from its text; what all kinds share.</summary>
internal static class ShopFile
{
    public static readonly (string, LengthUnit)[] UnitWords = [("in", LengthUnit.Inch), ("mm", LengthUnit.Millimetre)];

    /// <summary>The file's record, or findings; the first thing every file says is <c>units</c>.</summary>
    public static Stage<T> Read<T>(string text, string file, Func<TableReader, T> body)
        where T : class
    {
        Stage<TomlTable> tree = TomlText.Parse(text, file);
        if (tree.Value is null)
        {
            return Stage.Failed<T>(tree.Findings);
        }
        if (tree.Value.Entries.Count == 0)
        {
            return Stage.Failed<T>(
                ShopFindings.EmptyFile(file, "Bring it back, or begin with another file of its folder.")
            );
        }
        ReadLog log = new(file);
        T value = Body(tree.Value, log, body);
        return log.Failed ? Stage.Failed<T>(log.Findings) : Stage.Answer(value, log.Findings);
    }

    /// <summary>Every key that the reader of such a file asks for, rows and tables that are left out too, in its order; none where the text is no TOML.</summary>
    public static IReadOnlyList<AskedKey> Ask<T>(string text, string file, Func<TableReader, T> body)
        where T : class
    {
        ReadLog log = new(file) { Asked = [], AskWhole = true };
        if (TomlText.Parse(text, file).Value is { } tree)
        {
            Body(tree, log, body);
        }
        return log.Asked;
    }

    private static T Body<T>(TomlTable tree, ReadLog log, Func<TableReader, T> body)
    {
        TableReader top = new(tree, "", log);
        log.Unit = top.Choice("units", UnitWords);
        log.UnitInDoubt = log.Failed;
        top.TextOrNull("description");
        T value = body(top);
        top.Close();
        log.SayAssumed();
        return value;
    }
}
