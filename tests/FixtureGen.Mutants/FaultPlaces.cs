using System.Globalization;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace FixtureGen.Mutants;

/// <summary>A place in a tree where a fault can stand: the node, its kind and what takes its place.</summary>
internal sealed record FaultPlace(SyntaxNode Node, string Kind, SyntaxNode? Instead);

/// <summary>
/// Finds where faults can stand: comparisons at and past their edge, sums, products, conditions, figures, least and greatest,
/// findings that are not given and calls that are not made. Constants, attributes, patterns and expressions that declare
/// something are left alone, since a fault that is chosen at run time cannot stand there.
/// </summary>
internal static class FaultPlaces
{
    private static readonly Dictionary<SyntaxKind, (string Kind, SyntaxKind[] Instead)> Binaries = new()
    {
        [SyntaxKind.LessThanExpression] = (
            "comparison",
            [SyntaxKind.LessThanOrEqualExpression, SyntaxKind.GreaterThanOrEqualExpression]
        ),
        [SyntaxKind.LessThanOrEqualExpression] = (
            "comparison",
            [SyntaxKind.LessThanExpression, SyntaxKind.GreaterThanExpression]
        ),
        [SyntaxKind.GreaterThanExpression] = (
            "comparison",
            [SyntaxKind.GreaterThanOrEqualExpression, SyntaxKind.LessThanOrEqualExpression]
        ),
        [SyntaxKind.GreaterThanOrEqualExpression] = (
            "comparison",
            [SyntaxKind.GreaterThanExpression, SyntaxKind.LessThanExpression]
        ),
        [SyntaxKind.EqualsExpression] = ("equality", [SyntaxKind.NotEqualsExpression]),
        [SyntaxKind.NotEqualsExpression] = ("equality", [SyntaxKind.EqualsExpression]),
        [SyntaxKind.LogicalAndExpression] = ("logic", [SyntaxKind.LogicalOrExpression]),
        [SyntaxKind.LogicalOrExpression] = ("logic", [SyntaxKind.LogicalAndExpression]),
        [SyntaxKind.AddExpression] = ("sum", [SyntaxKind.SubtractExpression]),
        [SyntaxKind.SubtractExpression] = ("sum", [SyntaxKind.AddExpression]),
        [SyntaxKind.MultiplyExpression] = ("product", [SyntaxKind.DivideExpression]),
        [SyntaxKind.DivideExpression] = ("product", [SyntaxKind.MultiplyExpression]),
    };

    public static IEnumerable<FaultPlace> Find(SyntaxTree tree, SemanticModel model)
    {
        foreach (SyntaxNode node in tree.GetRoot().DescendantNodes())
        {
            if (!IsRuntimeCode(node))
                continue;
            foreach (FaultPlace place in At(node, model))
                if (!Declares(place.Node))
                    yield return place;
        }
    }

    private static IEnumerable<FaultPlace> At(SyntaxNode node, SemanticModel model) =>
        node switch
        {
            BinaryExpressionSyntax binary => OfBinary(binary, model),
            PrefixUnaryExpressionSyntax { RawKind: (int)SyntaxKind.LogicalNotExpression } not =>
            [
                new(not, "logic", SyntaxFactory.ParenthesizedExpression(not.Operand.WithoutTrivia())),
            ],
            LiteralExpressionSyntax literal => OfLiteral(literal, model),
            InvocationExpressionSyntax { Expression: MemberAccessExpressionSyntax member } call => OfCall(call, member),
            YieldStatementSyntax { RawKind: (int)SyntaxKind.YieldReturnStatement } given =>
            [
                new(given, "not given", null),
            ],
            ExpressionStatementSyntax { Expression: InvocationExpressionSyntax } call =>
            [
                new(call, "not called", null),
            ],
            _ => [],
        };

    private static IEnumerable<FaultPlace> OfBinary(BinaryExpressionSyntax binary, SemanticModel model)
    {
        if (!Binaries.TryGetValue(binary.Kind(), out (string Kind, SyntaxKind[] Instead) found))
            yield break;
        if (
            found.Kind is "sum" or "product"
            && model.GetTypeInfo(binary).Type?.SpecialType
                is not (SpecialType.System_Double or SpecialType.System_Int32)
        )
            yield break;
        // null or not: what follows would not compile, or would always throw
        if (found.Kind == "equality" && binary.Right.IsKind(SyntaxKind.NullLiteralExpression))
            yield break;
        foreach (SyntaxKind kind in found.Instead)
            yield return new(
                binary,
                found.Kind,
                SyntaxFactory
                    .BinaryExpression(kind, binary.Left.WithoutTrivia(), binary.Right.WithoutTrivia())
                    .NormalizeWhitespace()
            );
    }

    private static IEnumerable<FaultPlace> OfLiteral(LiteralExpressionSyntax literal, SemanticModel model)
    {
        if (
            model.GetTypeInfo(literal).ConvertedType?.SpecialType != SpecialType.System_Double
            || literal.Token.Value is not IConvertible value
        )
            yield break;
        double is_ = value.ToDouble(CultureInfo.InvariantCulture);
        double becomes = is_ == 0 ? 1 : is_ * 1.5;
        yield return new(
            literal,
            "figure",
            SyntaxFactory.ParseExpression(becomes.ToString("R", CultureInfo.InvariantCulture) + "d")
        );
    }

    private static IEnumerable<FaultPlace> OfCall(InvocationExpressionSyntax call, MemberAccessExpressionSyntax member)
    {
        string? other = member.Name.Identifier.Text switch
        {
            "Min" when member.Expression.ToString() is "Math" => "Max",
            "Max" when member.Expression.ToString() is "Math" => "Min",
            "Any" when call.ArgumentList.Arguments.Count == 1 => "All",
            "All" => "Any",
            "Sin" when member.Expression.ToString() is "Math" => "Cos",
            "Cos" when member.Expression.ToString() is "Math" => "Sin",
            _ => null,
        };
        if (other is not null)
            yield return new(
                call,
                "call",
                call.WithoutTrivia()
                    .WithExpression(member.WithoutTrivia().WithName(SyntaxFactory.IdentifierName(other)))
            );
        if (member.Name.Identifier.Text is "Abs" && member.Expression.ToString() is "Math")
            yield return new(
                call,
                "call",
                SyntaxFactory.ParenthesizedExpression(call.ArgumentList.Arguments[0].Expression.WithoutTrivia())
            );
    }

    private static bool IsRuntimeCode(SyntaxNode node)
    {
        for (SyntaxNode? at = node; at is not null; at = at.Parent)
            switch (at)
            {
                case AttributeSyntax or PatternSyntax or CaseSwitchLabelSyntax or EnumMemberDeclarationSyntax:
                case InterpolationSyntax:
                case ParameterSyntax:
                case FieldDeclarationSyntax field when field.Modifiers.Any(SyntaxKind.ConstKeyword):
                case LocalDeclarationStatementSyntax { IsConst: true }:
                    return false;
            }
        return true;
    }

    private static bool Declares(SyntaxNode node) =>
        node.DescendantNodesAndSelf()
            .Any(n =>
                n
                    is SingleVariableDesignationSyntax
                        or DeclarationExpressionSyntax
                        or LambdaExpressionSyntax { Body: BlockSyntax }
            );
}
