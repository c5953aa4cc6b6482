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
        TableReader top = new(tree.Value, "", log);
        log.Unit = top.Choice("units", UnitWords);
        log.UnitInDoubt = log.Failed;
        top.TextOrNull("description");
        T value = body(top);
        top.Close();
        log.SayAssumed();
        return log.Failed ? Stage.Failed<T>(log.Findings) : Stage.Answer(value, log.Findings);
    }
}
