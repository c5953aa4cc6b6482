using System.Collections.Immutable;
using System.CommandLine;
using System.CommandLine.Completions;

namespace FixtureGen.App.Commands;

/// <summary>A command as a shell completes it; Values are what its argument may be, none where it is a file or there is none.</summary>
internal sealed record CompletedCommand(
    string Name,
    string Says,
    ImmutableArray<CompletedOption> Options,
    ImmutableArray<string> Values,
    bool TakesFiles
)
{
    /// <summary>From the command table; an argument that takes none of a fixed list of words is a file.</summary>
    public static CompletedCommand Describe(Command command)
    {
        ImmutableArray<string> values = [.. command.Arguments.SelectMany(Labels)];
        return new(
            command.Name,
            command.Description ?? "",
            [.. command.Options.Select(CompletedOption.Describe)],
            values,
            command.Arguments.Count > 0 && values.IsEmpty
        );
    }

    internal static IEnumerable<string> Labels(Symbol symbol) =>
        symbol.GetCompletions(CompletionContext.Empty).Select(c => c.Label);
}

/// <summary>An option with all its names; Values are what it takes, none where that is a file or a number.</summary>
internal sealed record CompletedOption(
    ImmutableArray<string> Names,
    string Says,
    bool TakesValue,
    ImmutableArray<string> Values,
    bool TakesFile
)
{
    /// <summary>From the command table; an option of text without a list of words is a file, of a number neither.</summary>
    public static CompletedOption Describe(Option option)
    {
        bool takes = option.Arity.MaximumNumberOfValues > 0 && option.ValueType != typeof(bool);
        ImmutableArray<string> values = takes ? [.. CompletedCommand.Labels(option)] : [];
        return new(
            [.. option.Aliases.Prepend(option.Name).Distinct(StringComparer.Ordinal)],
            option.Description ?? "",
            takes,
            values,
            takes && values.IsEmpty && option.ValueType == typeof(string)
        );
    }
}
