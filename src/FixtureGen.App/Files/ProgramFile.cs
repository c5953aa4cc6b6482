using System.Text;
using FixtureGen.Verify;

namespace FixtureGen.App.Files;

/// <summary>
/// A program as a control gets it: byte by byte, one character each, so that what is not plain ASCII is seen and not decoded away.
/// Of a file longer than the judge reads only so much is taken as shows that.
/// </summary>
internal static class ProgramFile
{
    /// <summary>The text; throws IOException or UnauthorizedAccessException where the file cannot be read.</summary>
    public static string Read(string path)
    {
        using FileStream file = File.OpenRead(path);
        byte[] bytes = new byte[Math.Min(file.Length, Verifier.MostCharacters + 1)];
        int read = file.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false);
        return Encoding.Latin1.GetString(bytes, 0, read);
    }
}
