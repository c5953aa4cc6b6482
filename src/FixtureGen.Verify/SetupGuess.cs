using FixtureGen.Model;
using FixtureGen.Verify.Reading;

namespace FixtureGen.Verify;

/// <summary>Finds out which setup a lone file is for.</summary>
internal static class SetupGuess
{
    private static readonly (string Word, Setup Setup)[] s_words =
    [
        ("UNDERSIDE", Setup.Underside),
        ("TRIM", Setup.Trim),
        ("TOP", Setup.Top),
    ];

    public static Setup? Of(Job job, string fileName, string text, IReadOnlyList<ProgramText> known)
    {
        LineLexer lexer = new(job.Control, new FindingLog(fileName));
        Block[] head = [.. text.Split('\n').Take(40).Select((t, i) => lexer.Read(i + 1, t.TrimEnd('\r')))];
        int? number = head.FirstOrDefault(b => b.ProgramNumber is not null)?.ProgramNumber;
        if (number is not null && known.FirstOrDefault(p => p.ProgramNumber == number) is { } same)
        {
            return same.Setup;
        }
        string comments = string.Join(' ', head.SelectMany(b => b.Comments));
        return InText(comments) ?? InText(fileName);
    }

    public static VerifyResult Unknown(FixtureDesign design, string fileName, Limits limits)
    {
        Finding finding = new(
            "setup-unknown",
            Severity.Error,
            fileName,
            "neither the program number, nor a comment, nor the file's name says which setup this is for",
            "Say it with --setup underside, top or trim"
        );
        ProgramVerdict verdict = new(Setup.Top, fileName, null, [finding], 0, 0, 0, 0, 0, 0, 0, [], []);
        BlockGrid block = new(design.Placement.BlankBox, limits.Cell, 0, design.RawThickness);
        return new VerifyResult(false, limits.Cell, 0, 0, 0, [verdict], block);
    }

    private static Setup? InText(string text)
    {
        foreach ((string word, Setup setup) in s_words)
        {
            if (text.Contains(word, StringComparison.OrdinalIgnoreCase))
            {
                return setup;
            }
        }
        return null;
    }
}
