using FixtureGen.Model;
using FixtureGen.Verify.Reading;
using FixtureGen.Verify.Sequence;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify;

/// <summary>Finds out which setup a lone file is for.</summary>
internal static class SetupGuess
{
    public static Setup? Guess(
        Job job,
        FixtureDesign design,
        string fileName,
        string text,
        IReadOnlyList<ProgramText> known
    )
    {
        LineLexer lexer = new(job.Control, new FindingLog(fileName));
        Block[] head = [.. Head(text).Select((t, i) => lexer.Read(i + 1, t))];
        int? number = head.FirstOrDefault(b => b.ProgramNumber is not null)?.ProgramNumber;
        if (number is not null && known.FirstOrDefault(p => p.ProgramNumber == number) is { } same)
        {
            return same.Setup;
        }
        string[] comments = [.. head.SelectMany(b => b.Comments).Select(HeaderCheck.Words).Where(w => w.Length > 0)];
        string label = HeaderCheck.Words(design.Label);
        foreach (string said in comments)
        {
            Setup? setup =
                said.Contains("UNDERSIDE", StringComparison.Ordinal) ? Setup.Underside
                : said.EndsWith("BLOCKTOP", StringComparison.Ordinal) ? Setup.Top
                : label.StartsWith(said, StringComparison.Ordinal) ? Setup.Trim
                : null;
            if (setup is not null)
            {
                return setup;
            }
        }
        return ByName(fileName);
    }

    private static IEnumerable<string> Head(string text)
    {
        using StringReader reader = new(text);
        for (int i = 0; i < 40 && reader.ReadLine() is { } line; i++)
        {
            yield return line;
        }
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
        ProgramVerdict verdict = new()
        {
            Setup = Setup.Top,
            FileName = fileName,
            ProgramNumber = null,
            Findings = [finding],
            Lines = 0,
            Arcs = 0,
            Minutes = 0,
            CutMm = 0,
            RapidMm = 0,
            RemovedMm3 = 0,
            AirCutShare = 0,
            Tools = [],
            Motions = [],
        };
        return new VerifyResult(false, limits.Cell, 0, 0, 0, [verdict], BlockGrid.Raw(design, limits.Cell));
    }

    private static Setup? ByName(string fileName)
    {
        string[] parts = Path.GetFileName(fileName).ToUpperInvariant().Split('.', '-', '_', ' ');
        return parts.Contains("UNDERSIDE") ? Setup.Underside
            : parts.Contains("TOP") ? Setup.Top
            : parts.Contains("TRIM") ? Setup.Trim
            : null;
    }
}
