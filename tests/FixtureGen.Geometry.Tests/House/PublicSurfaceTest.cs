using System.Reflection;
using FixtureGen.Geometry;
using Xunit;

namespace FixtureGen.Tests.House;

/// <summary>What the kernel's package shows to others changes on purpose only, and it drags nothing but the words of the plane.</summary>
public sealed class PublicSurfaceTest
{
    [Fact]
    public void The_public_surface_is_the_one_written_down()
    {
        string[] found =
        [
            .. typeof(Kernel).Assembly.GetExportedTypes().SelectMany(Lines).Order(StringComparer.Ordinal),
        ];
        string folder = Path.Combine(AppContext.BaseDirectory, "House");
        File.WriteAllLines(Path.Combine(folder, "PublicSurface.received.txt"), found);
        string[] written = File.ReadAllLines(Path.Combine(folder, "PublicSurface.txt"));

        Assert.Equal(written, found);
    }

    [Fact]
    public void The_kernel_references_the_words_of_the_plane_only() =>
        Assert.Equal(
            ["FixtureGen.Plane"],
            typeof(Kernel)
                .Assembly.GetReferencedAssemblies()
                .Select(a => a.Name!)
                .Where(n => !n.StartsWith("System.", StringComparison.Ordinal))
        );

    private static IEnumerable<string> Lines(Type type)
    {
        yield return type.FullName!;
        const BindingFlags Own =
            BindingFlags.Public | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly;
        bool isRecord =
            type.GetMethod("<Clone>$") is not null
            || type.GetMethod("PrintMembers", BindingFlags.NonPublic | BindingFlags.Instance) is not null;
        foreach (MemberInfo member in type.GetMembers(Own))
        {
            // What the compiler adds to records and enums, and accessors of properties, say nothing of their own.
            bool made =
                member.Name.Contains('<', StringComparison.Ordinal)
                || member is MethodBase { IsSpecialName: true, IsConstructor: false }
                || member.Name is "value__"
                || (isRecord && member.Name is "Equals" or "GetHashCode" or "ToString" or "Deconstruct");
            if (!made)
            {
                yield return type.FullName
                    + " "
                    + member.ToString()!.Replace("System.Collections.Immutable.", "", StringComparison.Ordinal);
            }
        }
    }
}
