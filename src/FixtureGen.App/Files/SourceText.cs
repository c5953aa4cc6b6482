using System.Globalization;
using FixtureGen.Model;

namespace FixtureGen.App.Files;

/// <summary>A file of the shop that cannot be read, or is more than any such file: nobody's fault but the file's.</summary>
internal sealed class UnreadableFileException(string path, string why) : IOException(why)
{
    /// <summary>The same as a finding.</summary>
    public Finding Finding { get; } =
        new(
            "file-unreadable",
            Severity.Error,
            path,
            why,
            "free the file, its folder's permissions or its link, or mend it"
        );
}

/// <summary>
/// Text that a shop writes, within bounds that keep every answer under ten seconds and a gigabyte: a longer or deeper file is no
/// job and no shop file.
/// </summary>
internal static class SourceText
{
    private const int MostBytes = 1_000_000;
    private const int MostDepth = 32;

    /// <summary>The file's text.</summary>
    /// <exception cref="UnreadableFileException">It cannot be read, is longer than a megabyte, or nests brackets deeper than any reader of it can follow.</exception>
    public static string Read(string path)
    {
        string text;
        try
        {
            using FileStream file = File.OpenRead(path);
            if (file.Length > MostBytes)
            {
                throw new UnreadableFileException(
                    path,
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"it has {file.Length} bytes; at most {MostBytes} are read"
                    )
                );
            }
            using StreamReader reader = new(file);
            text = reader.ReadToEnd();
        }
        catch (Exception e) when (e is IOException and not UnreadableFileException or UnauthorizedAccessException)
        {
            throw new UnreadableFileException(path, e.Message);
        }
        return Bounded(path, text);
    }

    /// <summary>A text that is not on disk yet, held to the same bounds.</summary>
    /// <exception cref="UnreadableFileException">It nests brackets deeper than any reader of it can follow.</exception>
    public static string Bounded(string path, string text) =>
        Depth(text) > MostDepth
            ? throw new UnreadableFileException(
                path,
                string.Create(CultureInfo.InvariantCulture, $"its lists and tables nest deeper than {MostDepth}")
            )
            : text;

    /// <summary>How deep brackets nest, outside basic and literal strings of one line and outside comments.</summary>
    private static int Depth(string text)
    {
        int depth = 0;
        int deepest = 0;
        char quote = '\0';
        for (int i = 0; i < text.Length; i++)
        {
            char c = text[i];
            if (c == '\n')
            {
                quote = '\0';
            }
            else if (quote != '\0')
            {
                i += c == '\\' && quote == '"' ? 1 : 0;
                quote = c == quote ? '\0' : quote;
            }
            else if (c is '"' or '\'')
            {
                quote = c;
            }
            else if (c == '#')
            {
                i = text.IndexOf('\n', i) is >= 0 and int end ? end - 1 : text.Length;
            }
            else if (c is '[' or '{')
            {
                deepest = Math.Max(deepest, ++depth);
            }
            else if (c is ']' or '}')
            {
                depth = Math.Max(0, depth - 1);
            }
        }
        return deepest;
    }
}
