namespace FixtureGen.Shop;

/// <summary>
/// Where shop files come from: no I/O here. Find gives the path (as findings and staleness name it) and the text of one
/// file by kind ("plates", "blanks", "tools", "materials", "magnets", "gaskets", "fasteners", "controls") and name without
/// ".toml", or null. List gives the names of a kind.
/// </summary>
public sealed record ShopFiles(
    Func<string, string, (string Path, string Text)?> Find,
    Func<string, IEnumerable<string>> List
);
