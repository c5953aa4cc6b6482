using System.Text.RegularExpressions;

namespace FixtureGen.Verify.Reading;

/// <summary>
/// Whether a comment asks for a thing or says that it is not wanted: "FIT THE BOLTS" asks, "NO BOLTS", "BOLTS NOT NEEDED" and "VACUUM
/// OFF" do not. Two denials in one clause ("NEVER WITHOUT VACUUM") ask again.
/// </summary>
internal static partial class Denial
{
    /// <summary>A clause names the word and does not deny it.</summary>
    public static bool AsksFor(string comment, string word) => Clauses(comment).Any(c => Names(c, word) && !Denies(c));

    /// <summary>A clause says outright that there is no such thing: "NO BOLTS", "WITHOUT MAGNETS", "PINS NOT FITTED".</summary>
    public static bool Refuses(string comment, string word) =>
        Clauses(comment)
            .Any(c =>
                Names(c, word)
                && Denies(c)
                && Outright().Count(c) == 1
                && Outright().Match(c) is var m
                && Names(c[m.Index..Math.Min(c.Length, m.Index + m.Length + 1)], word)
            );

    private static bool Names(string clause, string word) => clause.Contains(word, StringComparison.Ordinal);

    /// <summary>One denial, or any odd number of them.</summary>
    private static bool Denies(string clause) => (Negation().Count(clause) & 1) == 1;

    private static string[] Clauses(string comment) => Ends().Split(comment.ToUpperInvariant());

    [GeneratedRegex(@"[.,;:!?|]+(?=\s|$)|\s-\s")]
    private static partial Regex Ends();

    [GeneratedRegex(
        @"\b(?:NO|NOT|NONE|NEVER|WITHOUT|OMIT|SKIP|LEAVE OUT|DON'?T|ZERO)\b|(?<=VACUUM )OFF\b|(?<![\d.])0 (?=BOLT|PIN|MAGNET)"
    )]
    private static partial Regex Negation();

    [GeneratedRegex(
        @"\b(?:NO|WITHOUT|ZERO|OMIT|SKIP|(?<![\d.])0)\s+(?:(?!VACUUM|BOLT|PIN|MAGNET)\w+\s+)?(?:BOLTS?|PINS?|MAGNETS?|VACUUM)\b|\b(?:BOLTS?|PINS?|MAGNETS?|VACUUM)\s+(?:ARE\s+|IS\s+|NEED\s+)?(?:NOT|OFF)\b"
    )]
    private static partial Regex Outright();
}
