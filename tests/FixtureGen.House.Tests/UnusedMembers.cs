using System.Collections.Immutable;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using Microsoft.CodeAnalysis.Operations;

namespace FixtureGen.House.Tests;

/// <summary>
/// Members and types that src/ declares and never names outside their own declaration. What the language, a framework or a
/// file format names is no part of it: overrides, interfaces' members, members of what is serialised, the entry, destructors.
/// </summary>
internal static class UnusedMembers
{
    /// <summary>Each as Namespace.Type.Member, sorted.</summary>
    public static IEnumerable<string> Find(SourceHouse house)
    {
        HashSet<ISymbol> declared = new(SymbolEqualityComparer.Default);
        HashSet<ISymbol> used = new(SymbolEqualityComparer.Default);
        HashSet<ISymbol> serialised = new(SymbolEqualityComparer.Default);
        foreach (SyntaxTree tree in house.Trees)
        {
            SemanticModel model = house.Model(tree);
            SyntaxNode root = tree.GetRoot();
            declared.UnionWith(
                root.DescendantNodes().SelectMany(n => Declared(model, n)).Where(s => !IsNamedElsewhere(s))
            );
            foreach (SyntaxNode node in root.DescendantNodes())
            {
                foreach (ISymbol symbol in Used(model, node))
                {
                    if (!Encloses(model, symbol, node))
                    {
                        used.Add(symbol);
                    }
                }
            }
            foreach (
                TypeOfExpressionSyntax type in root.DescendantNodes()
                    .OfType<AttributeSyntax>()
                    .Where(a => a.Name.ToString() == "JsonSerializable")
                    .SelectMany(a => a.DescendantNodes().OfType<TypeOfExpressionSyntax>())
            )
            {
                AddSerialised(model.GetTypeInfo(type.Type).Type, serialised);
            }
        }
        return declared
            .Where(s => !used.Contains(s) && !(s is IPropertySymbol && serialised.Contains(s.ContainingType)))
            .Select(Name)
            .Distinct(StringComparer.Ordinal)
            .Order(StringComparer.Ordinal);
    }

    private static string Name(ISymbol symbol) => symbol.ToDisplayString(SymbolDisplayFormat.CSharpErrorMessageFormat);

    private static IEnumerable<ISymbol> Declared(SemanticModel model, SyntaxNode node)
    {
        if (node is BaseFieldDeclarationSyntax fields)
        {
            return fields.Declaration.Variables.Select(v => model.GetDeclaredSymbol(v)).OfType<ISymbol>();
        }
        if (node is ParameterSyntax { Parent.Parent: RecordDeclarationSyntax record } parameter)
        {
            return model
                .GetDeclaredSymbol(record)!
                .GetMembers(parameter.Identifier.ValueText)
                .OfType<IPropertySymbol>();
        }
        return
            node is MemberDeclarationSyntax and not BaseNamespaceDeclarationSyntax and not GlobalStatementSyntax
            && model.GetDeclaredSymbol(node) is { } symbol
            ? [symbol]
            : [];
    }

    private static IEnumerable<ISymbol> Used(SemanticModel model, SyntaxNode node)
    {
        IEnumerable<ISymbol?> symbols = node switch
        {
            RecursivePatternSyntax { PositionalPatternClause: not null } pattern =>
            [
                (model.GetOperation(pattern) as IRecursivePatternOperation)?.DeconstructSymbol,
            ],
            ForEachVariableStatementSyntax parts =>
            [
                model.GetForEachStatementInfo(parts).GetEnumeratorMethod,
                model.GetDeconstructionInfo(parts).Method,
            ],
            CommonForEachStatementSyntax each => [model.GetForEachStatementInfo(each).GetEnumeratorMethod],
            SimpleNameSyntax
            or ElementAccessExpressionSyntax
            or BinaryExpressionSyntax
            or PrefixUnaryExpressionSyntax
            or PostfixUnaryExpressionSyntax
            or AssignmentExpressionSyntax => Bound(model.GetSymbolInfo(node)).Cast<ISymbol?>(),
            _ => [],
        };
        if (
            node is ExpressionSyntax expression
            && model.GetConversion(expression) is { IsUserDefined: true } conversion
        )
        {
            symbols = symbols.Append(conversion.MethodSymbol);
        }
        if (node is AssignmentExpressionSyntax deconstructed)
        {
            symbols = symbols.Append(model.GetDeconstructionInfo(deconstructed).Method);
        }
        foreach (ISymbol? symbol in symbols)
        {
            if (symbol is null)
            {
                continue;
            }
            ISymbol at = symbol is IMethodSymbol { ReducedFrom: { } reduced } ? reduced : symbol;
            yield return at.OriginalDefinition;
            foreach (ISymbol read in TakenApart(at))
            {
                yield return read;
            }
            // An extension is used without the name of its class.
            if (at.ContainingType is { IsStatic: true } holder)
            {
                yield return holder.OriginalDefinition;
            }
            if (at is IMethodSymbol { AssociatedSymbol: { } property })
            {
                yield return property.OriginalDefinition;
            }
            if (at is IMethodSymbol { PartialDefinitionPart: { } part })
            {
                yield return part;
            }
        }
    }

