using System.Reflection;
using FixtureGen.Model;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Tests.House;

public sealed class LayersTest
{
    // The words of the plane are the model's, in an assembly of their own so that the kernel's package drags no more.
    private const string Plane = "FixtureGen.Plane";

    [Fact]
    public void The_words_of_the_plane_reference_nothing_but_the_framework() =>
        Assert.Empty(OwnReferences(typeof(Point2).Assembly));

    [Fact]
    public void Model_references_the_words_of_the_plane_only() =>
        Assert.Equal([Plane], OwnReferences(typeof(Finding).Assembly));

    [Fact]
    public void Judge_references_the_model_only() =>
        Assert.Equal(["FixtureGen.Model", Plane], OwnReferences(typeof(VerifyResult).Assembly));

    private static string[] OwnReferences(Assembly assembly) =>
        [
            .. assembly
                .GetReferencedAssemblies()
                .Select(a => a.Name!)
                .Where(n => !n.StartsWith("System.", StringComparison.Ordinal) && n != "mscorlib" && n != "netstandard")
                .Order(StringComparer.Ordinal),
        ];
}
