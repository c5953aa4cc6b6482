using System.Reflection;
using System.Text;
using FixtureGen.Shop.Reading;

namespace FixtureGen.App.Files;

/// <summary>The example and the invented shop's files that travel inside the program.</summary>
internal static class BuiltIn
{
    private const string Prefix = "demo/";

    /// <summary>The shop files, read as if they stood in a library.</summary>
    public static ShopFiles Shop { get; } = new(Find, List);

    /// <summary>A file by its path in the library; null where there is none.</summary>
    public static byte[]? Bytes(string path)
    {
        using Stream? stream = Assembly.GetExecutingAssembly().GetManifestResourceStream(Prefix + path);
        if (stream is null)
        {
            return null;
        }
        using MemoryStream copy = new();
        stream.CopyTo(copy);
        return copy.ToArray();
    }

    /// <summary>The same as UTF-8 text; null where there is none.</summary>
    public static string? Text(string path) => Bytes(path) is { } bytes ? Encoding.UTF8.GetString(bytes) : null;

    /// <summary>Lays <c>templates/</c> into a folder that has none, whole or not at all; IOException as the disk gives it.</summary>
    public static void LayShop(string folder)
    {
        string next = Path.Combine(folder, "templates.next");
        foreach (string name in Names("templates/"))
        {
            string path = Path.Combine(next, Path.Combine(name.Split('/')[1..]));
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            File.WriteAllBytes(path, Bytes(name)!);
        }
        Directory.Move(next, Path.Combine(folder, "templates"));
    }

    private static (string Path, string Text)? Find(string kind, string name)
    {
        string path = $"templates/{kind}/{name}.toml";
        return Text(path) is { } text ? (path, text) : null;
    }

    private static IEnumerable<string> List(string kind) =>
        Names($"templates/{kind}/").Select(n => Path.GetFileNameWithoutExtension(n)!).Order(StringComparer.Ordinal);

    private static IEnumerable<string> Names(string folder) =>
        Assembly
            .GetExecutingAssembly()
            .GetManifestResourceNames()
            .Where(n => n.StartsWith(Prefix + folder, StringComparison.Ordinal))
            .Select(n => n[Prefix.Length..]);
}
