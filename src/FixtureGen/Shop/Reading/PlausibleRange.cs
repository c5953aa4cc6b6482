namespace FixtureGen.Shop.Reading;

/// <summary>
/// What one key of a file may be, in the inside unit of its quantity, ends allowed: outside Least..Greatest it is refused,
/// outside From..To, which is published or common practice, it is warned of. Least &lt;= From &lt;= To &lt;= Greatest.
/// </summary>
/// <param name="Kind">What it is measured in; null for a plain number.</param>
/// <param name="Source">Where From..To is published, in words that fit behind a colon; empty where nothing is.</param>
internal sealed record PlausibleRange(
    string Key,
    Quantity? Kind,
    double Least,
    double From,
    double To,
    double Greatest,
    string Source
)
{
    /// <summary>Values that agree to this share are the same: a file's inches become mm by rounding.</summary>
    private const double Rounding = 1e-9;

    /// <summary>A number without a unit.</summary>
    public static PlausibleRange Number(
        string key,
        double least,
        double from,
        double to,
        double greatest,
        string source
    ) => new(key, null, least, from, to, greatest, source);

    /// <summary>A length, mm.</summary>
    public static PlausibleRange Length(
        string key,
        double least,
        double from,
        double to,
        double greatest,
        string source
    ) => new(key, Quantity.Length, least, from, to, greatest, source);

    /// <summary>Only what is possible at all; nothing is warned of.</summary>
    public static PlausibleRange Possible(string key, Quantity? kind, double least, double greatest) =>
        new(key, kind, least, least, greatest, greatest, "");

    public bool Allows(double v) => v >= Least - Slack(Least) && v <= Greatest + Slack(Greatest);

    public bool IsPractice(double v) => v >= From - Slack(From) && v <= To + Slack(To);

    private static double Slack(double v) => Rounding * Math.Abs(v);
}
