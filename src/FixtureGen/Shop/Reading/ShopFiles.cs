using System.Collections.Concurrent;
using FixtureGen.Model;

namespace FixtureGen.Shop.Reading;

/// <summary>
/// Where shop files come from: no I/O here. Find gives the path (as findings and staleness name it) and the text of one
/// file by kind ("plates", "blanks", "tools", "materials", "magnets", "gaskets", "fasteners", "controls") and name without
/// ".toml", or null. List gives the names of a kind.
/// </summary>
public sealed record ShopFiles(
    Func<string, string, (string Path, string Text)?> Find,
    Func<string, IEnumerable<string>> List
)
{
    private ConcurrentDictionary<(Type Kind, string Path, string Text), object>? _records;

    /// <summary>
    /// The same files for a run over many jobs, by any number of threads: each is fetched once, and what was read from a text
    /// serves every job that names it.
    /// </summary>
    public ShopFiles Remembered()
    {
        ConcurrentDictionary<(string Kind, string Name), (string Path, string Text)?> found = new();
        ConcurrentDictionary<string, string[]> listed = new(StringComparer.Ordinal);
        return new ShopFiles(
            (kind, name) => found.GetOrAdd((kind, name), key => Find(key.Kind, key.Name)),
            kind => listed.GetOrAdd(kind, key => [.. this.List(key)])
        )
        {
            _records = new(),
        };
    }

    /// <summary>The record in a text, read by <paramref name="read"/> unless it was read before. Records and findings are never changed.</summary>
    internal Stage<T> Record<T>(string path, string text, Func<Stage<T>> read)
        where T : class =>
        _records is { } known ? (Stage<T>)known.GetOrAdd((typeof(T), path, text), _ => read()) : read();
}
