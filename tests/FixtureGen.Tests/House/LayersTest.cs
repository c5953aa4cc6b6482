using System.Reflection;
using FixtureGen.Model;
using FixtureGen.Verify;
using Xunit;

namespace FixtureGen.Tests.House;

public sealed class LayersTest
{
    [Fact]
    public void Model_references_nothing_but_the_framework() => Assert.Empty(OwnReferences(typeof(Finding).Assembly));

    [Fact]
    public void Judge_references_the_model_only() =>
        Assert.Equal(["FixtureGen.Model"], OwnReferences(typeof(VerifyResult).Assembly));

    private static string[] OwnReferences(Assembly assembly) =>
        [
            .. assembly
                .GetReferencedAssemblies()
                .Select(a => a.Name!)
                .Where(n => !n.StartsWith("System.", StringComparison.Ordinal) && n != "mscorlib" && n != "netstandard")
                .Order(StringComparer.Ordinal),
        ];
}
