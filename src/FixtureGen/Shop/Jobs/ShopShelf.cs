using FixtureGen.Model;
using FixtureGen.Shop.Files;
using FixtureGen.Shop.Reading;

namespace FixtureGen.Shop.Jobs;

/// <summary>Fetches the shop files that a job names, logs what is wrong with them, and remembers which were used.</summary>
internal sealed class ShopShelf(ShopFiles files, ReadLog log)
{
    private readonly SortedSet<string> _used = new(StringComparer.Ordinal);

    public IReadOnlyCollection<string> Used => _used;

    /// <summary>The record that a key of a table names, or null with findings.</summary>
    public T? Named<T>(TableReader t, string key, string kind, Func<string, string, string, Stage<T>> read)
        where T : class
    {
        string name = t.Text(key);
        return name.Length == 0 ? null : Fetch(log.File, t.Table.Find(key)!.Value, kind, name, read);
    }

    /// <summary>The material that a blank's own file names, or null with findings at their place in that file.</summary>
    public Material? MaterialOf(Blank blank)
    {
        (string path, string text) = files.Find("blanks", blank.Name)!.Value;
        TomlValue at = TomlText.Parse(text, path).Value!.Find("material")!.Value;
        return Fetch(path, at, "materials", blank.Material, MaterialReader.Read);
    }

    private T? Fetch<T>(
        string file,
        TomlValue at,
        string kind,
        string name,
        Func<string, string, string, Stage<T>> read
    )
        where T : class
    {
        if (files.Find(kind, name) is not { } found)
        {
            string[] there = [.. files.List(kind).Order(StringComparer.Ordinal)];
            log.Findings.Add(ShopFindings.UnknownName(file, at, kind, name, Nearest.Find(name, there), there));
            return null;
        }
        _used.Add(found.Path);
        Stage<T> stage = files.Record(found.Path, found.Text, () => read(found.Text, found.Path, name));
        log.Findings.AddRange(stage.Findings);
        return stage.Value;
    }

    /// <summary>Every other readable file of a kind, by name: only for saying which one would do, so a bad one is passed over here.</summary>
    public IEnumerable<T> AllBut<T>(string kind, string name, Func<string, string, string, Stage<T>> read)
        where T : class
    {
        foreach (string other in files.List(kind).Order(StringComparer.Ordinal).Where(n => n != name))
        {
            if (
                files.Find(kind, other) is { } found
                && files.Record(found.Path, found.Text, () => read(found.Text, found.Path, other)).Value is { } item
            )
            {
                yield return item;
            }
        }
    }
}