    /// <summary>What a record's own Deconstruct reads.</summary>
    private static IEnumerable<ISymbol> TakenApart(ISymbol symbol) =>
        symbol is IMethodSymbol { Name: "Deconstruct", ContainingType.IsRecord: true } taken
            ? taken.Parameters.SelectMany(p => taken.ContainingType.OriginalDefinition.GetMembers(p.Name))
            : [];

    private static ImmutableArray<ISymbol> Bound(SymbolInfo info) =>
        info.Symbol is { } symbol ? [symbol] : info.CandidateSymbols;

    private static bool Encloses(SemanticModel model, ISymbol symbol, SyntaxNode node) =>
        symbol.DeclaringSyntaxReferences.Any(r => r.SyntaxTree == node.SyntaxTree && r.Span.Contains(node.Span))
        && symbol is not INamedTypeSymbol { TypeKind: TypeKind.Enum };

    /// <summary>The language, a framework or a package's reader names it.</summary>
    private static bool IsNamedElsewhere(ISymbol symbol) =>
        symbol.IsOverride
        || symbol is INamedTypeSymbol { Name: "Program" }
        || symbol
            is IMethodSymbol
            {
                MethodKind: MethodKind.Constructor
                    or MethodKind.StaticConstructor
                    or MethodKind.Destructor
                    or MethodKind.ExplicitInterfaceImplementation
            }
        || symbol is IMethodSymbol { MethodKind: MethodKind.Ordinary, Name: "Main" }
        || IsKernelSurface(symbol)
        || symbol.ContainingType is { } type
            && (
                type.GetAttributes()
                    .Any(a => a.AttributeClass?.Name is "InlineArrayAttribute" or "InterpolatedStringHandlerAttribute")
                || type.AllInterfaces.SelectMany(i => i.GetMembers())
                    .Any(m =>
                        SymbolEqualityComparer.Default.Equals(type.FindImplementationForInterfaceMember(m), symbol)
                    )
            );

    /// <summary>Public in the kernel's package, whose surface PublicSurface.txt pins for its users.</summary>
    private static bool IsKernelSurface(ISymbol symbol)
    {
        for (ISymbol? at = symbol; at is not null and not INamespaceSymbol; at = at.ContainingSymbol)
        {
            if (at.DeclaredAccessibility != Accessibility.Public)
            {
                return false;
            }
        }
        string place = SourceHouse.Place(symbol.Locations[0].SourceTree!.FilePath);
        return SourceHouse.Project(place) is "FixtureGen.Geometry" or "FixtureGen.Plane";
    }

    private static void AddSerialised(ITypeSymbol? type, HashSet<ISymbol> all)
    {
        switch (type)
        {
            case IArrayTypeSymbol array:
                AddSerialised(array.ElementType, all);
                break;
            case INamedTypeSymbol named:
                foreach (ITypeSymbol argument in named.TypeArguments)
                {
                    AddSerialised(argument, all);
                }
                if (named.Locations.Any(l => l.IsInSource) && all.Add(named))
                {
                    foreach (IPropertySymbol p in named.GetMembers().OfType<IPropertySymbol>())
                    {
                        AddSerialised(p.Type, all);
                    }
                    AddSerialised(named.BaseType, all);
                }
                break;
        }
    }
}
