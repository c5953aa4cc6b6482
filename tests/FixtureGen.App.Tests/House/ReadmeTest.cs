using System.Text.RegularExpressions;
using FixtureGen.App.Tests.Support;
using Xunit;

namespace FixtureGen.App.Tests.House;

public sealed partial class ReadmeTest
{
    private static readonly string Readme = File.ReadAllText(Path.Combine(Cli.Root, "README.md"));

    [Fact]
    public void Every_finding_code_stands_in_the_table()
    {
        string[] codes =
        [
            .. Directory
                .EnumerateFiles(Path.Combine(Cli.Root, "src"), "*.cs", SearchOption.AllDirectories)
                .Where(f =>
                    !f.Contains(
                        $"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}",
                        StringComparison.Ordinal
                    )
                )
                .SelectMany(f => Code().Matches(File.ReadAllText(f)))
                .Select(m => m.Groups[1].Value + m.Groups[2].Value)
                .Distinct(StringComparer.Ordinal)
                .Order(StringComparer.Ordinal),
        ];
        Assert.True(codes.Length > 240, $"{codes.Length} codes");
        Assert.All(codes, c => Assert.Contains($"`{c}`", Readme, StringComparison.Ordinal));
    }

    [Fact]
    public void Every_command_stands_in_the_table_and_none_else()
    {
        string help = Cli.Run(Cli.Root, "--help").Output;
        string[] shown =
        [
            .. HelpRow()
                .Matches(help[help.IndexOf("Commands:", StringComparison.Ordinal)..])
                .Select(m => m.Groups[1].Value)
                .Distinct(),
        ];
        string[] told = [.. TableRow().Matches(Readme).Select(m => m.Groups[1].Value).Distinct()];
        Assert.Equal(shown.Order(StringComparer.Ordinal), told.Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Every_picture_is_there()
    {
        string[] pictures = [.. Picture().Matches(Readme).Select(m => m.Groups[1].Value)];
        Assert.NotEmpty(pictures);
        Assert.All(pictures, p => Assert.True(File.Exists(Path.Combine(Cli.Root, p)), p));
    }

    // in a finding before its severity (an arrow before it makes it a severity's own word), in a judge's log call, or in a
    // findings file's own short form
    [GeneratedRegex(
        "(?:\\.(?:Error|Warn|Odd)\\(\\s*|\\b(?:At|Error)\\(\\s*(?=\"[a-z]+-))\"([a-z][a-z0-9-]*)\",|(?<!=> )\"([a-z][a-z0-9-]*)\",\\s*(?:Severity\\.|severity,)"
    )]
    private static partial Regex Code();

    [GeneratedRegex(@"^  ([a-z]+) ", RegexOptions.Multiline)]
    private static partial Regex HelpRow();

    [GeneratedRegex(@"^\| `([a-z]+) ", RegexOptions.Multiline)]
    private static partial Regex TableRow();

    [GeneratedRegex(@"!\[[^\]]*\]\(([^)]+)\)")]
    private static partial Regex Picture();
}
