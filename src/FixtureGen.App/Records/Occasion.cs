using System.Globalization;

namespace FixtureGen.App.Records;

/// <summary>When, by whom and why something is noted: what every event of one command shares. At is UTC, ISO 8601 to the second.</summary>
internal sealed record Occasion(string At, string Who, string Why)
{
    /// <summary>
    /// The clock's and the user's. A build that must come out alike twice states its time in SOURCE_DATE_EPOCH, seconds since
    /// 1970 (the reproducible builds' specification of that name); no program or paper ever has either time.
    /// </summary>
    public static Occasion Now(string? who, string? why)
    {
        DateTimeOffset at = long.TryParse(
            Environment.GetEnvironmentVariable("SOURCE_DATE_EPOCH"),
            NumberStyles.None,
            CultureInfo.InvariantCulture,
            out long stated
        )
            ? DateTimeOffset.UnixEpoch.AddSeconds(Math.Min(stated, int.MaxValue))
            : TimeProvider.System.GetUtcNow();
        return new(
            at.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture),
            string.IsNullOrWhiteSpace(who) ? Environment.UserName : who.Trim(),
            why?.Trim() ?? ""
        );
    }
}
