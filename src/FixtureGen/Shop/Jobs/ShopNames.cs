namespace FixtureGen.Shop.Jobs;

/// <summary>Names of shop files for keys that a job leaves open; null for the first by name.</summary>
public sealed record ShopNames(string? Blank, string? Gasket, string? Magnet, string? TrimTool)
{
    /// <summary>True where they go before what the job states: to find out what a stated value costs.</summary>
    public bool Overrule { get; init; }

    /// <summary>The first of each kind.</summary>
    public static ShopNames First { get; } = new(null, null, null, null);
}
