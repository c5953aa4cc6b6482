using System.Text.RegularExpressions;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using Xunit;

namespace FixtureGen.House.Tests;

/// <summary>DEVELOPERS.md names files and types that are there: a page that speaks of what was moved or deleted misleads.</summary>
public sealed partial class DocumentNamesTest
{
    private static readonly string Text = File.ReadAllText(Path.Combine(SourceHouse.Root, "DEVELOPERS.md"));

    private static readonly string[] Files =
    [
        .. new[] { "src", "tests", "templates", "outlines", ".ci", ".github" }
            .Select(d => Path.Combine(SourceHouse.Root, d))
            .Where(Directory.Exists)
            .SelectMany(d => Directory.EnumerateFiles(d, "*", SearchOption.AllDirectories))
            .Concat(Directory.EnumerateFiles(SourceHouse.Root))
            .Select(f => "/" + Path.GetRelativePath(SourceHouse.Root, f).Replace('\\', '/'))
            .Where(f =>
                !f.Contains("/obj/", StringComparison.Ordinal) && !f.Contains("/bin/", StringComparison.Ordinal)
            ),
        .. Directory.EnumerateFiles(SourceHouse.Root).Select(f => "/" + Path.GetFileName(f)),
    ];

    [Fact]
    public void Files_that_are_named_are_there()
    {
        string[] named = [.. Ticked().Where(t => FileName().IsMatch(t)).Distinct()];
        Assert.True(named.Length > 15, string.Join(" ", named));
        string[] missing = [.. named.Where(n => !Files.Any(f => Glob(n).IsMatch(f)))];
        Assert.Empty(missing);
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void Types_that_are_named_are_there()
    {
        HashSet<string> declared =
        [
            .. Files
                .Where(f => f.EndsWith(".cs", StringComparison.Ordinal))
                .SelectMany(f =>
                    CSharpSyntaxTree
                        .ParseText(File.ReadAllText(SourceHouse.Root + f))
                        .GetRoot()
                        .DescendantNodes()
                        .Select(n =>
                            n switch
                            {
                                BaseTypeDeclarationSyntax t => t.Identifier.Text,
                                MethodDeclarationSyntax m => m.Identifier.Text,
                                PropertyDeclarationSyntax p => p.Identifier.Text,
                                ParameterSyntax p => p.Identifier.Text,
                                EnumMemberDeclarationSyntax e => e.Identifier.Text,
                                _ => "",
                            }
                        )
                ),
            .. HousePlan.Rooms.SelectMany(r => r.Split('/')),
        ];
        string[] named = [.. Ticked().SelectMany(t => TypeName().Matches(t).Select(m => m.Value)).Distinct()];
        Assert.True(named.Length > 30, string.Join(" ", named));
        string[] missing = [.. named.Where(n => !declared.Contains(n) && !Foreign.Contains(n))];
        Assert.Empty(missing);
    }

    // Names of the platform and of libraries.
    private static readonly HashSet<string> Foreign = ["JsonNode", "GetCompletions"];

    /// <summary>What stands between single backticks, lines of code blocks left out.</summary>
    private static IEnumerable<string> Ticked() =>
        Inline().Matches(Fenced().Replace(Text, "")).Select(m => m.Groups[1].Value);

    /// <summary>A name as it may end a path, with * for a part of a name.</summary>
    private static Regex Glob(string name) => new("/" + Regex.Escape(name).Replace("\\*", "[^/]*") + "$");

    [GeneratedRegex("```.*?```", RegexOptions.Singleline)]
    private static partial Regex Fenced();

    [GeneratedRegex("`([^`\n]+)`")]
    private static partial Regex Inline();

    [GeneratedRegex(@"^[\w*./-]+\.(cs|toml|md|txt|props|csproj|js|yml)$")]
    private static partial Regex FileName();

    // Alone or as the head of Name.Member; what looks like an environment variable, an option or a file is none.
    [GeneratedRegex(@"(?<![\w./\-\\])[A-Z][a-z]+(?:[A-Z][a-z0-9]+)+(?=$|[.\s(,])(?!\.(cs|sln|toml|md|dll)\b)")]
    private static partial Regex TypeName();
}
