using System.CommandLine;
using FixtureGen.App.Files;
using FixtureGen.App.Terminal;
using FixtureGen.Output;

namespace FixtureGen.App.Commands;

/// <summary><c>demo [-o DIR]</c>: the main job on the built-in example, which travels inside the program.</summary>
internal static class DemoCommand
{
    private const string Example = "pruner-sheath";

    /// <summary>The command; exit 0 made, 1 where the folder cannot be written.</summary>
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
        Request request = new()
        {
            JobName = Example,
            JobFile = $"outlines/{Example}.toml",
            JobText = BuiltIn.Text($"outlines/{Example}.toml")!,
            DrawingFile = $"outlines/{Example}.dxf",
            Drawing = BuiltIn.Bytes($"outlines/{Example}.dxf")!,
            Shop = BuiltIn.Shop,
            Registered = new Registered(1000, "F1000", 1, false),
            Version = ProductVersion.Text,
            Progress = steps.Begin,
        };
        return MakeCommand.Finish(say, steps, Delivery.Make(request), folder, json);
    }
}
