namespace FixtureGen.Verify.Reading;

/// <summary>What a finding repeats of a program's own text: never so much that it buries the rest, nor what a terminal would obey.</summary>
internal static class Echo
{
    /// <summary>Characters of one quotation; a finding has at most three.</summary>
    private const int Most = 60;

    /// <summary>The text, its rest left out where it is long, each character that is not printed as a question mark.</summary>
    public static string Short(string text)
    {
        string cut = text.Length <= Most ? text : text[..(Most - 3)] + "...";
        return string.Concat(cut.Select(c => char.IsAsciiLetterOrDigit(c) || (c >= ' ' && c <= '~') ? c : '?'));
    }
}
