using FixtureGen.Model;
using FixtureGen.Shop.Reading;

namespace FixtureGen.Shop.Jobs;

/// <summary>
/// A job's TOML to a checked job with its shop files resolved. Everything but the [shop] names has a default. Sources are
/// the shop files really used; the caller adds the job and the drawing.
/// </summary>
public static class JobReader
{
    /// <summary>The job, or every mistake in it and in the shop files it names. Job name is the file's without ".toml".</summary>
    public static Stage<Job> Read(string tomlText, string fileName, ShopFiles files) =>
        Read(tomlText, fileName, files, ShopNames.First);

    /// <summary>The same with <paramref name="chosen"/> for the names that the job leaves open.</summary>
    public static Stage<Job> Read(string tomlText, string fileName, ShopFiles files, ShopNames chosen)
    {
        Stage<TomlTable> tree = TomlText.Parse(tomlText, fileName);
        if (tree.Value is null)
        {
            return Stage.Failed<Job>(tree.Findings);
        }
        if (tree.Value.Entries.Count == 0)
        {
            return Stage.Failed<Job>(
                ShopFindings.EmptyFile(
                    fileName,
                    "Delete it, then 'fixturegen new' with its drawing writes a whole one."
                )
            );
        }
        Finding[] unanswered = [.. Unanswered.Find(tree.Value, fileName)];
        if (unanswered.Length > 0)
        {
            return Stage.Failed<Job>(unanswered);
        }
        ReadLog log = new(fileName);
        Job? job = Read(tree.Value, fileName, files, chosen, log);
        return job is null || log.Failed ? Stage.Failed<Job>(log.Findings) : Stage.Answer(job, log.Findings);
    }

    /// <summary>Every key that a job may have outside its lists of tables, in the reader's order, as the reader itself asks for it.</summary>
    internal static IReadOnlyList<AskedKey> Ask(TomlTable tree, string fileName, ShopFiles files)
    {
        ReadLog log = new(fileName) { Asked = [] };
        foreach (string table in Tables.Where(t => tree.Find(t) is null))
        {
            tree.Entries.Add(new TomlEntry(table, new TomlTable([], 1, 1), 1, 1));
        }
        Read(tree, fileName, files, ShopNames.First, log);
        return log.Asked;
    }

    private static readonly string[] Tables =
    [
        "shop",
        "shell",
        "locator",
        "skirt",
        "block",
        "magnets",
        "trim",
        "vacuum",
        "hold",
        "limits",
        "rules",
        "drawing",
        "placement",
    ];

    private static Job? Read(TomlTable tree, string fileName, ShopFiles files, ShopNames chosen, ReadLog log)
    {
        TableReader top = new(tree, "", log);
        log.Unit = top.ChoiceOrNull("units", ShopFile.UnitWords);
        log.UnitInDoubt = log.Failed;
        ShopShelf shelf = new(files, log);
        JobHold hold = JobHold.Read(top);
        JobShop? shop = JobShop.Read(top, shelf, chosen, hold.By);
        Job? job = JobBody.Read(top, shop, hold, NameOf(fileName), shelf);
        top.Close();
        log.SayAssumed();
        return job;
    }

    /// <summary>The keys of a job's text that are still "?", in its order.</summary>
    public static IEnumerable<string> OpenQuestions(string tomlText, string fileName) =>
        TomlText.Parse(tomlText, fileName).Value is { } tree ? Unanswered.Keys(tree) : [];

    private static string NameOf(string fileName)
    {
        int slash = fileName.LastIndexOfAny(['/', '\\']);
        string name = fileName[(slash + 1)..];
        return name.EndsWith(".toml", StringComparison.OrdinalIgnoreCase) ? name[..^5] : name;
    }
}
