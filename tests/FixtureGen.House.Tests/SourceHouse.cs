using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace FixtureGen.House.Tests;

/// <summary>A name used in one file that another file of src/ declares; both paths below src/, with '/'.</summary>
internal sealed record Use(string From, string To, string Name);

/// <summary>
/// All of src/ as one compilation, so that every name leads to the file that declares its type. A room is a folder with source
/// files in it.
/// </summary>
internal sealed class SourceHouse
{
    private static readonly Lazy<SourceHouse> Read = new(() => new SourceHouse());

    // What the SDK imports where ImplicitUsings is on.
    private const string Imported =
        "global using System; global using System.Collections.Generic; global using System.IO; global using System.Linq; global using System.Net.Http; global using System.Threading; global using System.Threading.Tasks;";

    private readonly CSharpCompilation _compilation;

    private SourceHouse()
    {
        CSharpParseOptions options = new(LanguageVersion.Preview);
        Trees =
        [
            .. Directory
                .EnumerateFiles(Src, "*.cs", SearchOption.AllDirectories)
                .Select(f => f.Replace('\\', '/'))
                .Where(f =>
                    !f.Contains("/obj/", StringComparison.Ordinal) && !f.Contains("/bin/", StringComparison.Ordinal)
                )
                .Order(StringComparer.Ordinal)
                .Select(f => CSharpSyntaxTree.ParseText(File.ReadAllText(f), options, f)),
        ];
        IEnumerable<MetadataReference> references = ((string)AppContext.GetData("TRUSTED_PLATFORM_ASSEMBLIES")!)
            .Split(Path.PathSeparator)
            .Where(p => !Path.GetFileName(p).StartsWith("FixtureGen", StringComparison.Ordinal))
            .Select(p => MetadataReference.CreateFromFile(p));
        _compilation = CSharpCompilation.Create(
            "house",
            [.. Trees, CSharpSyntaxTree.ParseText(Imported, options)],
            references,
            new CSharpCompilationOptions(OutputKind.DynamicallyLinkedLibrary, allowUnsafe: true)
        );
        Uses = [.. Trees.SelectMany(UsesIn).Distinct()];
    }

    public static SourceHouse Today => Read.Value;

    /// <summary>The folder of the clone.</summary>
    public static string Root { get; } = FindRoot();

    public static string Src { get; } = Path.Combine(Root, "src").Replace('\\', '/');

    public IReadOnlyList<SyntaxTree> Trees { get; }

    public IReadOnlyList<Use> Uses { get; }

    public SemanticModel Model(SyntaxTree tree) => _compilation.GetSemanticModel(tree);

    /// <summary>A file's path below src/.</summary>
    public static string Place(string file) => Path.GetRelativePath(Src, file).Replace('\\', '/');

    /// <summary>The room that a file below src/ stands in.</summary>
    public static string Room(string place) => place[..place.LastIndexOf('/')];

    public static string Project(string place) => place[..place.IndexOf('/', StringComparison.Ordinal)];

    private IEnumerable<Use> UsesIn(SyntaxTree tree)
    {
        SemanticModel model = _compilation.GetSemanticModel(tree);
        foreach (SimpleNameSyntax name in tree.GetRoot().DescendantNodes().OfType<SimpleNameSyntax>())
        {
            ISymbol? symbol = model.GetSymbolInfo(name).Symbol;
            INamedTypeSymbol? type = symbol switch
            {
                null or INamespaceSymbol or ILocalSymbol or IParameterSymbol or IRangeVariableSymbol => null,
                INamedTypeSymbol named => named,
                _ => symbol.ContainingType,
            };
            while (type?.ContainingType is { } outer)
            {
                type = outer;
            }
            foreach (Location at in type?.OriginalDefinition.Locations ?? [])
            {
                if (at.SourceTree?.FilePath is { Length: > 0 } file && file != tree.FilePath)
                {
                    yield return new(Place(tree.FilePath), Place(file), type!.Name);
                }
            }
        }
    }

    private static string FindRoot()
    {
        DirectoryInfo? at = new(AppContext.BaseDirectory);
        while (at is not null && !File.Exists(Path.Combine(at.FullName, "FixtureGen.sln")))
        {
            at = at.Parent;
        }
        return at?.FullName ?? throw new DirectoryNotFoundException("no FixtureGen.sln above the tests");
    }
}
