using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using FixtureGen.Model;
using FixtureGen.Shop.Reading;

namespace FixtureGen;

/// <summary>Remembers what a run really read, with the SHA-256 of each file's bytes, so that staleness is judged by content.</summary>
internal sealed class InputLog
{
    private static readonly (OpenKeys Key, string Kind)[] Chosen =
    [
        (OpenKeys.Blank, "blanks"),
        (OpenKeys.Gasket, "gaskets"),
        (OpenKeys.Magnet, "magnets"),
    ];

    private readonly string[] _own;
    private readonly SortedDictionary<string, string> _seen = new(StringComparer.Ordinal);

    public InputLog(Request request)
    {
        _own = [request.JobFile, request.DrawingFile];
        Add(request.JobFile, Encoding.UTF8.GetBytes(request.JobText));
        Add(request.DrawingFile, request.Drawing);
        Shop = request.Shop with
        {
            Find = (kind, name) =>
            {
                (string Path, string Text)? found = request.Shop.Find(kind, name);
                if (found is { } file)
                {
                    Add(file.Path, Encoding.UTF8.GetBytes(file.Text));
                }
                return found;
            },
        };
    }

    /// <summary>The request's shop files, watched.</summary>
    public ShopFiles Shop { get; }

    /// <summary>
    /// Job, drawing and of the shop files those the job was made from: other blanks are looked at only to say which would do. Where the
    /// job leaves open what the shop has several of, the folder counts too: by the names in it.
    /// </summary>
    public ImmutableArray<InputFacts> UsedBy(Job job) =>
        [
            .. _seen
                .Where(s => _own.Contains(s.Key) || job.Sources.Contains(s.Key))
                .Select(s => new InputFacts(s.Key, s.Value))
                .Concat(
                    Chosen
                        .Where(c => job.Open.HasFlag(c.Key))
                        .Select(c => new InputFacts($"templates/{c.Kind}/", InputFacts.OfNames(Shop.List(c.Kind))))
                )
                .OrderBy(f => f.File, StringComparer.Ordinal),
        ];

    private void Add(string path, byte[] bytes) => _seen[path] = Convert.ToHexStringLower(SHA256.HashData(bytes));
}

/// <summary>
/// A file that the result was made from, with the SHA-256 of its bytes, lower-case hex: what staleness is judged by. A folder of shop
/// files, whose name ends in a slash, has that of the names in it.
/// </summary>
public sealed record InputFacts(string File, string Sha256)
{
    /// <summary>The SHA-256, lower-case hex, of a folder's names without their .toml, in whatever order they come.</summary>
    public static string OfNames(IEnumerable<string> names) =>
        Convert.ToHexStringLower(
            SHA256.HashData(Encoding.UTF8.GetBytes(string.Join('\n', names.Order(StringComparer.Ordinal))))
        );
}
