using FixtureGen.Model;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests.Support;

/// <summary>One slip in a good program, and the line that a finding about it must name.</summary>
internal static class Slip
{
    /// <summary>How far from the slip, in lines, its finding may stand.</summary>
    private const int Near = 3;

    /// <summary>The text with the first <paramref name="good"/> replaced, and the line (1-based) where that is.</summary>
    public static (string Text, int Line) Make(string text, string good, string bad)
    {
        int at = text.IndexOf(good, StringComparison.Ordinal);
        Assert.True(at >= 0, $"'{good}' does not stand in the program");
        return (text[..at] + bad + text[(at + good.Length)..], text[..at].Count(c => c == '\n') + 1);
    }

    /// <summary>Nothing at all is said.</summary>
    public static void Nothing(VerifyResult result) =>
        Assert.Empty(result.Findings.Select(f => $"{f.Where} {f.Code} {f.Message}"));

    /// <summary>A finding of the code stands within three lines of the slip, or of the line that begins with <paramref name="told"/>.</summary>
    public static void Found(VerifyResult result, string text, int line, string code, string? told = null)
    {
        if (told is not null)
        {
            line = Array.FindIndex(text.Split('\n'), l => l.StartsWith(told, StringComparison.Ordinal)) + 1;
            Assert.True(line > 0, $"no line begins with '{told}'");
        }
        Finding[] all = [.. result.Findings];
        string list = string.Join('\n', all.Select(f => $"{f.Where} {f.Code} {f.Message}"));
        Assert.True(
            all.Any(f => f.Code == code && f.Line is { } l && Math.Abs(l - line) <= Near),
            FormattableString.Invariant($"no {code} near line {line}:\n{list}")
        );
        Assert.All(all, f => Assert.NotEqual("", f.Remedy));
    }
}
