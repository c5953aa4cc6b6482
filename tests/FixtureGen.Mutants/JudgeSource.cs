using System.Text.RegularExpressions;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;

namespace FixtureGen.Mutants;

/// <summary>The judge's source as one compilation, with what the build generated for it.</summary>
internal static partial class JudgeSource
{
    public static CSharpCompilation Compile(string folder)
    {
        CSharpParseOptions options = new(LanguageVersion.Preview);
        string generated = Path.Combine(folder, "obj", "Debug", "net10.0");
        IEnumerable<string> files = Directory
            .EnumerateFiles(folder, "*.cs", SearchOption.AllDirectories)
            .Where(f =>
                !f.Contains("/obj/", StringComparison.Ordinal) && !f.Contains("/bin/", StringComparison.Ordinal)
            )
            .Order(StringComparer.Ordinal)
            .Concat(Directory.EnumerateFiles(generated, "*.cs").Order(StringComparer.Ordinal));
        return CSharpCompilation.Create(
            "FixtureGen.Verify",
            files.Select(f => CSharpSyntaxTree.ParseText(WithoutGenerator(File.ReadAllText(f)), options, f)),
            ((string)AppContext.GetData("TRUSTED_PLATFORM_ASSEMBLIES")!)
                .Split(Path.PathSeparator)
                .Where(p =>
                    Path.GetFileName(p) != "FixtureGen.Verify.dll"
                    && !Path.GetFileName(p).StartsWith("Microsoft.CodeAnalysis", StringComparison.Ordinal)
                )
                .Select(p => MetadataReference.CreateFromFile(p)),
            new CSharpCompilationOptions(
                OutputKind.DynamicallyLinkedLibrary,
                optimizationLevel: OptimizationLevel.Release,
                allowUnsafe: true,
                nullableContextOptions: NullableContextOptions.Enable
            )
        );
    }

    // The compiler's generator of patterns does not run here: each is made where it is first asked for. Lines stay where they are.
    private static string WithoutGenerator(string source) =>
        GeneratedPattern()
            .Replace(
                source,
                "private static readonly Regex ${name}Made = new(${arguments});\n    ${access} static Regex ${name}() => ${name}Made;"
            );

    [GeneratedRegex(
        @"\[GeneratedRegex\((?<arguments>(?:[^()""]|@?""(?:[^""]|"""")*"")*)\)\]\s*(?<access>\w+) static partial Regex (?<name>\w+)\(\);"
    )]
    private static partial Regex GeneratedPattern();
}
