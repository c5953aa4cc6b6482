using Microsoft.CodeAnalysis.CSharp.Syntax;
using Xunit;

namespace FixtureGen.House.Tests;

/// <summary>How things are named and given in src/: methods by what they do, the members of large records by name.</summary>
public sealed class NamesTest
{
    // A call that reads Type.Of(x) says nothing of what is done.
    private static readonly HashSet<string> SayNothing = ["Of", "Go", "At", "One", "Told"];

    /// <summary>More than this many members are not given by their order.</summary>
    private const int MostPositional = 8;

    [Fact]
    public void Methods_are_named_by_what_they_do()
    {
        string[] found =
        [
            .. SourceHouse
                .Today.Trees.SelectMany(t => t.GetRoot().DescendantNodes().OfType<MethodDeclarationSyntax>())
                .Where(m => SayNothing.Contains(m.Identifier.Text))
                .Select(m => $"{SourceHouse.Place(m.SyntaxTree.FilePath)}: {m.Identifier.Text}"),
        ];
        Assert.Empty(found);
    }

    [Fact]
    public void Records_of_many_members_name_them()
    {
        string[] found =
        [
            .. SourceHouse
                .Today.Trees.SelectMany(t => t.GetRoot().DescendantNodes().OfType<RecordDeclarationSyntax>())
                .Where(r => r.ParameterList?.Parameters.Count > MostPositional)
                .Select(r => $"{SourceHouse.Place(r.SyntaxTree.FilePath)}: {r.Identifier.Text}"),
        ];
        Assert.Empty(found);
    }
}
