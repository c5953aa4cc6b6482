using System.Security.Cryptography;

namespace FixtureGen.App.Files;

/// <summary>
/// The files that blocks were cut with, each under the SHA-256 of its bytes in <c>.fixturegen/store</c> of the library: whatever
/// becomes of out/, what was cut can be brought back. Nothing in it is ever changed.
/// </summary>
internal sealed class BlockStore(LibraryFolder library)
{
    /// <summary>Keeps these bytes; on the disk when it returns. Their hash, hexadecimal in small letters.</summary>
    /// <exception cref="IOException">They cannot be kept.</exception>
    /// <exception cref="UnauthorizedAccessException">They cannot be kept.</exception>
    public string Keep(ReadOnlySpan<byte> bytes)
    {
        string hash = Convert.ToHexStringLower(SHA256.HashData(bytes));
        string path = Place(hash);
        if (Find(hash) is null)
        {
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            OutputFolder.ReplaceFile(path, bytes);
        }
        return hash;
    }

    /// <summary>The bytes of that hash; null where they were never kept, or are no longer what they were.</summary>
    public byte[]? Find(string hash)
    {
        try
        {
            byte[] bytes = File.ReadAllBytes(Place(hash));
            return Convert.ToHexStringLower(SHA256.HashData(bytes)) == hash ? bytes : null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    private string Place(string hash) => Path.Combine(library.Root, ".fixturegen", "store", hash[..2], hash);
}
