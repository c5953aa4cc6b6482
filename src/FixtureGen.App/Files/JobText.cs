using System.Text;

namespace FixtureGen.App.Files;

/// <summary>
/// A job's text with all that its file has beside it, so that an edit keeps it: the encoding with its mark, the ends of the
/// lines, the file's permissions and, where the name is a link, the file that it leads to.
/// </summary>
internal sealed record JobText
{
    private const string Crlf = "\r\n";

    private JobText(string file, string text, Encoding encoding) => (File, Text, Encoding) = (file, text, encoding);

    /// <summary>The file itself: where the job's name is a link, what it leads to.</summary>
    public string File { get; }

    /// <summary>The text without the encoding's mark, its line ends as they are.</summary>
    public string Text { get; }

    /// <summary>With the mark that the file begins with, or none.</summary>
    private Encoding Encoding { get; }

    /// <summary>Reads a job's file.</summary>
    /// <exception cref="IOException">It cannot be read, or its bytes are no text of its encoding and would not come out the same.</exception>
    /// <exception cref="UnauthorizedAccessException">It cannot be read.</exception>
    public static JobText Read(string path)
    {
        string file = System.IO.File.ResolveLinkTarget(path, returnFinalTarget: true)?.FullName ?? path;
        byte[] bytes = System.IO.File.ReadAllBytes(file);
        using StreamReader reader = new(new MemoryStream(bytes), new UTF8Encoding(false), true);
        string text = reader.ReadToEnd();
        JobText read = new(file, text, reader.CurrentEncoding);
        return read.Encoded(text).AsSpan().SequenceEqual(bytes)
            ? read
            : throw new IOException(
                "some of its bytes are no UTF-8 text and would be lost: save it as UTF-8 in an editor"
            );
    }

    /// <summary>Puts an edited text in place by one rename; the old file stays whole until then.</summary>
    /// <exception cref="IOException">The folder or the disk refuses.</exception>
    /// <exception cref="UnauthorizedAccessException">The folder refuses.</exception>
    public void Replace(string edited)
    {
        string next = File + ".next";
        OutputFolder.WriteAside(next, Encoded(AsTheFile(edited)));
        try
        {
            if (!OperatingSystem.IsWindows())
            {
                System.IO.File.SetUnixFileMode(next, System.IO.File.GetUnixFileMode(File));
            }
            System.IO.File.Move(next, File, overwrite: true);
        }
        catch
        {
            OutputFolder.Drop(next);
            throw;
        }
    }

    /// <summary>Lines that an edit added end as those of the file do, where these all end alike.</summary>
    private string AsTheFile(string edited)
    {
        bool allCrlf =
            Text.Contains(Crlf, StringComparison.Ordinal)
            && !Text.Replace(Crlf, "", StringComparison.Ordinal).Contains('\n', StringComparison.Ordinal);
        return allCrlf
            ? edited.Replace(Crlf, "\n", StringComparison.Ordinal).Replace("\n", Crlf, StringComparison.Ordinal)
            : edited;
    }

    private byte[] Encoded(string text) => [.. Encoding.GetPreamble(), .. Encoding.GetBytes(text)];
}
