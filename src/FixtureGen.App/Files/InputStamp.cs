using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using FixtureGen.Shop.Reading;

namespace FixtureGen.App.Files;

/// <summary>
/// What every file that a job's answer may depend on holds at one moment: the job, its drawing and all shop files of its library.
/// The shop files are those very texts, so that answers stay of one moment while somebody edits.
/// </summary>
internal sealed class InputStamp
{
    private readonly ImmutableSortedDictionary<string, string> _hashes;
    private readonly ImmutableSortedDictionary<string, string> _shop;

    private InputStamp(
        ImmutableSortedDictionary<string, string> hashes,
        ImmutableSortedDictionary<string, string> shop
    ) => (_hashes, _shop) = (hashes, shop);

    /// <summary>SHA-256 of all of it, lower-case hex.</summary>
    public string Hash =>
        Convert.ToHexStringLower(
            SHA256.HashData(Encoding.UTF8.GetBytes(string.Join('\n', _hashes.Select(h => $"{h.Key} {h.Value}"))))
        );

    /// <summary>Reads them all. A file that is missing or cannot be read counts as such, and differs from one that can.</summary>
    public static InputStamp Take(string jobPath, LibraryFolder library)
    {
        var hashes = ImmutableSortedDictionary.CreateBuilder<string, string>(StringComparer.Ordinal);
        var shop = ImmutableSortedDictionary.CreateBuilder<string, string>(StringComparer.Ordinal);
        IEnumerable<string> templates = Directory.Exists(library.Templates)
            ? Directory.EnumerateFiles(library.Templates, "*.toml", SearchOption.AllDirectories)
            : [];
        foreach (string path in templates)
        {
            string name = library.Relative(path);
            try
            {
                string text = SourceText.Read(path);
                shop[name] = text;
                hashes[name] = Hex(Encoding.UTF8.GetBytes(text));
            }
            catch (UnreadableFileException e)
            {
                hashes[name] = e.Message;
            }
        }
        foreach (string? path in (string?[])[jobPath, Drawing(jobPath)])
        {
            if (path is not null)
            {
                hashes[library.Relative(Path.GetFullPath(path))] = Content(path);
            }
        }
        return new InputStamp(hashes.ToImmutable(), shop.ToImmutable());
    }

    /// <summary>The shop files as they were then; one that could not be read then is read anew and says why.</summary>
    public ShopFiles Shop(LibraryFolder library)
    {
        ShopFiles live = library.Shop(null);
        return new ShopFiles(
            (kind, name) =>
                $"templates/{kind}/{name}.toml" is var path && _shop.TryGetValue(path, out string? text) ? (path, text)
                : _hashes.ContainsKey(path) ? live.Find(kind, name)
                : null,
            kind =>
                _hashes
                    .Keys.Where(k =>
                        k.StartsWith($"templates/{kind}/", StringComparison.Ordinal) && k.Count(c => c == '/') == 2
                    )
                    .Select(k => Path.GetFileNameWithoutExtension(k)!)
        ).Remembered();
    }

    /// <summary>The names of the files that differ between the two, each with what happened to it.</summary>
    public ImmutableArray<string> Changes(InputStamp later) =>
        [
            .. _hashes
                .Keys.Union(later._hashes.Keys, StringComparer.Ordinal)
                .Where(k => _hashes.GetValueOrDefault(k) != later._hashes.GetValueOrDefault(k))
                .Order(StringComparer.Ordinal)
                .Select(k =>
                    !later._hashes.ContainsKey(k) ? $"{k} is gone"
                    : !_hashes.ContainsKey(k) ? $"{k} is new"
                    : $"{k} changed"
                ),
        ];

    private static string? Drawing(string jobPath) =>
        Directory.Exists(Path.GetDirectoryName(Path.GetFullPath(jobPath))) ? DrawingFiles.Beside(jobPath) : null;

    private static string Content(string path)
    {
        try
        {
            return Hex(File.ReadAllBytes(path));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return e.GetType().Name;
        }
    }

    private static string Hex(byte[] bytes) => Convert.ToHexStringLower(SHA256.HashData(bytes));
}
