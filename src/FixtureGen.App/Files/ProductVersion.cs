using System.Reflection;

namespace FixtureGen.App.Files;

/// <summary>The generator's version as it is built, without a commit suffix.</summary>
internal static class ProductVersion
{
    /// <summary>Such as 0.1.0; a report made by another text is stale.</summary>
    public static string Text { get; } =
        (
            typeof(ProductVersion)
                .Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()
                ?.InformationalVersion
            ?? "0"
        ).Split('+')[0];
}
