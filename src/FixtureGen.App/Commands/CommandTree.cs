using System.CommandLine;
using FixtureGen.App.Terminal;

namespace FixtureGen.App.Commands;

/// <summary>All commands, each with --json: exactly one JSON object on standard output, whatever the exit code.</summary>
internal static class CommandTree
{
    /// <summary>The whole command line, writing to <paramref name="say"/>.</summary>
    public static RootCommand Root(Say say)
    {
        RootCommand root = new("From a part outline to judged programs that cut its vacuum trim fixture.");
        root.Subcommands.Add(MakeCommand.Build(say));
        root.Subcommands.Add(CheckCommand.Build(say));
        root.Subcommands.Add(VerifyCommand.Build(say));
        root.Subcommands.Add(RegenerateCommand.Build(say));
        root.Subcommands.Add(RegisterCommand.Build(say));
        root.Subcommands.Add(ServeCommand.Build(say));
        root.Subcommands.Add(LayoutCommand.Build(say));
        root.Subcommands.Add(NewCommand.Build(say));
        root.Subcommands.Add(DemoCommand.Build(say));
        root.Subcommands.Add(CompletionCommand.Build(say, root));
        return root;
    }

    /// <summary>Known apart from the commands: a run that ends before its command also answers in JSON.</summary>
    public const string JsonName = "--json";

    /// <summary>A new option for one command.</summary>
    public static Option<bool> Json() => new(JsonName) { Description = "print one JSON object on standard output" };

    /// <summary>A positional path; a mistyped option in its place is refused instead of being taken for a file.</summary>
    public static Argument<string> PathArgument(string name, string description)
    {
        Argument<string> argument = new(name) { Description = description };
        argument.Validators.Add(r =>
        {
            string? value = r.Tokens.Count > 0 ? r.Tokens[0].Value : null;
            if (value is not null && value.StartsWith('-'))
            {
                r.AddError($"'{value}' is not an option of this command");
            }
        });
        return argument;
    }
}
