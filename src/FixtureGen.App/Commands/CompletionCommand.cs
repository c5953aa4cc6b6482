using System.CommandLine;
using System.Text.Json.Nodes;
using FixtureGen.App.Terminal;

namespace FixtureGen.App.Commands;

/// <summary><c>completion SHELL</c>: a script for the shell that knows every command and option, written from the command table.</summary>
internal static class CompletionCommand
{
    /// <summary>The command; <paramref name="root"/> is read when it runs, so that commands added later are known too.</summary>
    public static Command Build(Say say, RootCommand root)
    {
        Argument<string> shell = new("SHELL") { HelpName = "SHELL", Description = "bash, zsh or fish" };
        shell.AcceptOnlyFromAmong("bash", "zsh", "fish");
        Option<bool> json = CommandTree.Json();
        Command command = new("completion", "Print a script that completes commands and options.") { shell, json };
        command.SetAction(p => Run(say, root, p.GetValue(shell)!, p.GetValue(json)));
        return command;
    }

    private static int Run(Say say, RootCommand root, string shell, bool json)
    {
        CompletedCommand[] commands = [.. root.Subcommands.Select(CompletedCommand.Describe)];
        string script = shell switch
        {
            "bash" => CompletionScript.Bash(commands),
            "zsh" => CompletionScript.Zsh(commands),
            _ => CompletionScript.Fish(commands),
        };
        if (json)
        {
            JsonObject answer = new()
            {
                ["ok"] = true,
                ["shell"] = shell,
                ["script"] = script,
            };
            say.Json(AppJson.Text(answer));
        }
        else
        {
            say.Json(script);
        }
        return ExitCode.Made;
    }
}
