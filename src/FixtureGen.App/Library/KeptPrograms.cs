using System.Collections.Immutable;
using System.Text;
using System.Text.RegularExpressions;
using FixtureGen.App.Files;
using FixtureGen.App.Records;
using FixtureGen.Model;
using FixtureGen.Output;
using FixtureGen.Output.Reports;

namespace FixtureGen.App.Library;

/// <summary>
/// The programs that a revision has had so far: of a block on the shelf those that it was cut with, by the register; of any
/// other what the last run made, by its report, so that a file that somebody altered since is no other revision.
/// </summary>
internal sealed partial class KeptPrograms
{
    private readonly ImmutableDictionary<string, string> _hashes;
    private readonly Func<string, byte[]?> _bytes;

    private KeptPrograms(ImmutableDictionary<string, string> hashes, Func<string, byte[]?> bytes)
    {
        _hashes = hashes;
        _bytes = bytes;
    }

    /// <summary>Of a revision; folder is where its job's outputs lie.</summary>
    public static KeptPrograms For(Register register, LibraryFolder library, Fixture f, Previous? before, string folder)
    {
        BlockStore store = new(library);
        ImmutableDictionary<string, string> cut = register
            .FilesOf(f)
            .ToImmutableDictionary(m => m.Name, m => m.Sha256, StringComparer.Ordinal);
        if (f.OnShelf && !cut.IsEmpty)
        {
            return new(cut, name => cut.TryGetValue(name, out string? hash) ? store.Find(hash) : null);
        }
        string lie = f.OnShelf ? FrozenBlock.Folder(library.Out, f.Job, f.Revision) : folder;
        return new(
            before?.Report.Files is { } files
                ? files
                    .Where(m => m.Sha256 is not null)
                    .ToImmutableDictionary(m => m.File, m => m.Sha256!, StringComparer.Ordinal)
                : ImmutableDictionary<string, string>.Empty,
            name => File.Exists(Path.Combine(lie, name)) ? File.ReadAllBytes(Path.Combine(lie, name)) : null
        );
    }

    /// <summary>True where the report tells of these very programs; also where nothing is kept to compare it with.</summary>
    public bool Are(Report report) =>
        _hashes.IsEmpty
        || report.Files is null
        || report
            .Files.Where(m => m.File.EndsWith(".nc", StringComparison.Ordinal))
            .All(m => m.Sha256 is null || (_hashes.TryGetValue(m.File, out string? hash) && hash == m.Sha256));

    /// <summary>True where one of these is another to the byte, or new.</summary>
    public bool Differ(ImmutableArray<ProgramText> programs) =>
        programs.Any(p =>
        {
            OutputFile made = OutputFiles.Encode(p);
            return _hashes.TryGetValue(p.FileName, out string? hash)
                ? hash != Delivery.Hash(made)
                : _bytes(p.FileName) is not { } was || !was.AsSpan().SequenceEqual(made.Bytes.AsSpan());
        });

    /// <summary>True where these cut the very block: every program but the trim has the same words, whatever its comments say.</summary>
    public bool IsSameBlock(ImmutableArray<ProgramText> programs)
    {
        ProgramText[] block = [.. programs.Where(p => p.Setup != Setup.Trim)];
        return block.Length > 0
            && block.Length
                == _hashes.Keys.Count(n =>
                    n.EndsWith(".top.nc", StringComparison.Ordinal)
                    || n.EndsWith(".underside.nc", StringComparison.Ordinal)
                )
            && block.All(p =>
                _bytes(p.FileName) is { } was
                && Words(Encoding.Latin1.GetString(was))
                    == Words(Encoding.Latin1.GetString(OutputFiles.Encode(p).Bytes.AsSpan()))
            );
    }

    /// <summary>What moves the machine: without comments in round brackets or after a semicolon, and without empty lines.</summary>
    private static string Words(string program) => Empty().Replace(Comment().Replace(program, ""), "\n");

    [GeneratedRegex(@"\([^)\n]*\)|;[^\n]*")]
    private static partial Regex Comment();

    [GeneratedRegex(@"[ \t\r]*\n\s*")]
    private static partial Regex Empty();
}
