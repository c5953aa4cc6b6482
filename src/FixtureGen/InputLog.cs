using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using FixtureGen.Output;
using FixtureGen.Shop;

namespace FixtureGen;

/// <summary>Remembers what a run really read, with the SHA-256 of each file's bytes, so that staleness is judged by content.</summary>
internal sealed class InputLog
{
    private readonly SortedDictionary<string, string> seen = new(StringComparer.Ordinal);

    public InputLog(Request request)
    {
        this.Add(request.JobFile, Encoding.UTF8.GetBytes(request.JobText));
        this.Add(request.DrawingFile, request.Drawing);
        this.Shop = new ShopFiles(
            (kind, name) =>
            {
                (string Path, string Text)? found = request.Shop.Find(kind, name);
                if (found is { } file)
                {
                    this.Add(file.Path, Encoding.UTF8.GetBytes(file.Text));
                }
                return found;
            },
            request.Shop.List
        );
    }

    /// <summary>The request's shop files, watched.</summary>
    public ShopFiles Shop { get; }

    public ImmutableArray<InputFacts> Inputs => [.. this.seen.Select(s => new InputFacts(s.Key, s.Value))];

    private void Add(string path, byte[] bytes) => this.seen[path] = Convert.ToHexStringLower(SHA256.HashData(bytes));
}
