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

    /// <summary>As <see cref="Named"/>; where the job leaves the key open the chosen one, or the first of the kind that reads; null with a finding where the shop has none.</summary>
    public T? NamedOrOpen<T>(
        TableReader t,
        string key,
        string kind,
        Func<string, string, string, Stage<T>> read,
        string? chosen,
        bool overrule
    )
        where T : class
    {
        if (t.Has(key) && Named(t, key, kind, read) is var stated && (chosen is null || !overrule))
        {
            return stated;
        }
        string[] names = chosen is null ? [.. files.List(kind).Order(StringComparer.Ordinal)] : [chosen];
        foreach (string name in names)
        {
            if (files.Find(kind, name) is { } found && Recorded(found, name, read) is { Ok: true, Value: { } item })
            {
                _used.Add(found.Path);
                return item;
            }
        }
        t.Contradict(
            key,
            $"The job leaves '{key}' open, and templates/{kind}/ has none to choose from.",
            $"Put one into templates/{kind}/; 'fixturegen new OUTLINE --shop' lays the built-in ones."
        );
        return null;
    }

    private Stage<T> Recorded<T>(
        (string Path, string Text) found,
        string name,
        Func<string, string, string, Stage<T>> read
    )
        where T : class => files.Record(found.Path, found.Text, () => read(found.Text, found.Path, name));

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
        Stage<T> stage = Recorded(found, name, read);
        log.Findings.AddRange(stage.Findings);
        return stage.Value;
    }

    /// <summary>Every other readable file of a kind, by name: for saying which one would do, so a bad one is passed over here.</summary>
    /// <param name="choosing">The job is solved with them: then they count as used.</param>
    public IEnumerable<T> AllBut<T>(
        string kind,
        string name,
        Func<string, string, string, Stage<T>> read,
        bool choosing
    )
        where T : class
    {
        foreach (string other in files.List(kind).Order(StringComparer.Ordinal).Where(n => n != name))
        {
            if (files.Find(kind, other) is not { } found)
            {
                continue;
            }
            if (choosing)
            {
                _used.Add(found.Path);
            }
            if (Recorded(found, other, read).Value is { } item)
            {
                yield return item;
            }
        }
    }
}
