namespace FixtureGen.App.Files;

/// <summary>
/// A file that stands in for one of the shop's, for one run: nothing is written into the shop. Name null is whatever file of the
/// kind a job names.
/// </summary>
internal sealed record StandIn(string Kind, string? Name, string File)
{
    /// <summary>A plate's file for the plate that each job names; null for none.</summary>
    public static StandIn? Plate(string? file) => file is null ? null : new("plates", null, Path.GetFullPath(file));

    /// <summary>Whether it stands for the shop file of this kind and name.</summary>
    public bool Is(string kind, string name) => kind == Kind && (Name is null || name == Name);

    /// <summary>Whether it stands for the shop file of this path below the library, with forward slashes.</summary>
    public bool Is(string path) =>
        path.Split('/') is ["templates", var kind, var file]
        && file.EndsWith(".toml", StringComparison.Ordinal)
        && Is(kind, Path.GetFileNameWithoutExtension(file));
}
