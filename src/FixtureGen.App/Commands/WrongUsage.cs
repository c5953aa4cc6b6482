using System.CommandLine;
using FixtureGen.Shop.Reading;

namespace FixtureGen.App.Commands;

/// <summary>What is wrong with a command line, one line each, without what only follows from it.</summary>
internal static class WrongUsage
{
    /// <summary>One line each, without repeats; at least one where the command line has errors.</summary>
    public static IReadOnlyList<string> Explain(ParseResult parsed)
    {
        ArgumentNullException.ThrowIfNull(parsed);
        if (parsed.CommandResult.Command is RootCommand root)
        {
            return [parsed.UnmatchedTokens is [string word, ..] ? NoCommand(root, word) : "name a command"];
        }
        string[] all = [.. parsed.Errors.Select(e => OneLine(e.Message)).Distinct(StringComparer.Ordinal)];
        // The word after an option that is not known is taken for an argument too many.
        string[] own = [.. all.Where(e => !e.StartsWith("Unrecognized", StringComparison.Ordinal))];
        return own.Length > 0 ? own : all;
    }

    private static string NoCommand(RootCommand root, string word)
    {
        string? near = Nearest.Find(word, root.Subcommands.Select(c => c.Name));
        return $"there is no command '{word}'{(near is null ? "" : $"; did you mean '{near}'?")}";
    }

    private static string OneLine(string message) =>
        string.Join(' ', message.Split((char[])['\r', '\n', '\t'], StringSplitOptions.RemoveEmptyEntries));
}
