using System.CommandLine;
using System.Reflection;
using FixtureGen.Shop;

namespace FixtureGen.App.Commands;

/// <summary><c>demo [-o DIR]</c>: the main job on the built-in example, which travels inside the program.</summary>
public static class DemoCommand
{
    private const string Example = "pruner-sheath";

    public static Command Build(Say say)
    {
        Option<string> folder = new("-o", "--output")
        {
            HelpName = "DIR",
            Description = "where the files go",
            DefaultValueFactory = _ => Path.Combine("out", "demo"),
        };
        Option<bool> json = CommandTree.Json();
        Command command = new("demo", "Make the built-in example: every file of one fixture.") { folder, json };
        command.SetAction(p => Run(say, p.GetValue(folder)!, p.GetValue(json)));
        return command;
    }

    private static int Run(Say say, string folder, bool json)
    {
        using Steps steps = say.Steps();
        Request request = new(
            Example,
            $"outlines/{Example}.toml",
            Text($"outlines/{Example}.toml")!,
            $"outlines/{Example}.dxf",
            Bytes($"outlines/{Example}.dxf")!,
            new ShopFiles(Find, List),
            new Registered(1000, "F1000", 1, false),
            ProductVersion.Text,
            steps.Begin
        );
        return MakeCommand.Finish(say, steps, Pipeline.Make(request), folder, json);
    }

    private static (string Path, string Text)? Find(string kind, string name)
    {
        string path = $"templates/{kind}/{name}.toml";
        return Text(path) is { } text ? (path, text) : null;
    }

    private static IEnumerable<string> List(string kind)
    {
        string prefix = $"demo/templates/{kind}/";
        return Assembly
            .GetExecutingAssembly()
            .GetManifestResourceNames()
            .Select(n => n.Replace('\\', '/'))
            .Where(n => n.StartsWith(prefix, StringComparison.Ordinal))
            .Select(n => Path.GetFileNameWithoutExtension(n)!)
            .Order(StringComparer.Ordinal);
    }

    private static string? Text(string path) =>
        Bytes(path) is { } bytes ? System.Text.Encoding.UTF8.GetString(bytes) : null;

    private static byte[]? Bytes(string path)
    {
        using Stream? stream = Assembly.GetExecutingAssembly().GetManifestResourceStream("demo/" + path);
        if (stream is null)
        {
            return null;
        }
        using MemoryStream copy = new();
        stream.CopyTo(copy);
        return copy.ToArray();
    }
}
