using System.Globalization;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace FixtureGen.Mutants;

/// <summary>
/// The judge with many faults in one assembly, of which the environment chooses at most one (FIXTUREGEN_MUTANT); so it is
/// compiled once and tested once a fault. Which places were reached goes to the file that FIXTUREGEN_REACHED names.
/// </summary>
internal static class MutatedJudge
{
    private const string Chooser = """
        namespace FixtureGen.Verify;
        internal static class ChosenFault
        {
            private static readonly int Chosen = int.Parse(System.Environment.GetEnvironmentVariable("FIXTUREGEN_MUTANT") ?? "-1", System.Globalization.CultureInfo.InvariantCulture);
            private static readonly string? ReachedFile = System.Environment.GetEnvironmentVariable("FIXTUREGEN_REACHED");
            private static readonly bool[] Reached = new bool[100000];
            static ChosenFault()
            {
                if (ReachedFile is not null)
                    System.AppDomain.CurrentDomain.ProcessExit += (_, _) => System.IO.File.WriteAllLines(ReachedFile, System.Linq.Enumerable.Select(System.Linq.Enumerable.Where(System.Linq.Enumerable.Range(0, Reached.Length), i => Reached[i]), i => i.ToString(System.Globalization.CultureInfo.InvariantCulture)));
            }
            internal static bool Is(int id)
            {
                if (ReachedFile is not null)
                    Reached[id] = true;
                return id == Chosen;
            }
        }
        """;

    /// <summary>Every fault that the judge's source has a place for, in the order of files and lines.</summary>
    public static List<(Mutant Mutant, FaultPlace Place)> FindFaults(CSharpCompilation judge, string folder)
    {
        List<(Mutant, FaultPlace)> found = [];
        foreach (
            SyntaxTree tree in judge.SyntaxTrees.Where(t => !t.FilePath.Contains("/obj/", StringComparison.Ordinal))
        )
        foreach (FaultPlace place in FaultPlaces.Find(tree, judge.GetSemanticModel(tree)))
            found.Add(
                (
                    new Mutant(
                        found.Count,
                        Path.GetRelativePath(folder, tree.FilePath),
                        place.Node.GetLocation().GetLineSpan().StartLinePosition.Line + 1,
                        place.Kind,
                        Short(place.Node),
                        place.Instead is null ? "nothing" : Short(place.Instead)
                    ),
                    place
                )
            );
        return found;
    }

    /// <summary>
    /// Writes the assembly with the chosen faults; those that do not compile are taken out until the rest does, and the ones that
    /// stayed are returned.
    /// </summary>
    public static List<Mutant> Write(
        CSharpCompilation judge,
        IReadOnlyList<(Mutant Mutant, FaultPlace Place)> chosen,
        string path
    )
    {
        List<(Mutant Mutant, FaultPlace Place)> left = [.. chosen];
        for (; ; )
        {
            CSharpCompilation faulty = judge;
            foreach (var group in left.GroupBy(c => c.Place.Node.SyntaxTree))
            {
                SyntaxNode root = new Rewriter(group.ToLookup(c => c.Place.Node)).Visit(group.Key.GetRoot())!;
                // parsed again: what the rewriter put together must read as source
                faulty = faulty.ReplaceSyntaxTree(
                    group.Key,
                    CSharpSyntaxTree.ParseText(
                        root.ToFullString(),
                        (CSharpParseOptions)group.Key.Options,
                        group.Key.FilePath
                    )
                );
            }
            faulty = faulty.AddSyntaxTrees(
                CSharpSyntaxTree.ParseText(Chooser, (CSharpParseOptions)judge.SyntaxTrees[0].Options)
            );
            using FileStream file = File.Create(path);
            var result = faulty.Emit(file);
            if (result.Success)
                return [.. left.Select(l => l.Mutant)];
            HashSet<int> bad =
            [
                .. result.Diagnostics.Where(d => d.Severity == DiagnosticSeverity.Error).SelectMany(FaultsAt),
            ];
            if (bad.Count == 0)
                throw new InvalidOperationException(
                    string.Join('\n', result.Diagnostics.Where(d => d.Severity == DiagnosticSeverity.Error).Take(20))
                );
            left.RemoveAll(l => bad.Contains(l.Mutant.Id));
        }
    }

    // the ids in the statement or member round an error
    private static IEnumerable<int> FaultsAt(Diagnostic error)
    {
        SyntaxNode? node = error.Location.SourceTree?.GetRoot().FindNode(error.Location.SourceSpan);
        for (; node is not null; node = node.Parent)
        {
            List<int> ids =
            [
                .. node.DescendantNodesAndSelf()
                    .OfType<InvocationExpressionSyntax>()
                    .Where(i => i.Expression.ToString().EndsWith("ChosenFault.Is", StringComparison.Ordinal))
                    .Select(i => int.Parse(i.ArgumentList.Arguments[0].ToString(), CultureInfo.InvariantCulture)),
            ];
            if (ids.Count > 0)
                return ids;
        }
        return [];
    }

    private static string Id(Mutant mutant) => mutant.Id.ToString(CultureInfo.InvariantCulture);

    private static string Short(SyntaxNode node)
    {
        string text = string.Join(' ', node.ToString().Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        return text.Length <= 100 ? text : text[..97] + "...";
    }

    private sealed class Rewriter(ILookup<SyntaxNode, (Mutant Mutant, FaultPlace Place)> faults) : CSharpSyntaxRewriter
    {
        public override SyntaxNode? Visit(SyntaxNode? node)
        {
            SyntaxNode? visited = base.Visit(node);
            if (node is null || visited is null || !faults.Contains(node))
                return visited;
            foreach ((Mutant mutant, FaultPlace place) in faults[node])
                visited = visited switch
                {
                    StatementSyntax statement => SyntaxFactory
                        .ParseStatement(
                            $"if (!global::FixtureGen.Verify.ChosenFault.Is({Id(mutant)})) {{ {statement.WithoutTrivia().ToFullString()} }}"
                        )
                        .WithTriviaFrom(node),
                    _ => SyntaxFactory
                        .ParseExpression(
                            $"(global::FixtureGen.Verify.ChosenFault.Is({Id(mutant)}) ? ({place.Instead!.ToFullString()}) : ({visited.ToFullString().TrimEnd()}\n))"
                        )
                        .WithTrailingTrivia(node.GetTrailingTrivia()),
                };
            return visited;
        }
    }
}
