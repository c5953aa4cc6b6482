using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using Xunit;

namespace FixtureGen.House.Tests;

/// <summary>
/// A switch over kinds of ours names every kind: with a discard a new one would come out as an old one, without it the
/// compiler finds the place.
/// </summary>
[Trait("Speed", "Slow")]
public sealed class SwitchesTest
{
    [Fact]
    public void Switch_expressions_name_every_kind()
    {
        string[] found =
        [
            .. SourceHouse.Today.Trees.SelectMany(t =>
                t.GetRoot().DescendantNodes().OfType<SwitchExpressionSyntax>().SelectMany(s => Unnamed(s))
            ),
        ];
        Assert.True(found.Length == 0, string.Join('\n', found));
    }

    private static IEnumerable<string> Unnamed(SwitchExpressionSyntax s)
    {
        SemanticModel model = SourceHouse.Today.Model(s.SyntaxTree);
        if (
            model.GetTypeInfo(s.GoverningExpression).Type is not { TypeKind: TypeKind.Enum } kinds
            || !kinds.Locations.Any(l => l.IsInSource)
        )
        {
            yield break;
        }
        HashSet<string> named =
        [
            .. s
                .Arms.SelectMany(a => a.Pattern.DescendantNodesAndSelf().OfType<MemberAccessExpressionSyntax>())
                .Select(m => m.Name.Identifier.Text),
        ];
        string[] left =
        [
            .. kinds
                .GetMembers()
                .OfType<IFieldSymbol>()
                .Where(f => f.HasConstantValue && !named.Contains(f.Name))
                .Select(f => f.Name),
        ];
        if (left.Length > 0)
        {
            yield return $"{SourceHouse.Place(s.SyntaxTree.FilePath)}: a switch over {kinds.Name} does not name {string.Join(", ", left)}";
        }
    }
}
